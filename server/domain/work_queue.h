// Threads that do what may wait for the database, so that no network callback ever does.
//
// Work runs in lanes with threads and a limit of their own each, so that what waits long, and what
// strangers send, cannot hold up the rest.
#pragma once

#include <array>
#include <condition_variable>
#include <cstddef>
#include <cstdint>
#include <deque>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace courthand::server {

enum class Lane : std::uint8_t {
    reads,      ///< answered from memory or by one short query
    catch_up,   ///< waits until the fold has what is stored, up to a second
    writes,     ///< grants, acts of desk and head official
    enrolment,  ///< open to strangers
    record,     ///< acts in the tournament's record, which wait for each other
};

class WorkQueue {
  public:
    using Job = std::function<void()>;

    /// `most_waiting` jobs wait; more means that the database does not keep up, and callers are
    /// told so.
    struct Limits {
        std::size_t threads = 1;
        std::size_t most_waiting = 1024;
    };
    static constexpr std::size_t lanes = 5;
    using LaneLimits = std::array<Limits, lanes>;

    /// In the order of Lane. Together not more threads than the pool has connections to give, which
    /// main/composition.h checks.
    static constexpr LaneLimits usual{{{2, 1024}, {2, 1024}, {2, 1024}, {1, 64}, {1, 256}}};
    [[nodiscard]] static constexpr std::size_t threads_of(Lane lane) {
        return usual[static_cast<std::size_t>(lane)].threads;
    }
    [[nodiscard]] static constexpr std::size_t threads_of_all() {
        std::size_t all = 0;
        for (const Limits& lane : usual) all += lane.threads;
        return all;
    }

    explicit WorkQueue(LaneLimits limits = usual);
    /// Runs what waits, then ends the threads.
    ~WorkQueue();
    WorkQueue(const WorkQueue&) = delete;
    WorkQueue& operator=(const WorkQueue&) = delete;

    /// False when the lane is full or ending: the job will not run. A job that throws costs one
    /// line of the log and nothing else.
    [[nodiscard]] bool submit(Lane lane, Job job);

  private:
    struct Queue {
        Limits limits;
        std::mutex mutex;
        std::condition_variable wake;
        std::deque<Job> jobs;
        bool stop = false;
    };
    static void run(Queue& queue);

    std::array<Queue, lanes> queues_;
    std::vector<std::thread> threads_;
};

}  // namespace courthand::server
