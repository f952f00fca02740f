#include "server/feed/waking.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "server/feed/read_match.h"

namespace courthand::server {

namespace {

bool ends_at(const FoldedMatch& ready, const MatchHead& end) {
    return ready.live().head.last == end.last && ready.live().head.hash == end.hash;
}

}  // namespace

std::optional<StoredMatch> Waking::resting(MatchId match) const {
    std::optional<StoredMatch> resting;
    keeper_.read(match, [&](const LiveMatch& live) {
        if (live.record == nullptr && live.head.last > 0)
            resting = StoredMatch{live.plan, live.head, live.asked, live.branches};
    });
    return resting;
}

bool Waking::wanted(MatchId match) const {
    const auto rests = resting(match);
    if (!rests) return false;
    const std::scoped_lock lock{mutex_};
    return std::none_of(ready_.begin(), ready_.end(), [&](const auto& ready) {
        return ready->live().key.match == match && ends_at(*ready, rests->head);
    });
}

void Waking::prepare(MatchId match) {
    const auto rests = resting(match);
    if (!rests) return let_go(match);
    auto folded = read_match(store_, *rests);
    if (!folded.ok()) return;
    const std::scoped_lock lock{mutex_};
    (void)remove(match);
    // It went on while it was read: the fold thread has read it, and nobody will ask for this.
    const auto now = resting(match);
    if (!now || !ends_at(**folded, now->head)) return;
    if (ready_.size() >= most_ready) ready_.pop_front();
    ready_.push_back(*std::move(folded));
}

void Waking::let_go(MatchId match) {
    const std::scoped_lock lock{mutex_};
    (void)remove(match);
}

std::unique_ptr<FoldedMatch> Waking::take(MatchId match, const MatchHead& end) {
    const std::scoped_lock lock{mutex_};
    auto ready = remove(match);
    return ready != nullptr && ends_at(*ready, end) ? std::move(ready) : nullptr;
}

/// Needs the lock.
std::unique_ptr<FoldedMatch> Waking::remove(MatchId match) {
    const auto found = std::find_if(ready_.begin(), ready_.end(), [&](const auto& ready) {
        return ready->live().key.match == match;
    });
    if (found == ready_.end()) return nullptr;
    auto removed = std::move(*found);
    ready_.erase(found);
    return removed;
}

}  // namespace courthand::server
