// Sums over the results of a pool. Internal to shared-core/standings.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "courthand/standings/rank.h"

namespace courthand::standings {

/// A set of teams of one pool.
using TeamSet = std::uint32_t;
static_assert(Pool::most_teams <= 32);

[[nodiscard]] constexpr TeamSet bit(TeamIndex team) noexcept {
    return TeamSet{1} << team;
}
[[nodiscard]] TeamSet set_of(const std::vector<TeamIndex>& teams) noexcept;

/// What a side earns; nothing when the chain's table does not hold the result or sets are unknown.
[[nodiscard]] std::optional<std::int8_t> match_points(const Chain& chain, const Result& result,
                                                      bool of_first) noexcept;

/// The records of all teams (by index) over the results between teams of `among`.
void tally(const Chain& chain, const std::vector<Result>& results, TeamSet among,
           std::vector<Record>& records);

/// Whether `team` has at least one match against each other team of `among`, all of them won
/// (`won`) or all of them lost.
[[nodiscard]] bool swept(const std::vector<Result>& results, TeamIndex team, TeamSet among,
                         bool won) noexcept;

/// The winner of the last match between two teams; nothing when there is none.
[[nodiscard]] std::optional<TeamIndex> last_winner(const std::vector<Result>& results, TeamIndex a,
                                                   TeamIndex b) noexcept;

}  // namespace courthand::standings
