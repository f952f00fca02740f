// The order of a pool by the chain of its division, with the reasons.
#pragma once

#include <variant>

#include "courthand/event/state.h"
#include "courthand/standings/rank.h"

namespace courthand::event {

/// A pool as the standings see it: its teams by their place in `PoolState::teams`.
[[nodiscard]] standings::Pool standings_pool(const TournamentState& state, DivisionIndex division,
                                             PoolIndex pool);

/// Its order as of now, or what is wrong with it.
[[nodiscard]] std::variant<standings::Table, standings::Faults> pool_table(
    const TournamentState& state, DivisionIndex division, PoolIndex pool);

/// The places that the chain has not given, with the decision each needs. Empty while matches of
/// the pool are open.
[[nodiscard]] std::vector<standings::Place> undecided(const TournamentState& state,
                                                      DivisionIndex division, PoolIndex pool);

}  // namespace courthand::event
