// Hostile play to measure with: one fact in a few is against the rules. The slow end of judging.
#pragma once

#include <vector>

#include "courthand/rules/profile.h"
#include "tests/bench/played_match.h"

namespace courthand::bench {

/// Seeded courses of play of 1,500 entries each, at least `entries` entries together.
[[nodiscard]] std::vector<PlayedMatch> random_matches(const Rules& rules, std::size_t entries);

}  // namespace courthand::bench
