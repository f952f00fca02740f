#include "server/domain/refusals.h"

namespace courthand::server {

void Refusals::refused(const Refusal& refusal) {
    const std::lock_guard lock{mutex_};
    if (refusals_.size() < most) refusals_.try_emplace({refusal.match, refusal.device}, refusal);
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
