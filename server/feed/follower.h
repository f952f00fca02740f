// The fold thread: follows the feed of one tournament in the store, whoever wrote it, folds it into
// the keeper and shows it to the watchers. A feed that went back, because the database was put back
// or a standby that was behind took over, is noticed: then everything is read anew.
#pragma once

#include <atomic>
#include <condition_variable>
#include <functional>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

#include "server/domain/match_keeper.h"
#include "server/domain/presence.h"
#include "server/feed/hub.h"
#include "server/feed/waking.h"

namespace courthand::server {

class Follower {
  public:
    /// Looks by itself this often, should a notification be lost.
    static constexpr std::chrono::milliseconds looks_every{1000};
    /// While offers come, the feed is looked at no more often than this for what is not offered.
    static constexpr std::chrono::milliseconds looks_apart{20};
    /// Items that may wait to be taken; more are read from the feed instead.
    static constexpr std::size_t most_offered = 8192;
    /// Snapshots kept in one look, so that news does not wait for them long.
    static constexpr std::size_t most_rests_per_look = 16;

    struct Parts {
        MatchStore& store;
        MatchKeeper& keeper;
        Presence& presence;
        Hub& hub;
        Waking* waking = nullptr;  ///< records that were read already; null: none are
    };
    /// Called with the reason when the store cannot be read, and with an ok status once it can.
    using Report = std::function<void(const Status&)>;

    Follower(TournamentId tournament, Parts parts, Report report);
    ~Follower();
    Follower(const Follower&) = delete;
    Follower& operator=(const Follower&) = delete;

    /// Reads every match as it is stored; call once, before `start`. On failure it may be called
    /// again.
    [[nodiscard]] Status rebuild();
    void start();
    /// Ends the thread; nothing follows any more.
    void stop();
    /// Reads until there is nothing new. For the follower's own thread; tests move it by hand.
    [[nodiscard]] Status catch_up();
    /// Keeps snapshots of matches that have been quiet and lets their records go. As `catch_up`.
    void rest_quiet_matches(MatchKeeper::Steady now);
    /// Keeps snapshots of all matches that want one, so that the next start is quick. After `stop`.
    void keep_snapshots();
    /// There may be something new. From any thread; does not block.
    void wake();
    /// What this server has just committed, in order, before it is answered. Taken without reading
    /// it back when it continues what was followed. From any one thread; does not block.
    void offer(std::span<const FeedItem> items);
    /// The part of `catch_up` that does not read the feed.
    [[nodiscard]] Status take_offered();

  private:
    void run();
    void follow();
    void wait();
    enum class Look : std::uint8_t {
        none,   ///< not yet
        brief,  ///< offers come: only whether the feed went back, or has what nobody offered
        whole,  ///< reads what is new
    };
    /// A look at most as often as the feed should be looked at; then it must be made.
    [[nodiscard]] Look due_look();
    [[nodiscard]] Status look_briefly();
    /// Something was not taken as it was offered: the next look reads it.
    void read_feed_next();
    [[nodiscard]] MatchKeeper::Steady next_look() const;
    /// What `rebuild` has found out on its way.
    struct Rebuild {
        bool keeps_snapshots = true;  ///< until one was not kept: the store is not asked again
    };
    [[nodiscard]] Status add_match(const StoredMatch& match, const MatchSnapshot* snapshot,
                                   Rebuild& rebuild);
    /// False: the store does not take it now.
    [[nodiscard]] bool keep_snapshot(MatchId match);
    /// Wakes a match with the record that was prepared, else with one that is read now.
    [[nodiscard]] Status go_on_with(const StoredMatch& resting);
    [[nodiscard]] bool went_back(const FeedPage& page) const;
    /// Takes items in order; stops at the first that cannot be taken now.
    [[nodiscard]] Status take(std::span<const FeedItem> items);
    [[nodiscard]] Status take(const FeedItem& item);
    void say(const Status& status);

    TournamentId tournament_;
    Parts parts_;
    Report report_;
    FeedPosition position_ = 0;
    Uuid generation_;
    std::optional<FeedItem> last_;      ///< taken last; the store must still have it
    bool anew_ = false;                 ///< an item did not follow what is folded
    bool look_first_ = false;           ///< an offer did not fit: the feed must be read before more
    FeedPosition anew_because_of_ = 0;  ///< the item; a second time its match is given up
    bool failing_ = false;
    std::mutex mutex_;
    std::condition_variable wake_;
    bool woken_ = false;
    std::vector<FeedItem> offered_;
    bool offers_come_ = false;    ///< since the last look
    bool must_read_ = false;      ///< the next look is a whole one
    FeedPosition head_seen_ = 0;  ///< by the last look, when it was a brief one
    MatchKeeper::Steady last_look_{};
    bool stop_ = false;
    std::thread thread_;
};

}  // namespace courthand::server
