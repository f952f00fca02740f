// Matches to measure with: whole matches of the simulator, corrections resolved.
#pragma once

#include <cstdint>
#include <vector>

#include "courthand/match/entry.h"
#include "courthand/rules/profile.h"

namespace courthand::bench {

/// Entries of one played match in the order in which they count.
using PlayedMatch = std::vector<Entry>;

/// One match played to its end. The same seed gives the same match.
[[nodiscard]] PlayedMatch played_match(const Rules& rules, std::uint64_t seed);

/// Whole matches with at least `entries` entries together.
[[nodiscard]] std::vector<PlayedMatch> played_matches(const Rules& rules, std::size_t entries);

/// The first `entries` entries of a match longer than any real one: sets to 40 points, every
/// whistle written down, libero replacements at nearly every dead ball. Throws std::logic_error
/// when no match of the first thousand seeds is that long.
[[nodiscard]] PlayedMatch long_match(const Rules& rules, std::size_t entries);

}  // namespace courthand::bench
