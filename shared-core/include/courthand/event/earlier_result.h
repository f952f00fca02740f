// Whether a match had a result before. Once one was reopened or taken back a person has it in hand.
#pragma once

#include <string_view>

#include "courthand/event/state.h"

namespace courthand::event {

/// A result was said of the match at some time, or it was awarded, whether or not that counts
/// still.
[[nodiscard]] bool had_result(const TournamentState& state, std::string_view match);

}  // namespace courthand::event
