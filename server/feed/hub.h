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

    struct Taken {
        enum class Where : std::uint8_t { here, behind };
        Where where = Where::here;    ///< behind: read the store first
        std::vector<FeedItem> items;  ///< none: nothing new
        FeedPosition head = 0;        ///< everything up to it is in `items` or was before them
    };
    [[nodiscard]] Taken take(FeedPosition after) const;
    [[nodiscard]] FeedPosition head() const;

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

    std::mutex listeners_mutex_;
    std::map<Token, Listener> listeners_;
    Token last_token_ = 0;
};

}  // namespace courthand::server
