#include "server/domain/presence.h"

#include <utility>

namespace courthand::server {

void Presence::seen(const DeviceSeen& device) {
    const std::scoped_lock lock{mutex_};
    const auto [known, first] = last_.try_emplace(device.device, device.at);
    // A clock that was set back must not silence anybody.
    const auto since = device.at - known->second;
    if (!first && since >= since.zero() && since < apart) return;
    known->second = device.at;
    if (last_.size() > most_devices) last_.clear();
    if (fresh_.size() < most_devices) fresh_.push_back(device);
}

std::vector<DeviceSeen> Presence::take() {
    const std::scoped_lock lock{mutex_};
    return std::exchange(fresh_, {});
}

}  // namespace courthand::server
