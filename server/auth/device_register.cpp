#include "server/auth/device_register.h"

namespace courthand::server::auth {

DeviceStanding DeviceRegister::standing(DeviceId device, Instant now) {
    {
        const std::scoped_lock lock{mutex_};
        const auto known = answers_.find(device);
        if (known != answers_.end() && now < known->second.until) return known->second.standing;
    }
    // The store is asked outside the lock: a slow database must not hold up other devices' calls.
    const std::optional<Device> found = store_.device(device);
    const DeviceStanding standing = !found           ? DeviceStanding::unknown
                                    : found->revoked ? DeviceStanding::revoked
                                                     : DeviceStanding::good;
    const std::scoped_lock lock{mutex_};
    if (answers_.size() >= most_answers) answers_.clear();
    const auto [answer, added] = answers_.try_emplace(device);
    // A revocation that came meanwhile is newer than what the store said.
    if (!added && answer->second.standing == DeviceStanding::revoked && now < answer->second.until)
        return DeviceStanding::revoked;
    answer->second = {standing, now + answers_last};
    return standing;
}

bool DeviceRegister::revoke(DeviceId device, Instant now) {
    if (!store_.revoke(device, now)) return false;
    const std::scoped_lock lock{mutex_};
    answers_[device] = {DeviceStanding::revoked, now + answers_last};
    revoked_.insert(device);
    return true;
}

bool DeviceRegister::revoked_here(DeviceId device) const {
    const std::scoped_lock lock{mutex_};
    return revoked_.contains(device);
}

}  // namespace courthand::server::auth
