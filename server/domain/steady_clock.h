// Time for timers and limits: it never steps back, whatever is done to the clock on the wall.
#pragma once

#include <chrono>
#include <functional>

namespace courthand::server {

using SteadyTime = std::chrono::steady_clock::time_point;
/// Given as a parameter, so that tests need not wait.
using SteadyNow = std::function<SteadyTime()>;

[[nodiscard]] inline SteadyTime steady_now() {
    return std::chrono::steady_clock::now();
}

}  // namespace courthand::server
