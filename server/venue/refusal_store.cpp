#include "server/venue/refusal_store.h"

#include <algorithm>

namespace courthand::server::venue {

using Refusal = Refusals::Refusal;

Result<std::vector<Refusal>> MemoryRefusalStore::exchange(const Refusals::Changes& changes) {
    const std::scoped_lock lock{mutex_};
    for (const auto& [place, change] : changes) {
        if (change)
            add(*change);
        else
            refused_.erase(place);
    }
    if (settled_) std::erase_if(refused_, [&](const auto& one) { return settled_(one.second); });
    std::vector<Refusal> all;
    for (const auto& [place, refusal] : refused_) all.push_back(refusal);
    return all;
}

void MemoryRefusalStore::add(const Refusal& refusal) {
    const Refusals::Place place{refusal.match, refusal.device};
    const auto known = refused_.find(place);
    if (known == refused_.end()) {
        if (refused_.size() >= Refusals::most) return;
        refused_[place] = refusal;
    } else {
        // It keeps its time.
        const ServerTime since = known->second.since;
        known->second = refusal;
        known->second.since = since;
    }
    make_room_for(refusal.device);
}

// The newest of the device stay.
void MemoryRefusalStore::make_room_for(DeviceId device) {
    std::vector<const Refusal*> of_device;
    for (const auto& [place, refusal] : refused_)
        if (place.second == device) of_device.push_back(&refusal);
    if (of_device.size() <= Refusals::most_of_a_device) return;
    std::stable_sort(
        of_device.begin(), of_device.end(),
        [](const Refusal* one, const Refusal* other) { return one->since > other->since; });
    for (std::size_t i = Refusals::most_of_a_device; i < of_device.size(); ++i)
        refused_.erase(Refusals::Place{of_device[i]->match, device});
}

Status share(Refusals& refusals, RefusalStore& store) {
    const Refusals::Changes changes = refusals.untold();
    const auto all = store.exchange(changes);
    if (!all.ok()) return all.status();
    refusals.learn(changes, *all);
    return Status::fine();
}

}  // namespace courthand::server::venue
