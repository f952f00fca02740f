// Which team of the plan is A and which is B.
//
// The toss decides that, at the table. The record says it by the names on its team lists; until
// they are there the team named first is shown as A.
#pragma once

#include "courthand/match/team.h"
#include "server/domain/match_observer.h"

namespace courthand::server::venue {

struct MatchTeams {
    PerTeam<PlannedTeam> team;
    bool first_is_b = false;  ///< A of the record is the team named second in the plan
};

[[nodiscard]] MatchTeams teams_of(const LiveMatch& match);
[[nodiscard]] PerTeam<std::string> names_of(const MatchTeams& teams);

}  // namespace courthand::server::venue
