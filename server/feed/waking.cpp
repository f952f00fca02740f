#include "server/feed/waking.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "server/feed/read_match.h"

namespace courthand::server {

bool Waking::wanted(MatchId match) const {
    bool rests = false;
    keeper_.read(match, [&](const LiveMatch& live) {
        rests = live.record == nullptr && live.head.last > 0;
    });
    if (!rests) return false;
    const std::lock_guard lock{mutex_};
    return std::none_of(ready_.begin(), ready_.end(),
                        [&](const auto& ready) { return ready->live().key.match == match; });
}

void Waking::prepare(MatchId match) {
    std::optional<StoredMatch> resting;
    keeper_.read(match, [&](const LiveMatch& live) {
        if (live.record == nullptr)
            resting = StoredMatch{live.plan, live.head, live.asked, live.branches};
    });
    if (!resting) return;
    auto folded = read_match(store_, *resting);
    if (!folded.ok()) return;
    const std::lock_guard lock{mutex_};
    (void)remove(match);
    if (ready_.size() >= most_ready) ready_.pop_front();
    ready_.push_back(*std::move(folded));
}

std::unique_ptr<FoldedMatch> Waking::take(MatchId match, const MatchHead& end) {
    const std::lock_guard lock{mutex_};
    auto ready = remove(match);
    const bool fits = ready != nullptr && ready->live().head.last == end.last &&
                      ready->live().head.hash == end.hash;
    return fits ? std::move(ready) : nullptr;
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
