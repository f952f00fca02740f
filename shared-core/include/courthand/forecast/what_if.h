// A change of the day, tried on a copy before it is made.
#pragma once

#include <cstddef>
#include <cstdint>
#include <variant>
#include <vector>

#include "courthand/forecast/day_forecast.h"

namespace courthand::forecast {

/// To another court, or another place of its own: behind so many matches of that court.
struct Move {
    MatchIndex match = 0;
    std::uint16_t court = 0;
    std::uint16_t behind = 0;
    Minute planned = 0;  ///< its planned time there
    friend bool operator==(const Move&, const Move&) = default;
};

/// Two matches take each other's place and planned time.
struct Swap {
    MatchIndex first = 0;
    MatchIndex second = 0;
    friend bool operator==(const Swap&, const Swap&) = default;
};

/// A match is played in another format.
struct Shorten {
    MatchIndex match = 0;
    MatchFormat format{};
    friend bool operator==(const Shorten&, const Shorten&) = default;
};

using DayChange = std::variant<Move, Swap, Shorten>;

/// The day after the change, or why it cannot be made: what has begun stays where it is, nothing
/// goes before it, and no circle of waiting comes about.
[[nodiscard]] std::variant<Day, Faults> changed(const Day& day, const DayChange& change);

/// Teams and crews that must be told: those of matches with another court, planned time or format.
/// By number, crews behind the teams; who only comes from another match is not known yet.
[[nodiscard]] std::vector<std::uint16_t> people_to_tell(const Day& before, const Day& after);

/// What a change does to the forecast.
struct WhatIf {
    DayForecast after;
    /// Minutes by which the P50 of starts is later than planned, over all matches that wait.
    double late_before = 0;
    double late_after = 0;
    double end_moves = 0;    ///< minutes by which the P80 of the end of the day moves
    std::size_t people = 0;  ///< teams and crews to tell
};

/// `before` is the forecast of `day` with the same sampling.
[[nodiscard]] std::variant<WhatIf, Faults> what_if(Forecaster& forecaster, const Day& day,
                                                   const DayForecast& before,
                                                   const DayChange& change, Sampling sampling);

/// Minutes by which matches that wait are expected to begin later than planned, all together.
[[nodiscard]] double minutes_late(const Day& day, const DayForecast& forecast);

}  // namespace courthand::forecast
