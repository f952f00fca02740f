#include "courthand/forecast/what_if.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

namespace courthand::forecast {
namespace {

/// Where a match stands.
struct Spot {
    std::size_t court = 0;
    std::size_t place = 0;
};

Spot spot_of(const Day& day, MatchIndex match) {
    for (std::size_t c = 0; c < day.courts.size(); ++c) {
        const auto& court = day.courts[c];
        const auto found = std::find(court.begin(), court.end(), match);
        if (found != court.end()) return {c, static_cast<std::size_t>(found - court.begin())};
    }
    return {};
}

Faults cannot(const Day& day, MatchIndex match, const char* why, const char* cure) {
    return {{fmt::format("match {}", day.matches[match].name), why, cure}};
}

/// Nothing, or why this match cannot be changed.
Faults faults_of_match(const Day& day, MatchIndex match) {
    if (match >= day.matches.size())
        return {{"change", "the match is not there", "name a match of the day"}};
    if (!waits(day, match))
        return cannot(day, match, "it has begun", "change a match that has not begun");
    return {};
}

Faults change(Day& day, const Move& move) {
    Faults faults = faults_of_match(day, move.match);
    if (!faults.empty()) return faults;
    if (move.court >= day.courts.size())
        return cannot(day, move.match, "the court is not there", "name a court of the day");
    const Spot from = spot_of(day, move.match);
    auto& left = day.courts[from.court];
    left.erase(left.begin() + static_cast<std::ptrdiff_t>(from.place));
    auto& court = day.courts[move.court];
    if (move.behind > court.size())
        return cannot(day, move.match, "the court has fewer matches", "put it behind the last one");
    const auto place = court.begin() + move.behind;
    if (std::any_of(place, court.end(), [&](MatchIndex match) { return !waits(day, match); }))
        return cannot(day, move.match, "a match that has begun would come after it",
                      "put it behind those that have begun");
    court.insert(place, move.match);
    day.matches[move.match].planned = move.planned;
    return {};
}

Faults change(Day& day, const Swap& swap) {
    for (const MatchIndex match : {swap.first, swap.second})
        if (Faults faults = faults_of_match(day, match); !faults.empty()) return faults;
    const Spot first = spot_of(day, swap.first);
    const Spot second = spot_of(day, swap.second);
    std::swap(day.courts[first.court][first.place], day.courts[second.court][second.place]);
    std::swap(day.matches[swap.first].planned, day.matches[swap.second].planned);
    return {};
}

Faults change(Day& day, const Shorten& shorten) {
    Faults faults = faults_of_match(day, shorten.match);
    if (!faults.empty()) return faults;
    day.matches[shorten.match].format = shorten.format;
    return {};
}

}  // namespace

std::variant<Day, Faults> changed(const Day& day, const DayChange& change_of) {
    Day after = day;
    Faults faults = std::visit([&](const auto& one) { return change(after, one); }, change_of);
    if (faults.empty()) faults = faults_of(after);
    if (!faults.empty()) return faults;
    return after;
}

std::vector<std::uint16_t> people_to_tell(const Day& before, const Day& after) {
    std::set<std::uint16_t> people;
    for (std::size_t m = 0; m < before.matches.size(); ++m) {
        const auto match = static_cast<MatchIndex>(m);
        const DayMatch& was = before.matches[m];
        const DayMatch& is = after.matches[m];
        if (spot_of(before, match).court == spot_of(after, match).court &&
            was.planned == is.planned && format_of(before, match) == format_of(after, match))
            continue;
        const auto tell = [&](const Entrant& who) {
            if (who.kind == Entrant::Kind::team) people.insert(who.of);
            if (who.kind == Entrant::Kind::crew)
                people.insert(static_cast<std::uint16_t>(before.teams + who.of));
        };
        for (const Entrant& side : is.sides) tell(side);
        for (const Entrant& worker : is.workers) tell(worker);
    }
    return {people.begin(), people.end()};
}

double minutes_late(const Day& day, const DayForecast& forecast) {
    double minutes = 0;
    for (std::size_t m = 0; m < day.matches.size(); ++m)
        if (waits(day, static_cast<MatchIndex>(m)))
            minutes += std::max(0.0, forecast.matches[m].start.p50() - day.matches[m].planned);
    return minutes;
}

std::variant<WhatIf, Faults> what_if(Forecaster& forecaster, const Day& day,
                                     const DayForecast& before, const DayChange& change_of,
                                     Sampling sampling) {
    auto after = changed(day, change_of);
    if (auto* faults = std::get_if<Faults>(&after)) return std::move(*faults);
    const Day& then = std::get<Day>(after);
    auto forecast = forecaster.forecast(then, sampling);
    if (auto* faults = std::get_if<Faults>(&forecast)) return std::move(*faults);
    WhatIf result;
    result.after = std::get<DayForecast>(std::move(forecast));
    result.late_before = minutes_late(day, before);
    result.late_after = minutes_late(then, result.after);
    result.end_moves = result.after.end.p80() - before.end.p80();
    result.people = people_to_tell(day, then).size();
    return result;
}

}  // namespace courthand::forecast
