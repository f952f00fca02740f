#include "server/tournament/result_closer.h"

#include <algorithm>
#include <utility>

#include "server/tournament/say.h"
#include "server/tournament/signed_result.h"

namespace courthand::server::tournament {

ResultCloser::ResultCloser(RecordKeeper& record, const MatchKeeper& matches, Stand stand, Told told)
    : record_{record}, matches_{matches}, stand_{std::move(stand)}, told_{std::move(told)} {}

void ResultCloser::on_match_changed(const MatchChanged& change) {
    if (change.match.closed()) thread_.wake();
}

bool ResultCloser::look() {
    const std::scoped_lock looking{looking_mutex_};
    const KnownRecord known = record_.known();
    const auto found = to_confirm(known);
    forget_others(found);
    bool done = true;
    for (const Signed& one : found) {
        const auto ref = known.state->find_match(one.result.match);
        if (!ref || !stands(one)) continue;
        const Grounds grounds{one.result,
                              known.state->match(*ref),
                              {known.state->side(*ref, 0), known.state->side(*ref, 1)},
                              known.reading};
        if (was_refused(one.match, grounds)) continue;
        const Status status = confirm(one);
        if (status.code == StatusCode::invalid) {
            const std::scoped_lock lock{refused_mutex_};
            refused_.insert_or_assign(one.match, Refused{grounds, status.text()});
        } else {
            done = done && status.ok();
        }
        if (told_) told_(one.match, status);
    }
    return done;
}

std::vector<ResultCloser::Signed> ResultCloser::to_confirm(const KnownRecord& known) const {
    std::vector<Signed> found;
    if (known.state->confirmer != event::Confirmer::signatures) return found;
    (void)matches_.read_at([&](std::span<const LiveMatch* const> all) {
        for (const LiveMatch* const match : all)
            if (auto result = signed_result(known, *match))
                found.push_back({match->key.match, *std::move(result)});
    });
    return found;
}

void ResultCloser::forget_others(const std::vector<Signed>& found) {
    const auto is_other = [&](const auto& kept) {
        return std::none_of(found.begin(), found.end(),
                            [&](const Signed& one) { return one.match == kept.first; });
    };
    std::erase_if(standing_, is_other);
    const std::scoped_lock lock{refused_mutex_};
    std::erase_if(refused_, is_other);
}

bool ResultCloser::stands(const Signed& one) {
    const SteadyTime now = stand_.now();
    Standing& standing =
        standing_.try_emplace(one.match, Standing{one.result.head, now}).first->second;
    if (standing.head != one.result.head) standing = {one.result.head, now};
    const auto stood = std::chrono::duration_cast<std::chrono::milliseconds>(now - standing.since);
    if (stood >= stand_.time) return true;
    thread_.look_again_in(stand_.time - stood);
    return false;
}

bool ResultCloser::was_refused(MatchId match, const Grounds& grounds) const {
    const std::scoped_lock lock{refused_mutex_};
    const auto refused = refused_.find(match);
    return refused != refused_.end() && refused->second.grounds == grounds;
}

Status ResultCloser::confirm(const Signed& one) {
    return say(record_, {DeviceId{}, signing_author()},
               [&](const KnownRecord& known) -> Result<std::vector<Act::Said>> {
                   std::vector<event::Said> facts;
                   (void)matches_.read(one.match, [&](const LiveMatch& live) {
                       auto result = signed_result(known, live);
                       // What has come to its record since must stand in its turn.
                       if (result && result->head == one.result.head)
                           facts.push_back({*std::move(result), {}});
                   });
                   return newly_said(std::move(facts));
               })
        .status();
}

std::string ResultCloser::left_to_desk(const LiveMatch& match) const {
    const KnownRecord known = record_.known();
    std::string why = tournament::left_to_desk(known, match);
    if (!why.empty() || !signed_result(known, match)) return why;
    const std::scoped_lock lock{refused_mutex_};
    const auto refused = refused_.find(match.key.match);
    const bool same =
        refused != refused_.end() && refused->second.grounds.result.head.bytes == match.head.hash;
    return same ? refused->second.why : std::string{};
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
