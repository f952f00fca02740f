// Keeps every match of one tournament folded in memory, and tells observers what changed.
//
// Threading: one fold thread calls `load`, `take`, `rebuilt` and `seen`; any thread may read
// through `read` and `read_at`. Observers are added before the first call of the fold thread.
#pragma once

#include <chrono>
#include <condition_variable>
#include <functional>
#include <memory>
#include <optional>
#include <shared_mutex>
#include <span>
#include <unordered_map>
#include <vector>

#include "server/domain/match_observer.h"
#include "wire/fold_record.h"

namespace courthand::server {

class MatchKeeper {
  public:
    MatchKeeper();
    ~MatchKeeper();
    MatchKeeper(const MatchKeeper&) = delete;
    MatchKeeper& operator=(const MatchKeeper&) = delete;

    /// Not owned; must outlive the keeper's use.
    void add_observer(MatchObserver& observer) { observers_.push_back(&observer); }

    /// The plan and head of a match as the store has them now.
    void load(const StoredMatch& match, FeedPosition position);
    /// The next item of the feed. A `described` item must be loaded by the caller first.
    void take(const FeedItem& item);
    /// The feed has been read to its end: observers hear of every match, then of news only.
    void rebuilt();
    void seen(const DeviceSeen& device);

    /// True when the item speaks of a match that is not loaded, or of a writer that is not known:
    /// the caller loads the match before it hands over the item.
    [[nodiscard]] bool needs_load(const FeedItem& item) const;
    /// Last feed item that was taken.
    [[nodiscard]] FeedPosition position() const;
    /// Waits until the item at `position` was taken, at most `patience`; false when it was not.
    bool wait_for(FeedPosition position, std::chrono::milliseconds patience) const;

    /// Calls `reader` with the match while it cannot change; false when it is not known.
    bool read(MatchId match, const std::function<void(const LiveMatch&)>& reader) const;
    /// Calls `reader` with all matches in the order of the plan while none can change; answers the
    /// position up to which they are folded.
    [[nodiscard]] FeedPosition read_at(
        const std::function<void(std::span<const LiveMatch* const>)>& reader) const;

    /// Matches planned on a court that are not over, the one in play first, then by plan.
    [[nodiscard]] std::vector<MatchId> on_court(std::uint32_t court) const;

  private:
    struct Kept;
    void append(Kept& kept, const FeedItem& item, std::vector<RaisedVerdict>& raised,
                bool& corrected);
    void tell_changed(const MatchChanged& change);

    std::vector<MatchObserver*> observers_;
    mutable std::shared_mutex mutex_;
    std::unordered_map<MatchId, std::unique_ptr<Kept>> matches_;
    mutable std::condition_variable_any moved_;
    FeedPosition position_ = 0;
    bool rebuilding_ = true;
};

}  // namespace courthand::server
