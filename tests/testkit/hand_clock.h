// A clock that only the test moves.
#pragma once

#include <atomic>
#include <chrono>

namespace courthand::testkit {

/// It has two hands: the steady one never goes back, the one on the wall may be set. Both begin far
/// from zero. Thread-safe.
class HandClock {
  public:
    using Time = std::chrono::milliseconds;
    static constexpr Time beginning = std::chrono::hours{1000};

    /// `between_looks` passes by itself before each look at the steady hand.
    explicit HandClock(Time between_looks = Time{0}) : step_{between_looks.count()} {}

    [[nodiscard]] Time steady() { return Time{steady_ += step_}; }
    [[nodiscard]] Time wall() const { return Time{steady_ - wall_back_}; }

    void pass(Time time) { steady_ += time.count(); }
    /// So long after the beginning.
    void set(Time since_beginning) { steady_ = (beginning + since_beginning).count(); }
    /// Somebody has set the clock on the wall back by this.
    void set_wall_back(Time time) { wall_back_ = time.count(); }
    /// Nothing passes by itself any more.
    void stand_still() { step_ = 0; }

  private:
    std::atomic<Time::rep> steady_{beginning.count()};
    std::atomic<Time::rep> wall_back_{0};
    std::atomic<Time::rep> step_;
};

}  // namespace courthand::testkit
