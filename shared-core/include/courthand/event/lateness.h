// What lateness costs under the rules of a division.
#pragma once

#include "courthand/event/state.h"

namespace courthand::event {

struct LatePenalty {
    std::int32_t minutes = 0;
    std::uint16_t points = 0;  ///< for the other team; of a crew, in its own next match
    bool first_set_lost = false;
    bool match_lost = false;
    friend bool operator==(const LatePenalty&, const LatePenalty&) = default;
};

/// Of a clock as of `now`, which counts only while it runs. Minutes that were paused do not count.
[[nodiscard]] LatePenalty late_penalty(const Division& division, const RunningClock& clock,
                                       LocalTime now);

}  // namespace courthand::event
