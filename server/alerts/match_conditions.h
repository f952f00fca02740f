// What calls for an alert in one match, taken from its facts by the rules core.
//
// Pure: the same record gives the same conditions, so a restart raises nothing twice.
#pragma once

#include <string>
#include <vector>

#include "server/alerts/condition.h"
#include "server/alerts/match_history.h"
#include "server/domain/match_observer.h"

namespace courthand::server::alerts {

/// Latched faults that ever counted and still stand in the record, ruled or not; and what holds
/// now. A match of an unknown profile gives none. `names` are the teams' as the record has them.
[[nodiscard]] std::vector<Condition> conditions_of(const LiveMatch& match,
                                                   const PerTeam<std::string>& names);
/// The same with a history that has followed the match to its last entry.
[[nodiscard]] std::vector<Condition> conditions_of(const LiveMatch& match,
                                                   const MatchHistory& history,
                                                   const PerTeam<std::string>& names);

/// The condition of a record with branches that wait for a person.
[[nodiscard]] Condition fork_condition(const LiveMatch& match);

/// The scope under which an alert book keeps the conditions of a match.
[[nodiscard]] std::string scope_of(MatchId match);

}  // namespace courthand::server::alerts
