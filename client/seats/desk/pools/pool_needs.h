// What a team of a pool still needs, in sentences.
#pragma once

#include <QStringList>

#include "courthand/event/state.h"
#include "pool_rows.h"

namespace courthand::seats {

/// Empty when no match of the pool is open or no place of it matters. May take a second.
[[nodiscard]] QStringList needs_lines(const event::TournamentState& state, PoolRef ref,
                                      standings::TeamIndex team);

}  // namespace courthand::seats
