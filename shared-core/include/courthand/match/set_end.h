// When a set is won, and which scores a set can come to. FIVB Official Volleyball Rules 2021-2024,
// rules 6.2 and 6.3.2, for any format.
#pragma once

#include <cstdint>

#include "courthand/match/format.h"

namespace courthand {

/// Whether a side with `own` points has won a set in which the other has `others`. `set_number`:
/// from 1.
[[nodiscard]] constexpr bool wins_set(const MatchFormat& format, std::uint8_t set_number, int own,
                                      int others) noexcept {
    const int cap = format.cap_of(set_number);
    if (cap != 0 && own >= cap && own > others) return true;
    return own >= format.points_of(set_number) && own >= others + format.lead;
}

/// Whether a set is still played at this score, or ends with it: it was not over before. `high` is
/// not below `low`.
[[nodiscard]] constexpr bool set_can_come_to(const MatchFormat& format, std::uint8_t set_number,
                                             int high, int low) noexcept {
    // One point less on either side: the last point of the loser would have won it for him. What a
    // set begins with nobody has won.
    const bool over = high > low && wins_set(format, set_number, high - 1, low);
    return !over && (low <= format.start_score || !wins_set(format, set_number, low, low - 1));
}

}  // namespace courthand
