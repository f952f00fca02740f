#include "server/domain/work_queue.h"

namespace courthand::server {

WorkQueue::WorkQueue(std::size_t threads) {
    for (std::size_t i = 0; i < threads; ++i) threads_.emplace_back([this] { run(); });
}

WorkQueue::~WorkQueue() {
    {
        const std::lock_guard lock{mutex_};
        stop_ = true;
    }
    wake_.notify_all();
    for (std::thread& thread : threads_) thread.join();
}

bool WorkQueue::submit(Job job) {
    {
        const std::lock_guard lock{mutex_};
        if (stop_ || jobs_.size() >= most_waiting) return false;
        jobs_.push_back(std::move(job));
    }
    wake_.notify_one();
    return true;
}

void WorkQueue::run() {
    while (true) {
        Job job;
        {
            std::unique_lock lock{mutex_};
            wake_.wait(lock, [this] { return stop_ || !jobs_.empty(); });
            if (jobs_.empty()) return;
            job = std::move(jobs_.front());
            jobs_.pop_front();
        }
        job();
    }
}

}  // namespace courthand::server
