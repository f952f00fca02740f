#include "client/app/stop_signal.h"

#include <atomic>
#include <csignal>

namespace courthand::client {
namespace {

std::atomic<bool> asked{false};
static_assert(std::atomic<bool>::is_always_lock_free, "set from a signal handler");

void on_signal(int) {
    asked = true;
}

}  // namespace

void listen_for_stop() noexcept {
    std::signal(SIGINT, on_signal);
    std::signal(SIGTERM, on_signal);
    std::signal(SIGPIPE, SIG_IGN);
}

bool stop_asked() noexcept {
    return asked;
}

}  // namespace courthand::client
