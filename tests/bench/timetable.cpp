#include "tests/bench/timetable.h"

namespace courthand::bench {

void Timetable::at(Clock::time_point time, std::function<void()> act) {
    {
        const std::scoped_lock lock{mutex_};
        if (stop_) return;
        acts_.emplace(time, std::move(act));
    }
    wake_.notify_one();
}

void Timetable::stop() {
    {
        const std::scoped_lock lock{mutex_};
        stop_ = true;
        acts_.clear();
    }
    wake_.notify_one();
    if (thread_.joinable()) thread_.join();
}

void Timetable::run() {
    std::unique_lock lock{mutex_};
    while (!stop_) {
        if (acts_.empty()) {
            wake_.wait(lock);
            continue;
        }
        const auto first = acts_.begin();
        if (const auto time = first->first; time > Clock::now()) {
            wake_.wait_until(lock, time);
            continue;
        }
        const auto act = std::move(first->second);
        acts_.erase(first);
        lock.unlock();
        act();
        lock.lock();
    }
}

}  // namespace courthand::bench
