// SIGTERM and SIGINT as something to wait for. Make one before any other thread starts: threads
// inherit the blocked signals.
#pragma once

#include <chrono>

namespace courthand::server {

class StopSignal {
  public:
    StopSignal();
    /// True when it was asked to stop, now or before, within `time`.
    [[nodiscard]] bool within(std::chrono::milliseconds time);

  private:
    bool stopped_ = false;
};

}  // namespace courthand::server
