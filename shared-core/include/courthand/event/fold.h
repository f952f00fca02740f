// From the facts of a tournament to its state. Pure: the same facts give the same state, and
// `fold(all)` is `fold(prefix)` with the rest applied, for every cut.
#pragma once

#include <span>

#include "courthand/event/state.h"

namespace courthand::event {

/// The state after all facts; `facts[i]` is fact number i + 1.
[[nodiscard]] TournamentState fold(std::span<const Fact> facts);

/// The next fact. It costs what it touches; only a fact that takes back another folds anew.
void fold_in(TournamentState& state, const Fact& fact);

/// Which facts count once those that were taken back are left out, by number less one.
[[nodiscard]] std::vector<bool> counting(std::span<const Fact> facts);

}  // namespace courthand::event
