// What of a pool counts once teams have withdrawn. Internal to shared-core/standings.
#pragma once

#include <vector>

#include "courthand/standings/pool.h"

namespace courthand::standings {

/// The teams that get a place.
[[nodiscard]] std::vector<TeamIndex> ranked_teams(const Pool& pool);
/// The results without those struck by a withdrawal.
[[nodiscard]] std::vector<Result> counted_results(const Pool& pool);

}  // namespace courthand::standings
