// Ctrl-C and SIGTERM end a long measurement early and in order: its server must not outlive it.
#pragma once

#include <atomic>
#include <chrono>
#include <csignal>
#include <stdexcept>
#include <thread>

namespace courthand::bench {

inline std::atomic<bool> stop_asked{false};
static_assert(std::atomic<bool>::is_always_lock_free, "set from a signal handler");

inline void stop_on_signals() {
    const auto ask = [](int) { stop_asked = true; };
    std::signal(SIGINT, ask);
    std::signal(SIGTERM, ask);
    std::signal(SIGPIPE, SIG_IGN);
}

/// Waits until the condition holds; false when it did not in time. Throws std::runtime_error when
/// asked to stop.
template <class Condition>
[[nodiscard]] bool wait_until(std::chrono::steady_clock::time_point end, Condition condition) {
    constexpr std::chrono::milliseconds look{20};
    while (!condition()) {
        if (stop_asked) throw std::runtime_error{"stopped before the end"};
        if (std::chrono::steady_clock::now() >= end) return false;
        std::this_thread::sleep_for(look);
    }
    return true;
}

}  // namespace courthand::bench
