// How likely team A is to win the next rally. Rallies are taken as independent of each other.
#pragma once

#include "courthand/match/team.h"

namespace courthand::forecast {

/// Chances of team A, 0 to 1. In the plain model both are one number p; in the side-out model a
/// team wins less of the rallies that it serves.
struct RallyOdds {
    double serving = 0.5;    ///< A serves
    double receiving = 0.5;  ///< B serves

    [[nodiscard]] static constexpr RallyOdds plain(double p) noexcept { return {p, p}; }
    [[nodiscard]] constexpr double when_serves(Team server) const noexcept {
        return server == Team::A ? serving : receiving;
    }
};

}  // namespace courthand::forecast
