#include "venue/call_line.h"

namespace courthand::venue {

CallLine::CallLine() : thread_([this] { work(); }) {}

CallLine::~CallLine() {
    stop();
}

bool CallLine::add(Call call) {
    {
        const std::scoped_lock lock{mutex_};
        if (stopped_ || waiting_.size() >= most_waiting) return false;
        waiting_.push_back(std::move(call));
    }
    news_.notify_one();
    return true;
}

void CallLine::stop() {
    {
        const std::scoped_lock lock{mutex_};
        stopped_ = true;
        waiting_.clear();
    }
    news_.notify_one();
    if (thread_.joinable()) thread_.join();
}

void CallLine::work() {
    std::unique_lock guard{mutex_};
    while (true) {
        news_.wait(guard, [this] { return stopped_ || !waiting_.empty(); });
        if (stopped_) return;
        const Call call = std::move(waiting_.front());
        waiting_.pop_front();
        guard.unlock();
        call();
        guard.lock();
    }
}

}  // namespace courthand::venue
