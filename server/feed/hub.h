// The newest items of the feed, shared by all who watch, and who is woken by which of them.
//
// A watcher keeps nothing but its position: it takes the next items when it can send them. One that
// is too slow falls out of the window and is read from the store until it is back, apart from the
// others; so memory is bounded however slow a network is. Watchers are woken by threads of the hub,
// so that what they make of the news costs the fold nothing. Thread-safe.
#pragma once

#include <condition_variable>
#include <cstdint>
#include <deque>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <set>
#include <shared_mutex>
#include <span>
#include <thread>
#include <unordered_map>
#include <utility>
#include <variant>
#include <vector>

#include "server/store/match_store.h"

namespace courthand::server {

class Hub {
  public:
    /// About ten minutes of a venue of 100 courts; 2 MB with entries of 200 bytes.
    static constexpr std::size_t window_items = 8192;
    /// Items handed out at once.
    static constexpr std::size_t most_taken = 256;

    /// With no thread, watchers are woken by who publishes.
    explicit Hub(std::size_t threads = 0);
    ~Hub();
    Hub(const Hub&) = delete;
    Hub& operator=(const Hub&) = delete;

    /// What news wakes a watcher; ticks wake all.
    struct Court {
        std::uint32_t number = 0;  ///< of every match that is or was on it
    };
    struct Nothing {};
    struct Record {};  ///< of the tournament: what its desks do
    using Interest = std::variant<Nothing, MatchId, Court, Record>;

    /// Counts how often the feed has begun anew in this process; positions of another era are
    /// worthless.
    using Era = std::uint64_t;

    struct Taken {
        enum class Where : std::uint8_t {
            here,
            behind,  ///< read the store first
            anew,    ///< the feed has begun anew: so must the watcher
        };
        Where where = Where::here;
        std::vector<FeedItem> items;  ///< none: nothing new
        FeedPosition head = 0;        ///< everything up to it is in `items` or was before them
    };
    /// Items that do not interest may be left out.
    [[nodiscard]] Taken take(FeedPosition after, Era era, const Interest& interest) const;
    [[nodiscard]] FeedPosition head() const;
    /// The item at this position, when the window holds it.
    [[nodiscard]] std::optional<FeedItem> at(FeedPosition position) const;

    struct Feed {
        Era era = 0;
        Uuid generation;  ///< of the database that the feed is read from
        FeedPosition head = 0;
    };
    [[nodiscard]] Feed feed() const;
    /// Which feed it is now: what cursors and answers name. Nil before the first was read.
    [[nodiscard]] Uuid generation() const { return feed().generation; }

    /// From the follower: all up to `head` was read at once, what was handed out before is void.
    /// `courts` says where each match is now.
    using Courts = std::unordered_map<MatchId, std::uint32_t>;
    void begin_anew(Uuid generation, FeedPosition head, const Courts& courts = {});
    /// From the follower, in order. `court_of` tells on which court a match is now.
    using CourtOf = std::function<std::uint32_t(MatchId)>;
    void publish(std::span<const FeedItem> items, FeedPosition head, const CourtOf& court_of = {});
    /// Once a second: watchers use it for bookmarks and for presence.
    void tick();

    enum class Wake : std::uint8_t { news, tick };
    using Listener = std::function<void(Wake)>;
    using Token = std::uint64_t;
    /// The listener is called by one thread at a time. It must not wait for the database, nor call
    /// subscribe or unsubscribe.
    [[nodiscard]] Token subscribe(Listener listener, Interest interest);
    /// After it returns the listener is not running and will not be called.
    void unsubscribe(Token token);

  private:
    struct Watcher {
        Listener listener;
        Interest interest;
        bool news = false;  ///< due
        bool tick = false;  ///< due
        bool queued = false;
        bool running = false;
        bool gone = false;
    };
    using Watchers = std::vector<std::shared_ptr<Watcher>>;

    /// Who is woken by what was published.
    struct News {
        std::set<MatchId> matches;
        std::set<std::uint32_t> courts;
        bool record = false;
    };
    [[nodiscard]] bool nothing_since(FeedPosition after, const Interest& interest) const;
    void note_news(const FeedItem& item, const CourtOf& court_of, News& news);
    void wake_for(const News& news);
    void wake_all(Wake why);
    // All three need the lock of the watchers.
    void queue(const std::shared_ptr<Watcher>& watcher, Wake why);
    void deliver_one(std::unique_lock<std::mutex>& lock);
    void deliver_here(std::unique_lock<std::mutex>& lock);
    void run();
    static void remove(Watchers& from, const std::shared_ptr<Watcher>& watcher);

    mutable std::shared_mutex window_mutex_;
    std::deque<FeedItem> window_;
    FeedPosition before_window_ = 0;  ///< last position that the window does not hold
    FeedPosition head_ = 0;
    Era era_ = 0;
    Uuid generation_;
    // The last news since the feed began anew, after `known_after_`.
    FeedPosition known_after_ = 0;
    std::unordered_map<MatchId, FeedPosition> last_of_match_;
    std::map<std::uint32_t, FeedPosition> last_of_court_;
    FeedPosition last_of_record_ = 0;
    std::unordered_map<MatchId, std::set<std::uint32_t>> courts_of_;

    std::mutex watchers_mutex_;
    std::condition_variable ready_;
    std::condition_variable rested_;
    std::map<Token, std::shared_ptr<Watcher>> watchers_;
    std::unordered_map<MatchId, Watchers> of_match_;
    std::map<std::uint32_t, Watchers> of_court_;
    Watchers of_record_;
    std::deque<std::shared_ptr<Watcher>> queue_;  ///< each watcher once at most
    Token last_token_ = 0;
    bool stop_ = false;
    std::vector<std::thread> threads_;
};

}  // namespace courthand::server
