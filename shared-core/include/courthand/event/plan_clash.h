// What speaks against the court and time of a match: told before it is placed, and never forbidden.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "courthand/event/state.h"

namespace courthand::event {

struct PlanClash {
    enum class Kind : std::uint8_t {
        court_taken,  ///< another match holds the court at this time
        plays_then,   ///< a side plays another match at this time
        short_rest,   ///< a side has less rest than its division asks for
        in_a_row,     ///< a side plays more matches one after the other than its division wants
        a_day,        ///< a side plays more matches on this day
    };
    Kind kind = Kind::plays_then;
    TeamIndex team = no_team;  ///< of all but `court_taken`
    MatchRef other;            ///< of the first three
    std::int32_t minutes = 0;  ///< of rest that the plan leaves; of `short_rest`
    std::size_t matches = 0;   ///< in the row, or on the day
    friend bool operator==(const PlanClash&, const PlanClash&) = default;
};

/// Of one match, in the order of the other matches, then the load of its sides; nothing of a match
/// without a time. Matches that have a result hold no court any more, and still leave their teams
/// tired: their end is that of the plan. Matches of a team are in a row when less than a match of
/// the division fits between them, as for a plan that is made (`event_plan`).
[[nodiscard]] std::vector<PlanClash> plan_clashes(const TournamentState& state, MatchRef match);

/// "Mill Lane plays A2 at this time", "Mill Lane has 10 minutes of rest beside A2, and not 20",
/// "Mill Lane plays 3 matches in a row, and not 2".
[[nodiscard]] std::string in_words(const TournamentState& state, MatchRef match,
                                   const PlanClash& clash);

}  // namespace courthand::event
