// Which devices spoke lately, at most one word a second for each. Thread-safe.
#pragma once

#include <mutex>
#include <unordered_map>
#include <vector>

#include "server/domain/match_observer.h"

namespace courthand::server {

class Presence {
  public:
    static constexpr std::chrono::milliseconds apart{1000};
    /// More devices than any venue has.
    static constexpr std::size_t most_devices = 4096;

    void seen(const DeviceSeen& device);
    /// What was seen since the last call; for the fold thread.
    [[nodiscard]] std::vector<DeviceSeen> take();

  private:
    std::mutex mutex_;
    std::unordered_map<DeviceId, ServerTime> last_;
    std::vector<DeviceSeen> fresh_;
};

}  // namespace courthand::server
