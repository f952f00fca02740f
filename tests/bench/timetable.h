// What happens when: acts on one thread, each at its time. Thread-safe.
#pragma once

#include <chrono>
#include <condition_variable>
#include <functional>
#include <map>
#include <mutex>
#include <thread>

namespace courthand::bench {

class Timetable {
  public:
    using Clock = std::chrono::steady_clock;

    Timetable() : thread_{[this] { run(); }} {}
    ~Timetable() { stop(); }
    Timetable(const Timetable&) = delete;
    Timetable& operator=(const Timetable&) = delete;

    /// An act must not block. After `stop` nothing is taken any more.
    void at(Clock::time_point time, std::function<void()> act);
    void after(Clock::duration wait, std::function<void()> act) {
        at(Clock::now() + wait, std::move(act));
    }
    /// Drops what is to come; returns when no act is under way. Not from an act.
    void stop();

  private:
    void run();

    std::mutex mutex_;
    std::condition_variable wake_;
    std::multimap<Clock::time_point, std::function<void()>> acts_;
    bool stop_ = false;
    std::thread thread_;
};

}  // namespace courthand::bench
