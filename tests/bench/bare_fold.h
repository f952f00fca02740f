// The least that must be done to carry the same entries into the same state: no rule is looked at.
// The limit beside which the judge is measured.
#pragma once

#include "courthand/match/entry.h"
#include "courthand/match/state.h"

namespace courthand::bench {

/// Moves score, service, rotation, six on court and counters in place.
void bare_apply(MatchState& state, const Entry& entry) noexcept;

}  // namespace courthand::bench
