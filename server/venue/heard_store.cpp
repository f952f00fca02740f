#include "server/venue/heard_store.h"

#include <algorithm>

namespace courthand::server::venue {

using alerts::Now;
using Heard = HeardDevices::Heard;

Result<std::vector<Heard>> MemoryHeardStore::exchange(const std::vector<Heard>& untold) {
    const std::scoped_lock lock{mutex_};
    const Now now = clock_();
    for (const Heard& heard : untold) {
        const auto [known, added] = devices_.try_emplace(heard.device, heard);
        if (!added && known->second.at.steady < heard.at.steady) known->second = heard;
    }
    std::erase_if(devices_, [&](const auto& one) {
        return now.steady - one.second.at.steady > HeardStore::forgets;
    });
    std::vector<Heard> all;
    for (auto& [device, heard] : devices_) {
        // Nobody was heard later than now.
        heard.at.steady = std::min(heard.at.steady, now.steady);
        const auto age = now.steady - heard.at.steady;
        all.push_back({device, heard.court, {now.wall - age, heard.at.steady}});
    }
    std::stable_sort(all.begin(), all.end(), [](const Heard& one, const Heard& other) {
        return one.at.steady > other.at.steady;
    });
    if (all.size() > HeardDevices::most) all.resize(HeardDevices::most);
    return all;
}

void HeardSharing::look() {
    if (now_() < due_) return;
    due_ = now_() + every;
    const std::vector<Heard> untold = devices_.untold();
    const auto all = store_.exchange(untold);
    if (all.ok()) devices_.learn(untold, *all);
}

}  // namespace courthand::server::venue
