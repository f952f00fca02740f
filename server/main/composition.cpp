#include "server/main/composition.h"

#include <algorithm>
#include <utility>

#include "server/desk/event_opening.h"
#include "server/desk/table_move.h"
#include "server/main/log.h"
#include "server/main/version.h"

namespace courthand::server {

Composition::Composition(Basis basis_, Follower::Report report)
    : basis{std::move(basis_)},
      record{basis.tournament.id, basis.stores.facts},
      desk{record},
      stamp{{basis.name.id, basis.name.starts, version, [this] { return hub.head(); },
             [this] { return hub.generation(); }}},
      audit{basis.stores.audit},
      rights{basis.tournament.id, keeper, basis.stores.matches},
      venue{{basis.tournament.id,
             basis.tournament.name,
             basis.stores.enrolments,
             basis.stores.watched_enrolments,
             basis.stores.alerts,
             basis.stores.refused,
             basis.stores.heard,
             desk,
             basis.stores.facts,
             record,
             basis.authority,
             basis.stores.matches,
             keeper,
             work,
             hub,
             presence,
             stamp,
             streams,
             basis.stores.audit,
             audit,
             refusals,
             [this](const LiveMatch& match) { return closer.left_to_desk(match); },
             basis.clock}},
      waking{basis.stores.matches, keeper},
      follower{basis.tournament.id,
               {basis.stores.path, keeper, presence, hub, &waking},
               std::move(report)},
      ingest{basis.stores.path},
      opener{basis.tournament.id, record, basis.stores.matches,
             [this](const Status& status) {
                 note_look(status);
                 venue.renew_courts();
             }},
      closer{record,
             keeper,
             {basis.signed_stand, [now = basis.clock] { return now().steady; }},
             [this](MatchId match, const Status& status) { note_closed(match, status); }} {
    keeper.add_observer(event_log);
    keeper.add_observer(venue.keeper());
    keeper.add_observer(closer);
    ingest.set_committed([this](std::span<const FeedItem> items) { follower.offer(items); });
}

namespace {

/// What stands otherwise in the record is told once; a database with more of it was filled by hand.
void tell(const desk::Moved& moved) {
    constexpr std::size_t most_told = 100;
    for (std::size_t i = 0; i < std::min(moved.notes.size(), most_told); ++i)
        log(LogLevel::warn, "desk-moved", "note", moved.notes[i]);
    if (moved.teams + moved.courts + moved.matches > 0)
        log(LogLevel::info, "desk-moved", "teams", moved.teams, "courts", moved.courts, "matches",
            moved.matches, "notes", moved.notes.size());
}

}  // namespace

Status Composition::prepare() {
    if (prepared_) return Status::fine();
    if (basis.stores.former != nullptr) {
        const auto moved = desk::move_tables(*basis.stores.former, record, basis.stores.matches,
                                             basis.tournament.id);
        if (!moved.ok()) return moved.status();
        tell(*moved);
    }
    prepared_ = true;
    return Status::fine();
}

Status Composition::open_event(const desk::EventScriptRead& script) {
    if (Status status = prepare(); !status.ok()) return status;
    return desk::open_event(record, basis.tournament.id, script);
}

Status Composition::start() {
    if (Status status = prepare(); !status.ok()) return status;
    if (!venue_started_) {
        if (const Status started = venue.start(); !started.ok()) return started;
        venue_started_ = true;
    }
    if (const Status rebuilt = follower.rebuild(); !rebuilt.ok()) return rebuilt;
    follower.start();
    basis.stores.listen([this](TournamentId tournament) {
        if (tournament.nil() || tournament == basis.tournament.id) follower.wake();
    });
    opener.start();
    closer.start();
    return Status::fine();
}

/// Once for each reason, and once when it is over.
void Composition::note_look(const Status& status) {
    if (status.code == looked_) return;
    looked_ = status.code;
    if (status.ok())
        log(LogLevel::info, "matches-opened-again");
    else
        log(LogLevel::warn, "matches-not-opened", "why", status.text());
}

/// A refusal comes once for each match. What passes is tried soon again, and told once.
void Composition::note_closed(MatchId match, const Status& status) {
    if (status.ok())
        log(LogLevel::info, "signed-result-settled", "match", to_text(match));
    else if (status.code == StatusCode::invalid || status.code != closed_)
        log(LogLevel::warn, "signed-result-not-confirmed", "match", to_text(match), "why",
            status.text());
    closed_ = status.code;
}

void Composition::stop() {
    closer.stop();
    opener.stop();
    basis.stores.listen({});
    follower.stop();
    // A database that keeps nothing would be waited for in vain.
    if (ingest.keeps_nothing_for().count() == 0) follower.keep_snapshots();
    venue.stop();
}

service::SyncParts Composition::sync_parts() {
    return {basis.tournament.id,
            basis.stores.matches,
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
