// What facts that a person says together come to, and whether they still do so when others have
// spoken meanwhile.
#pragma once

#include <span>
#include <vector>

#include "courthand/event/effects.h"
#include "courthand/event/finding.h"
#include "courthand/event/state.h"

namespace courthand::event {

/// What facts do to a state.
struct Meaning {
    std::vector<Finding> findings;  ///< what of them has no effect, and why
    Effects effects;                ///< what they change beside that
};

[[nodiscard]] Meaning meaning_of(const TournamentState& state, std::span<const Fact> said);

/// Has what the facts are about become another thing since their person looked? True as well when
/// they would write over what that person has not seen. `now` continues `then`, and `means` is what
/// they come to now.
[[nodiscard]] bool overtaken(const TournamentState& then, const TournamentState& now,
                             std::span<const Fact> said, const Meaning& means);

}  // namespace courthand::event
