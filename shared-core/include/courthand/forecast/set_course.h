// How a set goes on from a score: who wins it, after how many rallies. Exact, rally by rally, for
// any format; FIVB Official Volleyball Rules 2021-2024, rules 6.1 and 6.2, say when it ends.
#pragma once

#include <cstddef>
#include <cstdint>

#include "courthand/forecast/lengths.h"
#include "courthand/forecast/rally_odds.h"
#include "courthand/match/format.h"
#include "courthand/match/team.h"

namespace courthand::forecast {

/// Where a set stands. It goes on: nobody has won it.
struct SetNow {
    int a = 0;  ///< points of A
    int b = 0;
    Team server = Team::A;  ///< of the next rally
    friend constexpr bool operator==(const SetNow&, const SetNow&) = default;
};

/// The score at which a set of this format begins.
[[nodiscard]] constexpr SetNow set_start(const MatchFormat& format, Team server) noexcept {
    return {format.start_score, format.start_score, server};
}

/// By winner, the chance that the set ends after just so many further rallies.
struct SetCourse {
    PerTeam<Lengths> won_after;

    [[nodiscard]] double win(Team team) const { return total(won_after[team]); }
    [[nodiscard]] Lengths rallies() const;  ///< whoever wins
};

/// A set without a cap may go on for ever. What is not decided after so many rallies, or with a
/// chance below `negligible`, is shared out as what was decided; more than twice the longest that
/// is worth thinking of (a set to 199).
inline constexpr std::size_t most_rallies_ahead = 1000;
inline constexpr double negligible = 1e-13;

/// `set_number` from 1.
[[nodiscard]] SetCourse set_course(const MatchFormat& format, std::uint8_t set_number, SetNow now,
                                   RallyOdds odds);

/// The chance that the set comes by this score, at which it goes on; 1 where it stands already.
[[nodiscard]] double chance_of_score(const MatchFormat& format, std::uint8_t set_number, SetNow now,
                                     RallyOdds odds, Score score);

}  // namespace courthand::forecast
