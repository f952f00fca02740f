// Seconds from one rally to the next, and how they are learned from what was played.
//
// A day has its pace, a match deviates from it, and each rally from its match:
//
//     hall  ~ Normal(mean, hall_deviation²)       which hall it is, unless its earlier days tell
//     day   ~ Normal(hall, day_deviation²)        one for each profile and division
//     match ~ Normal(day, match_deviation²)
//     rally ~ Normal(match, rally_deviation²)     with time-outs, substitutions and all that
//
// All beliefs stay normal, so they are exact. Of a match alone in a hall that is known its own pace
// has the weight n / (n + k) after n rallies, k = rally_deviation² / (day_deviation² +
// match_deviation²): with the values below k is 40, the weight of the handbook.
#pragma once

#include <cstddef>
#include <vector>

#include "courthand/forecast/normal.h"

namespace courthand::forecast {

/// In seconds. Ball in play 5.55 ± 4.38 s and out of play 35.27 ± 25.96 s in elite men's matches
/// (doi 10.3390/jfmk9010028), so a rally deviates by 26.3 s. Sets of 22 to 26 minutes (means of
/// four Olympic Games, memory), shared by the 44.9 rallies that a set takes between teams as unlike
/// as `StrengthPrior` says, are 29 to 35 s a rally: 32 in the middle, and halls deviate so that the
/// 41 s of those men's matches are two deviations off. How days and matches differ: judgement, so
/// that k is 40.
struct PacePrior {
    double mean = 32;
    double hall_deviation = 4.0;
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

/// What one earlier day of the hall showed of a kind of match.
struct EarlierDay {
    double matches = 0;
    double rallies = 0;  ///< as were to be expected before it, not as came
    double seconds = 0;  ///< without intervals between sets
};
/// Days that are remembered at most: more say nothing new.
inline constexpr std::size_t most_earlier_days = 100;

/// What is believed of a hall after days there: how fast it is, and how its days differ. By rallies
/// as were expected, so that whatever makes matches longer there than the model knows (injuries,
/// long intervals, serves that win seldom) is in the pace.
[[nodiscard]] PacePrior pace_of_hall(const PacePrior& prior, const std::vector<EarlierDay>& days);

/// The pace of the day after these matches of it, in seconds a rally. Matches without a rally tell
/// nothing.
[[nodiscard]] Normal pace_of_day(const PacePrior& prior, const std::vector<Played>& matches);

/// The pace of a match after what was played of it, where the day's pace is known.
[[nodiscard]] Normal pace_of_match(const PacePrior& prior, double day, const Played& played);

}  // namespace courthand::forecast
