// Scores that a match can end with under its format. Internal to shared-core/event.
#pragma once

#include <string>
#include <vector>

#include "courthand/event/values.h"

namespace courthand::event {

/// Whether a set can end so. `number`: of the set, from 1.
[[nodiscard]] bool set_can_end(const MatchFormat& format, std::size_t number, SetScore score);

/// Why no set of this format can be played, "the cap of a set, 20, is below its 25 points"; empty
/// when it can.
[[nodiscard]] std::string unplayable(const MatchFormat& format);

/// Why no match of this format ends with these sets, "set 1 cannot end 26-25: it was over at
/// 25-24"; empty when one can.
[[nodiscard]] std::string impossible(const MatchFormat& format, const std::vector<SetScore>& sets);

/// Every set lost without a point won: FIVB Official Volleyball Rules 2021-2024, rule 6.4.1, for
/// any format.
[[nodiscard]] std::vector<SetScore> lost_outright(const MatchFormat& format, bool by_first);

/// The sets as they stood, the last one unfinished, with the points and sets that the other team
/// is given: rule 6.4.3 of the same.
[[nodiscard]] std::vector<SetScore> completed(const MatchFormat& format,
                                              std::vector<SetScore> stood, bool lost_by_first);

}  // namespace courthand::event
