// The ends that a match may come to, each as often as it is likely.
#pragma once

#include <cstdint>
#include <vector>

#include "courthand/forecast/match_course.h"

namespace courthand::forecast {

struct Outcome {
    std::uint16_t rallies = 0;  ///< further ones
    std::uint8_t sets = 0;      ///< still to end
    Winner winner = Winner::nobody;
    friend constexpr bool operator==(Outcome, Outcome) = default;
};

/// The course cut into `parts` equally likely parts, from the shortest end to the longest: the end
/// in the middle of each.
[[nodiscard]] std::vector<Outcome> outcomes_of(const MatchCourse& course, std::uint32_t parts);

}  // namespace courthand::forecast
