#include "tests/bench/sightings.h"

#include <utility>

namespace courthand::bench {

void Sightings::made(std::uint32_t court, const std::string& match_id, std::uint32_t seq,
                     Clock::time_point at) {
    const std::scoped_lock lock{mutex_};
    auto& [present, before] = courts_[court];
    if (present.match_id != match_id) before = std::exchange(present, Sheet{match_id, {}});
    if (present.made.size() < seq) present.made.resize(seq);
    present.made[seq - 1] = at;
}

std::optional<Sightings::Clock::time_point> Sightings::made_at(std::uint32_t court,
                                                               const std::string& match_id,
                                                               std::uint32_t seq) const {
    const std::scoped_lock lock{mutex_};
    const auto found = courts_.find(court);
    if (found == courts_.end()) return std::nullopt;
    for (const Sheet& sheet : found->second)
        if (sheet.match_id == match_id && seq >= 1 && seq <= sheet.made.size() &&
            sheet.made[seq - 1] != Clock::time_point{})
            return sheet.made[seq - 1];
    return std::nullopt;
}

}  // namespace courthand::bench
