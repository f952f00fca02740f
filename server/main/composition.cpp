#include "server/main/composition.h"

#include "server/desk/demo_venue.h"
#include "server/desk/postgres/pg_desk_store.h"

namespace courthand::server {

Composition::Composition(Basis basis_, Follower::Report report)
    : basis{std::move(basis_)},
      stamp{basis.name.id, basis.name.starts, [this] { return hub.head(); }},
      venue{{basis.tournament.id, basis.tournament.name, basis.foundation.database, basis.authority,
             basis.foundation.matches, keeper, work, hub, presence, stamp, streams, refusals}},
      ingest{basis.foundation.matches},
      work{work_threads},
      follower{basis.tournament.id,
               {basis.foundation.matches, keeper, presence, hub},
               std::move(report)} {
    keeper.add_observer(event_log);
    keeper.add_observer(venue.observer());
}

Status Composition::fill_demo() {
    const auto desk = desk::make_pg_desk_store(basis.foundation.database, basis.tournament.id);
    return desk::fill_demo_venue(*desk, basis.foundation.matches, basis.tournament.id);
}

Status Composition::start() {
    if (!venue_started_) {
        if (const Status started = venue.start(); !started.ok()) return started;
        venue_started_ = true;
    }
    if (const Status rebuilt = follower.rebuild(); !rebuilt.ok()) return rebuilt;
    follower.start();
    basis.foundation.matches.set_listener([this](TournamentId tournament) {
        if (tournament.nil() || tournament == basis.tournament.id) follower.wake();
    });
    return Status::fine();
}

void Composition::stop() {
    basis.foundation.matches.set_listener({});
    venue.stop();
}

service::SyncParts Composition::sync_parts() {
    return {basis.tournament.id,
            basis.tournament.generation,
            basis.foundation.matches,
            keeper,
            ingest,
            work,
            hub,
            presence,
            stamp,
            streams,
            [this](TeamId id) { return venue.team(id); },
            [this](DeviceId id) { return venue.withdrawn(id); }};
}

}  // namespace courthand::server
