#include "tests/bench/load_desk.h"

#include <chrono>
#include <exception>

namespace courthand::bench {
namespace {

constexpr std::chrono::seconds reads_every{2};

}  // namespace

LoadDesk::LoadDesk(const std::string& address, const server::testing::EnrolledDevice& device,
                   Faults& faults)
    : desk_{address, device}, faults_{faults} {}

void LoadDesk::start() {
    thread_ = std::thread{[this] { run(); }};
}

void LoadDesk::stop() {
    {
        const std::scoped_lock lock{mutex_};
        stop_ = true;
    }
    wake_.notify_one();
    if (thread_.joinable()) thread_.join();
}

void LoadDesk::plan_later(std::uint32_t court) {
    {
        const std::scoped_lock lock{mutex_};
        wanted_.push_back(court);
    }
    wake_.notify_one();
}

template <class Act>
void LoadDesk::attempt(Act act) {
    try {
        act();
    } catch (const std::exception& error) {
        faults_.add(error.what());
    }
}

void LoadDesk::run() {
    auto read_next = std::chrono::steady_clock::now();
    std::unique_lock lock{mutex_};
    while (!stop_) {
        if (!wanted_.empty()) {
            const std::uint32_t court = wanted_.front();
            wanted_.pop_front();
            lock.unlock();
            attempt([&] { (void)desk_.plan(court); });
            lock.lock();
        } else if (std::chrono::steady_clock::now() >= read_next) {
            lock.unlock();
            attempt([&] { desk_.read_lists(); });
            lock.lock();
            read_next = std::chrono::steady_clock::now() + reads_every;
        } else {
            wake_.wait_until(lock, read_next);
        }
    }
}

}  // namespace courthand::bench
