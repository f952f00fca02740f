// The desk of a venue under load, on a thread of its own: it reads its lists every two seconds, as
// an open desk does, and plans a match when a court needs one.
#pragma once

#include <condition_variable>
#include <cstdint>
#include <deque>
#include <mutex>
#include <thread>

#include "tests/bench/bench_desk.h"
#include "tests/bench/faults.h"

namespace courthand::bench {

class LoadDesk {
  public:
    /// Throws std::runtime_error when the server does not take its team lists.
    LoadDesk(const std::string& address, const server::testing::EnrolledDevice& device,
             Faults& faults);
    ~LoadDesk() { stop(); }
    LoadDesk(const LoadDesk&) = delete;
    LoadDesk& operator=(const LoadDesk&) = delete;

    /// Before `start`.
    [[nodiscard]] BenchDesk& calls() noexcept { return desk_; }
    void start();
    void stop();
    /// Thread-safe; does not block.
    void plan_later(std::uint32_t court);

  private:
    void run();
    template <class Act>
    void attempt(Act act);

    BenchDesk desk_;
    Faults& faults_;
    std::mutex mutex_;
    std::condition_variable wake_;
    std::deque<std::uint32_t> wanted_;  ///< at most one for each court
    bool stop_ = false;
    std::thread thread_;
};

}  // namespace courthand::bench
