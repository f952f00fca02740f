#include "server/tournament/result_closer.h"

#include <utility>

#include "server/tournament/say.h"
#include "server/tournament/signed_result.h"

namespace courthand::server::tournament {

ResultCloser::ResultCloser(RecordKeeper& record, const MatchKeeper& matches, Told told)
    : record_{record}, matches_{matches}, told_{std::move(told)} {}

void ResultCloser::on_match_changed(const MatchChanged& change) {
    if (change.match.closed()) thread_.wake();
}

bool ResultCloser::look() {
    bool done = true;
    for (const MatchId match : to_confirm()) {
        const Status status = confirm(match);
        // What the record refuses it refuses again: the desk sees the match among those to confirm.
        done = done && (status.ok() || status.code == StatusCode::invalid);
        if (told_) told_(match, status);
    }
    return done;
}

std::vector<MatchId> ResultCloser::to_confirm() const {
    std::vector<MatchId> found;
    const KnownRecord known = record_.known();
    if (known.state->confirmer != event::Confirmer::signatures) return found;
    (void)matches_.read_at([&](std::span<const LiveMatch* const> all) {
        for (const LiveMatch* const match : all)
            if (signed_result(known, *match)) found.push_back(match->key.match);
    });
    return found;
}

Status ResultCloser::confirm(MatchId match) {
    return say(record_, {DeviceId{}, signing_author()},
               [&](const KnownRecord& known) -> Result<std::vector<Act::Said>> {
                   std::vector<event::Said> facts;
                   (void)matches_.read(match, [&](const LiveMatch& live) {
                       if (auto result = signed_result(known, live))
                           facts.push_back({*std::move(result), {}});
                   });
                   return newly_said(std::move(facts));
               })
        .status();
}

void ResultCloser::start() {
    if (thread_.runs()) return;
    listening_ = record_.listen([this] { thread_.wake(); });
    thread_.start();
}

void ResultCloser::stop() {
    if (!thread_.runs()) return;
    record_.stop_listening(listening_);
    thread_.stop();
}

}  // namespace courthand::server::tournament
