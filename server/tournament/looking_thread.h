// A thread that looks again whenever something has changed, and by itself now and then: what it
// does may have been done, or left in the middle, by another server.
#pragma once

#include <chrono>
#include <condition_variable>
#include <functional>
#include <mutex>
#include <thread>

#include "server/domain/fault_shield.h"

namespace courthand::server::tournament {

class LookingThread {
  public:
    /// When it looks.
    struct Rhythm {
        /// By itself: another server may have ended in the middle of a look.
        std::chrono::milliseconds by_itself = std::chrono::seconds{30};
        /// After a look that the database did not allow, or in which others came first.
        std::chrono::milliseconds tries_again = std::chrono::seconds{1};
        /// From one look to the next at least, however often it is woken.
        std::chrono::milliseconds apart{0};
    };

    /// One look; true when nothing is left to be done soon. `what` names it where it throws.
    using Look = std::function<bool()>;

    LookingThread(const char* what, Look look) : LookingThread{what, std::move(look), Rhythm{}} {}
    LookingThread(const char* what, Look look, Rhythm rhythm)
        : look_{std::move(look)}, shield_{what}, rhythm_{rhythm} {}
    ~LookingThread() { stop(); }
    LookingThread(const LookingThread&) = delete;
    LookingThread& operator=(const LookingThread&) = delete;

    [[nodiscard]] bool runs() const noexcept { return thread_.joinable(); }
    /// Looks at once, then as it is woken.
    void start();
    /// Ends the thread; what it is at is done first.
    void stop();
    /// From any thread; waits for nothing.
    void wake();
    /// Said by the look: the next one comes after this time at the latest.
    void look_again_in(std::chrono::milliseconds time);

  private:
    void run();

    Look look_;
    FaultShield shield_;
    const Rhythm rhythm_;

    std::mutex mutex_;
    std::condition_variable woken_;
    bool wanted_ = false;
    std::chrono::milliseconds rests_{0};  ///< after the look that is done
    bool stop_ = false;
    std::thread thread_;
};

}  // namespace courthand::server::tournament
