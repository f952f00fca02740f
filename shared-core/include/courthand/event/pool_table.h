// The order of a pool by the chain of its division, with the reasons.
#pragma once

#include <cstddef>
#include <string>
#include <variant>
#include <vector>

#include "courthand/event/state.h"
#include "courthand/standings/rank.h"

namespace courthand::event {

/// A pool as the standings see it: its teams by their place in `PoolState::teams`.
[[nodiscard]] standings::Pool standings_pool(const TournamentState& state, DivisionIndex division,
                                             PoolIndex pool);

/// Its order by the chain, or what is wrong with it. Takes no heed of matches that are open: see
/// `standing`.
[[nodiscard]] std::variant<standings::Table, standings::Faults> pool_table(
    const TournamentState& state, DivisionIndex division, PoolIndex pool);

/// The places that the chain has not given, with the decision each needs. Empty while matches of
/// the pool are open.
[[nodiscard]] std::vector<standings::Place> undecided(const TournamentState& state,
                                                      DivisionIndex division, PoolIndex pool);

/// How a pool stands, for people to read.
struct Standing {
    /// While matches are open, of the teams that have played; its places are provisional, and none
    /// wants a decision that play may still settle.
    standings::Table table;
    std::size_t open_matches = 0;
    std::vector<standings::TeamIndex> unplayed;  ///< no result of theirs counts: no place so far

    [[nodiscard]] bool provisional() const noexcept { return open_matches != 0; }
};
[[nodiscard]] std::variant<Standing, standings::Faults> standing(const TournamentState& state,
                                                                 DivisionIndex division,
                                                                 PoolIndex pool);

/// Why the teams of `table.places[place]` stand there, a sentence each.
[[nodiscard]] std::vector<std::string> reasons(const TournamentState& state, DivisionIndex division,
                                               PoolIndex pool, const Standing& how,
                                               std::size_t place);
/// "places are provisional: 2 matches of the pool are open"; empty when none is.
[[nodiscard]] std::string provisional_words(const Standing& how);

}  // namespace courthand::event
