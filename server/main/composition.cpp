#include "server/main/composition.h"

#include "server/audit/postgres/pg_audit_store.h"
#include "server/desk/demo_venue.h"
#include "server/desk/postgres/pg_desk_store.h"
#include "server/main/version.h"

namespace courthand::server {

Composition::Composition(Basis basis_, Follower::Report report)
    : basis{std::move(basis_)},
      stamp{{basis.name.id, basis.name.starts, version, [this] { return hub.head(); },
             [this] { return hub.generation(); }}},
      audit_store{audit::make_pg_audit_store(basis.foundation.database, basis.tournament.id)},
      audit{*audit_store},
      rights{basis.tournament.id, keeper, basis.foundation.matches},
      venue{{basis.tournament.id, basis.tournament.name, basis.foundation.database,
             basis.foundation.watch_database, basis.authority, basis.foundation.matches, keeper,
             work, hub, presence, stamp, streams, *audit_store, audit, refusals}},
      waking{basis.foundation.matches, keeper},
      follower{basis.tournament.id,
               {basis.foundation.path, keeper, presence, hub, &waking},
               std::move(report)},
      ingest{basis.foundation.path} {
    keeper.add_observer(event_log);
    keeper.add_observer(venue.observer());
    ingest.set_committed([this](std::span<const FeedItem> items) { follower.offer(items); });
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
    const MatchStore::Listener wake = [this](TournamentId tournament) {
        if (tournament.nil() || tournament == basis.tournament.id) follower.wake();
    };
    basis.foundation.path.set_listener(wake);
    basis.foundation.matches.set_own_listener(wake);
    return Status::fine();
}

void Composition::stop() {
    basis.foundation.matches.set_own_listener({});
    basis.foundation.path.set_listener({});
    follower.stop();
    // A database that keeps nothing would be waited for in vain.
    if (ingest.keeps_nothing_for().count() == 0) follower.keep_snapshots();
    venue.stop();
}

service::SyncParts Composition::sync_parts() {
    return {basis.tournament.id,
            basis.foundation.matches,
            keeper,
            ingest,
            work,
            hub,
            presence,
            stamp,
            streams,
            rights,
            refusals,
            audit,
            waking,
            [this](TeamId id) { return venue.team(id); },
            [this](DeviceId id) { return venue.withdrawn(id); },
            [this](DeviceId id) { return venue.key_of(id); }};
}

}  // namespace courthand::server
