#include "server/tournament/looking_thread.h"

#include <algorithm>

namespace courthand::server::tournament {

void LookingThread::start() {
    if (runs()) return;
    stop_ = false;
    wanted_ = true;
    thread_ = std::thread{[this] { run(); }};
}

void LookingThread::stop() {
    if (!runs()) return;
    {
        const std::scoped_lock lock{mutex_};
        stop_ = true;
    }
    woken_.notify_all();
    thread_.join();
}

void LookingThread::wake() {
    {
        const std::scoped_lock lock{mutex_};
        wanted_ = true;
    }
    woken_.notify_all();
}

void LookingThread::look_again_in(std::chrono::milliseconds time) {
    const std::scoped_lock lock{mutex_};
    rests_ = std::min(rests_, time);
}

void LookingThread::run() {
    std::unique_lock lock{mutex_};
    while (!stop_) {
        wanted_ = false;
        rests_ = rhythm_.by_itself;
        const auto next = std::chrono::steady_clock::now() + rhythm_.apart;
        lock.unlock();
        bool done = false;
        shield_.run([&] { done = look_(); });
        lock.lock();
        woken_.wait_until(lock, next, [this] { return stop_; });
        // A database that is away is not asked at every act, and others get time to end.
        if (done)
            woken_.wait_for(lock, rests_, [this] { return wanted_ || stop_; });
        else
            woken_.wait_for(lock, rhythm_.tries_again, [this] { return stop_; });
    }
}

}  // namespace courthand::server::tournament
