#include "server/domain/refusals.h"

namespace courthand::server {

void Refusals::refused(const Refusal& refusal) {
    const std::lock_guard lock{mutex_};
    const Place place{refusal.match, refusal.device};
    if (refusals_.contains(place)) return;
    make_room_for(refusal.device);
    if (refusals_.size() < most) refusals_.emplace(place, refusal);
}

void Refusals::make_room_for(DeviceId device) {
    std::size_t count = 0;
    auto oldest = refusals_.end();
    for (auto row = refusals_.begin(); row != refusals_.end(); ++row) {
        if (row->first.second != device) continue;
        ++count;
        if (oldest == refusals_.end() || row->second.since < oldest->second.since) oldest = row;
    }
    if (count >= most_of_a_device) refusals_.erase(oldest);
}

void Refusals::taken(MatchId match, DeviceId device) {
    const std::lock_guard lock{mutex_};
    refusals_.erase({match, device});
}

std::vector<Refusals::Refusal> Refusals::now() const {
    const std::lock_guard lock{mutex_};
    std::vector<Refusal> all;
    for (const auto& [place, refusal] : refusals_) all.push_back(refusal);
    return all;
}

}  // namespace courthand::server
