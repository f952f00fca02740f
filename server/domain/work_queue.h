// Threads that do what may wait for the database, so that no network callback ever does.
#pragma once

#include <condition_variable>
#include <cstddef>
#include <deque>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace courthand::server {

class WorkQueue {
  public:
    using Job = std::function<void()>;
    /// Waiting jobs; more means that the database does not keep up, and callers are told so.
    static constexpr std::size_t most_waiting = 1024;

    explicit WorkQueue(std::size_t threads);
    /// Runs what waits, then ends the threads.
    ~WorkQueue();
    WorkQueue(const WorkQueue&) = delete;
    WorkQueue& operator=(const WorkQueue&) = delete;

    /// False when the queue is full or ending: the job will not run.
    [[nodiscard]] bool submit(Job job);

  private:
    void run();

    std::mutex mutex_;
    std::condition_variable wake_;
    std::deque<Job> jobs_;
    bool stop_ = false;
    std::vector<std::thread> threads_;
};

}  // namespace courthand::server
