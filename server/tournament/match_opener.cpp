#include "server/tournament/match_opener.h"

#include <utility>
#include <vector>

#include "server/tournament/opening.h"
#include "server/tournament/say.h"

namespace courthand::server::tournament {

namespace {

/// Others did the same, or more: the next look finds it.
bool done_by_another(const Status& status) {
    return status.code == StatusCode::already_exists || status.code == StatusCode::conflict ||
           status.code == StatusCode::not_found;
}

}  // namespace

MatchOpener::MatchOpener(TournamentId tournament, RecordKeeper& record, MatchStore& matches,
                         Looked looked)
    : tournament_{tournament}, record_{record}, matches_{matches}, looked_{std::move(looked)} {}

Status MatchOpener::look() {
    const std::scoped_lock lock{looking_mutex_};
    const auto stored = matches_.matches(tournament_);
    if (!stored.ok()) return stored.status();
    const auto known = open_records(*stored);
    if (!known.ok()) return known.status();
    return keep(opening(tournament_, *known, *stored));
}

Result<KnownRecord> MatchOpener::open_records(const std::vector<StoredMatch>& stored) {
    return say(record_, this_server(),
               [&](const KnownRecord& known) -> Result<std::vector<Act::Said>> {
                   std::vector<event::Said> facts;
                   for (event::RecordOpened& record : opening(tournament_, known, stored).records)
                       if (facts.size() < most_facts_per_append)
                           facts.push_back({std::move(record), {}});
                   return newly_said(std::move(facts));
               });
}

Status MatchOpener::keep(const Opening& opening) {
    bool overtaken = false;
    const auto failed = [&](const Status& status) {
        overtaken = overtaken || done_by_another(status);
        return !status.ok() && !done_by_another(status);
    };
    for (const MatchPlan& plan : opening.made)
        if (const Status status = matches_.create_match(plan).status(); failed(status))
            return status;
    for (const Opening::Change& change : opening.changed) {
        const auto kept = change.before_play ? matches_.change_unbegun(change.plan)
                                             : matches_.change_match(change.plan);
        if (failed(kept.status())) return kept.status();
    }
    overtaken_ = overtaken;
    return Status::fine();
}

void MatchOpener::start() {
    if (thread_.runs()) return;
    listening_ = record_.listen([this] { thread_.wake(); });
    thread_.start();
}

void MatchOpener::stop() {
    if (!thread_.runs()) return;
    record_.stop_listening(listening_);
    thread_.stop();
}

bool MatchOpener::look_and_tell() {
    Status status = Status::failed(StatusCode::internal, "the look threw");
    const auto tell = [&] {
        telling_shield_.run([&] {
            if (looked_) looked_(status);
        });
    };
    try {
        status = look();
    } catch (...) {
        tell();
        throw;
    }
    tell();
    return status.ok() && !overtaken_;
}

}  // namespace courthand::server::tournament
