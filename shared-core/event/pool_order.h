// A pool of a division as the standings see it. Internal to shared-core/event.
#pragma once

#include <variant>

#include "courthand/event/state.h"
#include "courthand/standings/rank.h"

namespace courthand::event {

[[nodiscard]] standings::Pool standings_pool(const TournamentState& state, const Division& division,
                                             PoolIndex pool);

/// The teams by place, as far as the chain and people have settled them. A team that has left has
/// no place. Empty when the pool cannot be put in order.
[[nodiscard]] std::vector<TeamIndex> pool_order(const TournamentState& state,
                                                const Division& division, PoolIndex pool);

}  // namespace courthand::event
