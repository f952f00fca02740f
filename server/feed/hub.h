// The newest items of the feed, shared by all who watch.
//
// A watcher keeps nothing but its position: it takes the next items when it can send them. One that
// is too slow falls out of the window and is read from the store until it is back, apart from the
// others; so memory is bounded however slow a network is. Thread-safe.
#pragma once

#include <cstdint>
#include <deque>
#include <functional>
#include <map>
#include <mutex>
#include <shared_mutex>
#include <span>
#include <vector>

#include "server/store/match_store.h"

namespace courthand::server {

class Hub {
  public:
    /// About ten minutes of a venue of 100 courts; 2 MB with entries of 200 bytes.
    static constexpr std::size_t window_items = 8192;
    /// Items handed out at once.
    static constexpr std::size_t most_taken = 256;

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
    [[nodiscard]] Taken take(FeedPosition after, Era era) const;
    [[nodiscard]] FeedPosition head() const;

    struct Feed {
        Era era = 0;
        Uuid generation;  ///< of the database that the feed is read from
        FeedPosition head = 0;
    };
    [[nodiscard]] Feed feed() const;
    /// Which feed it is now: what cursors and answers name. Nil before the first was read.
    [[nodiscard]] Uuid generation() const { return feed().generation; }

    /// From the follower: all up to `head` was read at once, what was handed out before is void.
    void begin_anew(Uuid generation, FeedPosition head);
    /// From the follower, in order.
    void publish(std::span<const FeedItem> items, FeedPosition head);
    /// Once a second: watchers use it for bookmarks and for presence.
    void tick();

    enum class Wake : std::uint8_t { news, tick };
    using Listener = std::function<void(Wake)>;
    using Token = std::uint64_t;
    /// The listener must not block nor call subscribe or unsubscribe.
    [[nodiscard]] Token subscribe(Listener listener);
    /// After it returns the listener is not running and will not be called.
    void unsubscribe(Token token);

  private:
    void wake(Wake why);

    mutable std::shared_mutex window_mutex_;
    std::deque<FeedItem> window_;
    FeedPosition before_window_ = 0;  ///< last position that the window does not hold
    FeedPosition head_ = 0;
    Era era_ = 0;
    Uuid generation_;

    std::mutex listeners_mutex_;
    std::map<Token, Listener> listeners_;
    Token last_token_ = 0;
};

}  // namespace courthand::server
