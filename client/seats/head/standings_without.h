// The places of a pool as they are, and as they would be if one fact had not been said: a decision
// of a person, or the result of a match.
#pragma once

#include <QString>
#include <QVariantMap>
#include <vector>

#include "courthand/event/state.h"
#include "pool_rows.h"

namespace courthand::seats {

/// The facts on which the places of a pool rest, the latest first: maps with number, words and, of
/// a result, teams.
[[nodiscard]] std::vector<QVariantMap> facts_of_pool(const event::TournamentState& state,
                                                     PoolRef ref);

/// What the places of a pool still wait for: open matches, or a person's decision where teams are
/// level. Empty: they are settled.
[[nodiscard]] QString pool_state_words(const event::TournamentState& state, PoolRef ref);

/// A map for each team, the best first: name, place, without (its place without the fact) and
/// changed. Fact 0: none is left out.
[[nodiscard]] std::vector<QVariantMap> places_without(const event::TournamentState& state,
                                                      PoolRef ref, event::FactNumber fact);

/// The same beside the places of another state that has this pool.
[[nodiscard]] std::vector<QVariantMap> places_beside(const event::TournamentState& state,
                                                     const event::TournamentState& other,
                                                     PoolRef ref);

}  // namespace courthand::seats
