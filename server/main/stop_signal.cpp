#include "server/main/stop_signal.h"

#include <csignal>
#include <ctime>

namespace courthand::server {
namespace {

sigset_t stop_signals() {
    sigset_t set;
    sigemptyset(&set);
    sigaddset(&set, SIGTERM);
    sigaddset(&set, SIGINT);
    return set;
}

}  // namespace

StopSignal::StopSignal() {
    const sigset_t set = stop_signals();
    pthread_sigmask(SIG_BLOCK, &set, nullptr);
    // A log or a reader of standard output that goes away must not end the server.
    std::signal(SIGPIPE, SIG_IGN);
}

bool StopSignal::within(std::chrono::milliseconds time) {
    const sigset_t set = stop_signals();
    const auto seconds = std::chrono::duration_cast<std::chrono::seconds>(time);
    timespec limit{};
    limit.tv_sec = static_cast<time_t>(seconds.count());
    limit.tv_nsec = static_cast<long>(
        std::chrono::duration_cast<std::chrono::nanoseconds>(time - seconds).count());
    if (!stopped_ && sigtimedwait(&set, nullptr, &limit) > 0) stopped_ = true;
    return stopped_;
}

}  // namespace courthand::server
