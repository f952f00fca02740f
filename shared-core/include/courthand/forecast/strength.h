// How unlike the teams of a match are, learned from its rallies.
//
// p, the chance of team A to win a rally, is a Beta variable about what is known before the match,
// of the weight of some rallies; each rally played adds one. It is held at a few places only, so
// that the courses of matches need be reckoned once for each place.
#pragma once

#include <array>
#include <cstddef>

#include "courthand/match/team.h"

namespace courthand::forecast {

/// Judgement: even teams, but p deviates by .05, as a hundred rallies show it. Between even teams
/// who serves wins 30 to 50 rallies of a hundred, men at the top to beginners (handbook range,
/// memory): 40 in the middle, so .1 less than by chance. Who serves matters for lengths: it keeps
/// scores close.
struct StrengthPrior {
    double p = 0.5;
    double rallies = 100;
    double serve = 0.1;  ///< so much less a team wins when it serves, and more when it receives
    friend constexpr bool operator==(const StrengthPrior&, const StrengthPrior&) = default;
};

/// The places: .26 to .74. A team that is stronger than that wins within the fewest rallies anyway.
inline constexpr std::size_t strengths = 13;
[[nodiscard]] constexpr double strength_at(std::size_t place) noexcept {
    return 0.26 + 0.04 * static_cast<double>(place);
}

/// What a serve may change: at either end of the places somebody still wins a rally now and then.
inline constexpr double most_serve = 0.25;

/// The weight of each place after the rallies that A and B have won of this match; sums to 1. The
/// Beta density at the places: for so smooth a density that is as good as its integral.
[[nodiscard]] std::array<double, strengths> strength_weights(const StrengthPrior& prior,
                                                             PerTeam<int> rallies_won);

}  // namespace courthand::forecast
