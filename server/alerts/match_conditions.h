// What calls for an alert in one match, taken from its facts by the rules core.
//
// Pure: the same record gives the same conditions, so a restart raises nothing twice.
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "server/alerts/condition.h"
#include "server/alerts/match_history.h"
#include "server/domain/match_observer.h"
#include "server/domain/refusals.h"

namespace courthand::server::alerts {

/// Latched faults that ever counted and still stand in the record, ruled or not; and what holds
/// now. A match of an unknown profile gives none. `names` are the teams' as the record has them.
[[nodiscard]] std::vector<Condition> conditions_of(const LiveMatch& match,
                                                   const PerTeam<std::string>& names);
/// The same with a history that has followed the match to its last entry.
[[nodiscard]] std::vector<Condition> conditions_of(const LiveMatch& match,
                                                   const MatchHistory& history,
                                                   const PerTeam<std::string>& names);

/// The condition of a record with a branch that waits for a person; each branch is one of its own.
[[nodiscard]] Condition fork_condition(const LiveMatch& match, std::uint32_t branch);

/// The condition of a writer whose grant was lost with what a backup did not hold; nothing when its
/// grant is known. Each epoch is one of its own.
[[nodiscard]] std::optional<Condition> recovery_condition(const LiveMatch& match);

/// A device that asks to go on with the match; nothing when none does.
[[nodiscard]] std::optional<Condition> take_over_condition(const LiveMatch& match);
/// The same in words. `silence` is how long the device that writes has not been heard; nothing when
/// it was not heard since the server started.
[[nodiscard]] std::string take_over_words(const MatchPlan& plan,
                                          std::optional<std::chrono::seconds> silence);

/// "E1" by the record of the tournament; "match 33" by the plan of the tables while that record has
/// no such match.
[[nodiscard]] std::string match_called(const MatchPlan& plan);

/// Entries of one device that the server could not take.
[[nodiscard]] Condition refusal_condition(const Refusals::Refusal& refusal, const MatchPlan& plan);

/// Some alerts found no room.
[[nodiscard]] Condition too_many_condition();

/// The records of these matches, by what they are called, say that each is being played on this
/// court: the board shows one of them only.
[[nodiscard]] Condition crowded_condition(std::uint32_t court,
                                          std::span<const std::string> matches);

/// The scope under which an alert book keeps the conditions of a match.
[[nodiscard]] std::string scope_of(MatchId match);

}  // namespace courthand::server::alerts
