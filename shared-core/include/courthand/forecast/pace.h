// Seconds from one rally to the next, and how they are learned from what was played.
//
// A day has its pace, a match deviates from it, and each rally from its match:
//
//     day   ~ Normal(mean, day_deviation²)        one for each profile and division
//     match ~ Normal(day, match_deviation²)
//     rally ~ Normal(match, rally_deviation²)     with time-outs, substitutions and all that
//
// All beliefs stay normal, so they are exact. Of a match alone its own pace has the weight
// n / (n + k) after n rallies, k = rally_deviation² / (day_deviation² + match_deviation²): with the
// values below k is 40, the weight of the handbook.
#pragma once

#include <vector>

#include "courthand/forecast/normal.h"

namespace courthand::forecast {

/// In seconds. Ball in play 5.55 ± 4.38 s and out of play 35.27 ± 25.96 s in elite men's matches
/// (doi 10.3390/jfmk9010028), so a rally deviates by 26.3 s. 29.5 to 34.9 s a rally follow from
/// sets of 22 to 26 minutes; handbook arithmetic: 44.73 rallies a set, memory. How days and matches
/// differ: judgement, so that k is 40.
struct PacePrior {
    double mean = 32;
    double day_deviation = 3.0;
    double match_deviation = 2.882;
    double rally_deviation = 26.3;
    friend constexpr bool operator==(const PacePrior&, const PacePrior&) = default;
};

/// What has been played of a match: rallies, and the time they took without intervals between sets.
struct Played {
    double rallies = 0;
    double seconds = 0;
    friend constexpr bool operator==(const Played&, const Played&) = default;
};

/// The pace of the day after these matches of it, in seconds a rally. Matches without a rally tell
/// nothing.
[[nodiscard]] Normal pace_of_day(const PacePrior& prior, const std::vector<Played>& matches);

/// The pace of a match after what was played of it, where the day's pace is known.
[[nodiscard]] Normal pace_of_match(const PacePrior& prior, double day, const Played& played);

}  // namespace courthand::forecast
