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

/// What forbids to keep them as they are said:
/// * a frozen list changes, its numbers or who wears them, and nothing says why; also by a team
/// that
///   is taken back, which could come again with any list. Beside a person stands the name: there
///   the reason is that of the list, frozen anew in the same act. Somebody may be named for a
///   number of which only the number was told;
/// * a time zone comes after times that were said without one, and would move them;
/// * a format of which no set can be played, or pools that their chain could never put in order.
/// The fold does not ask: words beside a fact can be erased, and what stands in a record stays as
/// it was understood. Whoever takes acts into a record keeps none that is objected to.
[[nodiscard]] std::vector<Finding> objections(const TournamentState& state,
                                              std::span<const Said> said);

/// Matches whose times were said while the tournament was not open, and are of UTC. Opened in
/// another zone, it places them anew in the same act, at the time that the clock of the hall shows.
[[nodiscard]] std::vector<MatchRef> times_without_zone(const TournamentState& state);

/// Has what the facts are about become another thing since their person looked? True as well when
/// they would write over what that person has not seen. `now` continues `then`, and `means` is what
/// they come to now.
[[nodiscard]] bool overtaken(const TournamentState& then, const TournamentState& now,
                             std::span<const Fact> said, const Meaning& means);

}  // namespace courthand::event
