// The fold thread: follows the feed of one tournament in the store, whoever wrote it, folds it into
// the keeper and shows it to the watchers.
#pragma once

#include <atomic>
#include <condition_variable>
#include <functional>
#include <mutex>
#include <thread>

#include "server/domain/match_keeper.h"
#include "server/domain/presence.h"
#include "server/feed/hub.h"

namespace courthand::server {

class Follower {
  public:
    /// Looks by itself this often, should a notification be lost.
    static constexpr std::chrono::milliseconds looks_every{1000};

    struct Parts {
        MatchStore& store;
        MatchKeeper& keeper;
        Presence& presence;
        Hub& hub;
    };
    /// Called with the reason when the store cannot be read, and with an ok status once it can.
    using Report = std::function<void(const Status&)>;

    Follower(TournamentId tournament, Parts parts, Report report);
    ~Follower();
    Follower(const Follower&) = delete;
    Follower& operator=(const Follower&) = delete;

    /// Reads the whole feed; call once, before `start`. On failure it may be called again.
    [[nodiscard]] Status rebuild();
    void start();
    /// Reads until there is nothing new. For the follower's own thread; tests move it by hand.
    [[nodiscard]] Status catch_up();
    /// There may be something new. From any thread; does not block.
    void wake();

  private:
    void run();
    void wait();
    [[nodiscard]] Status load_matches();
    [[nodiscard]] Status take(const FeedPage& page);
    void say(const Status& status);

    TournamentId tournament_;
    Parts parts_;
    Report report_;
    FeedPosition position_ = 0;
    bool failing_ = false;
    std::mutex mutex_;
    std::condition_variable wake_;
    bool woken_ = false;
    bool stop_ = false;
    std::thread thread_;
};

}  // namespace courthand::server
