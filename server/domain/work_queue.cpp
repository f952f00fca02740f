#include "server/domain/work_queue.h"

#include "server/domain/fault_log.h"

namespace courthand::server {

WorkQueue::WorkQueue(LaneLimits limits) {
    for (std::size_t i = 0; i < lanes; ++i) queues_[i].limits = limits[i];
    for (Queue& queue : queues_)
        for (std::size_t i = 0; i < queue.limits.threads; ++i)
            threads_.emplace_back([&queue] { run(queue); });
}

WorkQueue::~WorkQueue() {
    for (Queue& queue : queues_) {
        {
            const std::scoped_lock lock{queue.mutex};
            queue.stop = true;
        }
        queue.wake.notify_all();
    }
    for (std::thread& thread : threads_) thread.join();
}

bool WorkQueue::submit(Lane lane, Job job) {
    Queue& queue = queues_[static_cast<std::size_t>(lane)];
    {
        const std::scoped_lock lock{queue.mutex};
        if (queue.stop || queue.jobs.size() >= queue.limits.most_waiting) return false;
        queue.jobs.push_back(std::move(job));
    }
    queue.wake.notify_one();
    return true;
}

void WorkQueue::run(Queue& queue) {
    while (true) {
        Job job;
        {
            std::unique_lock lock{queue.mutex};
            queue.wake.wait(lock, [&] { return queue.stop || !queue.jobs.empty(); });
            if (queue.jobs.empty()) return;
            job = std::move(queue.jobs.front());
            queue.jobs.pop_front();
        }
        try {
            job();
        } catch (...) {
            log_current_exception("a job");
        }
    }
}

}  // namespace courthand::server
