// Days for tests of forecasts: clock times in minutes, matches by a short name.
#pragma once

#include <stdexcept>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "courthand/forecast/day_forecast.h"

namespace courthand::forecast {

inline Entrant team(std::uint16_t number) {
    return {Entrant::Kind::team, number, 0};
}
inline Entrant crew(std::uint16_t number) {
    return {Entrant::Kind::crew, number, 0};
}
inline Entrant winner_of_match(MatchIndex match) {
    return {Entrant::Kind::winner, match, 0};
}
inline Entrant loser_of_match(MatchIndex match) {
    return {Entrant::Kind::loser, match, 0};
}
inline Entrant placed(PoolIndex pool, std::uint16_t place) {
    return {Entrant::Kind::place, pool, place};
}

/// A best of three of which all is known but the rallies: even teams, 30 seconds a rally, nobody
/// late.
inline Kind steady_kind() {
    Kind kind;
    kind.format.sets = 3;
    kind.strength = {.5, 1e7, 0};
    kind.pace = {30, 0, 1e-6, 1e-6, 1e-6};
    return kind;
}

inline Day steady_day(std::uint16_t teams, std::size_t courts) {
    Day day;
    day.teams = teams;
    day.kinds = {steady_kind()};
    day.courts.resize(courts);
    day.punctuality = {1e-6, 1e6};
    return day;
}

/// Adds a match at the end of a court.
inline MatchIndex add_match(Day& day, std::size_t court, Minute planned, Entrant first,
                            Entrant second, std::vector<Entrant> workers = {}) {
    DayMatch match;
    const auto index = static_cast<MatchIndex>(day.matches.size());
    match.name = "M" + std::to_string(index + 1);
    match.sides = {first, second};
    match.workers = std::move(workers);
    match.planned = planned;
    day.matches.push_back(std::move(match));
    day.courts[court].push_back(index);
    return index;
}

inline DayForecast forecast_of(const Day& day, Sampling sampling = {}) {
    Forecaster forecaster;
    auto result = forecaster.forecast(day, sampling);
    if (const auto* faults = std::get_if<Faults>(&result))
        throw std::runtime_error{faults->front().place + ": " + faults->front().message};
    return std::get<DayForecast>(std::move(result));
}

}  // namespace courthand::forecast
