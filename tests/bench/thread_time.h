// Processor time of one thread: what it worked, whoever else works on the machine.
#pragma once

#include <ctime>

namespace courthand::bench {

/// Seconds of processor that the calling thread has taken, user and system.
[[nodiscard]] inline double thread_seconds() {
    timespec now{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) + static_cast<double>(now.tv_nsec) / 1e9;
}

}  // namespace courthand::bench
