#include "server/venue/heard_devices.h"

#include <algorithm>

namespace courthand::server::venue {

namespace {

/// A moment that comes back from the database may differ by the way there and back.
constexpr std::chrono::milliseconds same_moment{500};

}  // namespace

/// Needs the lock. A device that is new takes the place of the one heard longest ago when there is
/// no more room.
HeardDevices::Known& HeardDevices::place_of(DeviceId device) {
    if (devices_.size() >= most && !devices_.contains(device))
        devices_.erase(std::min_element(
            devices_.begin(), devices_.end(), [](const auto& one, const auto& other) {
                return one.second.last.at.steady < other.second.last.at.steady;
            }));
    return devices_[device];
}

void HeardDevices::heard(const Heard& heard) {
    const std::scoped_lock lock{mutex_};
    place_of(heard.device) = {heard, false, true};
}

std::optional<alerts::Now> HeardDevices::last(DeviceId device) const {
    const std::scoped_lock lock{mutex_};
    const auto found = devices_.find(device);
    return found == devices_.end() ? std::nullopt : std::optional{found->second.last.at};
}

std::vector<HeardDevices::Heard> HeardDevices::take_news() {
    const std::scoped_lock lock{mutex_};
    std::vector<Heard> news;
    for (auto& [device, known] : devices_) {
        if (known.news) news.push_back(known.last);
        known.news = false;
    }
    return news;
}

std::vector<HeardDevices::Heard> HeardDevices::untold() const {
    const std::scoped_lock lock{mutex_};
    std::vector<Heard> untold;
    for (const auto& [device, known] : devices_)
        if (!known.told) untold.push_back(known.last);
    return untold;
}

void HeardDevices::learn(const std::vector<Heard>& told, const std::vector<Heard>& all) {
    const std::scoped_lock lock{mutex_};
    for (const Heard& one : told) {
        const auto known = devices_.find(one.device);
        // Heard again meanwhile: that is told the next time.
        if (known != devices_.end() && known->second.last.at.steady == one.at.steady)
            known->second.told = true;
    }
    for (const Heard& one : all) {
        const auto known = devices_.find(one.device);
        if (known == devices_.end())
            place_of(one.device) = {one, true, true};
        else if (known->second.last.at.steady + same_moment < one.at.steady)
            known->second = {one, true, true};
    }
}

}  // namespace courthand::server::venue
