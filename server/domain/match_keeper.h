// Keeps every match of one tournament folded in memory, and tells observers what changed.
//
// The record of a match is held in memory only while somebody plays or has just played it; then it
// rests: what it came to stays, its entries are in the store, and its snapshot there spares the
// next start the fold.
//
// Threading: one fold thread calls everything up to `seen`; any thread may read through the others.
// Observers are added before the first call of the fold thread.
#pragma once

#include <chrono>
#include <condition_variable>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <shared_mutex>
#include <span>
#include <unordered_map>
#include <utility>
#include <vector>

#include "server/domain/folded_match.h"
#include "server/domain/match_observer.h"
#include "server/domain/match_snapshot.h"

namespace courthand::server {

class MatchKeeper {
  public:
    using Steady = std::chrono::steady_clock::time_point;
    /// A match that is over is looked at, signed and corrected for a while; then it rests.
    static constexpr std::chrono::minutes over_rests_after{2};
    /// Any match that nobody has touched this long: play went on elsewhere or another day.
    static constexpr std::chrono::minutes any_rests_after{30};

    MatchKeeper();
    ~MatchKeeper();
    MatchKeeper(const MatchKeeper&) = delete;
    MatchKeeper& operator=(const MatchKeeper&) = delete;

    /// Not owned; must outlive the keeper's use.
    void add_observer(MatchObserver& observer) { observers_.push_back(&observer); }

    // Reading all matches of the store, at the start and when the database was put back. Readers
    // see the matches of before until `rebuilt`.
    void begin_anew();
    /// `parts` are those of the snapshot when the match comes from one.
    void add(std::unique_ptr<FoldedMatch> match, const SnapshotParts& parts = {});
    /// All matches were added as they stood at this position of the feed; from now on there is
    /// news.
    void rebuilt(FeedPosition position);

    /// The plan and head of a match as the store has them now.
    void load(const StoredMatch& match, FeedPosition position);

    enum class Taken : std::uint8_t {
        taken,
        out_of_order,  ///< the entry does not follow what is folded: the database was put back
    };
    /// The next item of the feed. A `described` item must be loaded by the caller first. Observers
    /// hear of new entries when `tell` is called, or before they hear of anything else.
    Taken take(const FeedItem& item);
    /// Tells the observers of the entries taken since, those of a match together: what a board and
    /// alerts make of a match is made once for all of them.
    void tell();
    /// Goes on after an item that is out of order however often all is read: the record in the
    /// store has a hole. That match is judged no further; the others must not suffer.
    void give_up(const FeedItem& item);
    /// True once after a match threw for the first time while it was folded or told of: everything
    /// is to be read anew. One that throws again is given up: it is judged no further.
    [[nodiscard]] bool wants_anew() noexcept { return std::exchange(wants_anew_, false); }
    void seen(const DeviceSeen& device);

    /// Matches that may rest now, `most` at most.
    [[nodiscard]] std::vector<MatchId> due_to_rest(Steady now, std::size_t most) const;
    /// Matches with entries whose snapshot is not in the store as they are now.
    [[nodiscard]] std::vector<MatchId> without_snapshot() const;
    /// False of a match that threw: what this program made of it is not to be kept.
    [[nodiscard]] bool is_sound(MatchId match) const;
    /// What to keep for a match; nothing when it is not known or cannot be kept.
    [[nodiscard]] std::optional<MatchSnapshot> snapshot_of(MatchId match) const;
    /// The store has this snapshot.
    void kept(const MatchSnapshot& snapshot);
    /// Lets the record go; its snapshot was kept before.
    void rest(MatchId match);
    /// The match as it must be folded again, before this item can be taken; nothing when it need
    /// not be.
    [[nodiscard]] std::optional<StoredMatch> needs_record(const FeedItem& item) const;
    /// The match `needs_record` asked for.
    void go_on(std::unique_ptr<FoldedMatch> folded);

    /// True when the item speaks of a match that is not loaded, or of a writer that is not known:
    /// the caller loads the match before it hands over the item.
    [[nodiscard]] bool needs_load(const FeedItem& item) const;
    /// Last feed item that was taken.
    [[nodiscard]] FeedPosition position() const;
    /// Waits until the item at `position` was taken, at most `patience`; false when it was not.
    bool wait_for(FeedPosition position, std::chrono::milliseconds patience) const;

    using Reader = std::function<void(const LiveMatch&)>;
    using AllReader = std::function<void(std::span<const LiveMatch* const>)>;
    /// Calls `reader` with the match while it cannot change; false when it is not known.
    bool read(MatchId match, const Reader& reader) const;
    /// Calls `reader` with all matches in the order of the plan while none can change; answers the
    /// position up to which they are folded. So do the next two.
    [[nodiscard]] FeedPosition read_at(const AllReader& reader) const;
    /// With the one match, or with none when it is not known.
    [[nodiscard]] FeedPosition read_one(MatchId match, const AllReader& reader) const;
    /// With the matches of `on_court`, in their order.
    [[nodiscard]] FeedPosition read_court(std::uint32_t court, const AllReader& reader) const;

    /// Matches planned on a court that are not over, the one in play first, then by plan.
    [[nodiscard]] std::vector<MatchId> on_court(std::uint32_t court) const;

  private:
    struct Place {
        std::unique_ptr<FoldedMatch> match;
        Steady touched;   ///< when its record last grew
        Hash snapshot{};  ///< hash of the entry up to which the store has a snapshot
    };
    using Matches = std::unordered_map<MatchId, Place>;
    /// New entries of a match of which the observers have not heard.
    struct Untold {
        EntryNumber first = 0;
        EntryNumber last = 0;
        bool corrected = false;
        std::vector<RaisedVerdict> raised;
        FeedPosition position = 0;
    };
    void note_untold(const FeedItem& item, FoldedMatch::Appended appended);
    /// Calls `tell` with each observer; what one throws is the fault of this match.
    template <class Tell>
    void tell_observers(MatchId match, const Tell& tell);
    /// True from the second time on.
    [[nodiscard]] bool stumbled(MatchId match);
    void give_up_by_own_fault(MatchId match);
    /// After what is untold: observers hear in the order of the feed.
    void tell_changed(const MatchChanged& change);
    void tell_of_item(const FeedItem& item, const LiveMatch* live);
    [[nodiscard]] FoldedMatch* find(MatchId match) const;
    /// Of the fold thread: also while all matches are being read.
    [[nodiscard]] Place* place_of(MatchId match);
    [[nodiscard]] const Place* place_of(MatchId match) const;

    std::vector<MatchObserver*> observers_;
    // Of the fold thread alone.
    bool building_ = false;    ///< between `begin_anew` and `rebuilt`
    Matches coming_;           ///< meanwhile
    std::set<MatchId> awake_;  ///< matches that hold a record with entries
    std::map<MatchId, Untold> untold_;
    std::map<MatchId, int> stumbles_;  ///< how often a match threw
    bool wants_anew_ = false;

    mutable std::shared_mutex mutex_;
    Matches matches_;
    mutable std::condition_variable_any moved_;
    FeedPosition position_ = 0;
};

}  // namespace courthand::server
