#include "courthand/forecast/repair.h"

#include <algorithm>
#include <utility>

namespace courthand::forecast {
namespace {

/// The late match and those that wait before it on its court, nearest to it first.
std::vector<MatchIndex> movable(const Day& day, MatchIndex late) {
    std::vector<MatchIndex> matches;
    for (const auto& court : day.courts) {
        const auto found = std::find(court.begin(), court.end(), late);
        if (found == court.end()) continue;
        for (auto match = found + 1; match != court.begin();)
            if (waits(day, *--match)) matches.push_back(*match);
    }
    return matches;
}

/// Behind how many matches of a court this one would come by the times at which they begin.
std::uint16_t behind_by_forecast(const Day& day, const DayForecast& forecast,
                                 const std::vector<MatchIndex>& court, Minute planned) {
    const auto after = std::find_if(court.begin(), court.end(), [&](MatchIndex match) {
        return waits(day, match) && forecast.matches[match].start.p50() > planned;
    });
    return static_cast<std::uint16_t>(after - court.begin());
}

/// All changes that are tried, those of the late match first.
std::vector<DayChange> changes(const Day& day, const DayForecast& forecast,
                               const RepairWish& wish) {
    std::vector<DayChange> all;
    for (const MatchIndex match : movable(day, wish.late)) {
        for (const MatchFormat& format : wish.shorter) all.push_back(Shorten{match, format});
        const Minute planned = day.matches[match].planned;
        for (std::size_t c = 0; c < day.courts.size(); ++c) {
            const auto& court = day.courts[c];
            if (std::find(court.begin(), court.end(), match) != court.end()) continue;
            const auto behind = behind_by_forecast(day, forecast, court, planned);
            const auto number = static_cast<std::uint16_t>(c);
            all.push_back(Move{match, number, behind, planned});
            if (behind < court.size()) all.push_back(Swap{match, court[behind]});
        }
    }
    if (all.size() > most_repairs_tried) all.resize(most_repairs_tried);
    return all;
}

Repair repair_of(const Day& day, const DayForecast& before, const DayChange& change,
                 const WhatIf& tried) {
    Repair repair{change, tried.late_before - tried.late_after, 0, tried.end_moves, tried.people};
    for (std::size_t m = 0; m < day.matches.size(); ++m)
        if (waits(day, static_cast<MatchIndex>(m)))
            repair.lost +=
                std::max(0.0, tried.after.matches[m].start.p50() - before.matches[m].start.p50());
    return repair;
}

}  // namespace

std::variant<std::vector<Repair>, Faults> repairs(Forecaster& forecaster, const Day& day,
                                                  const RepairWish& wish) {
    auto forecast = forecaster.forecast(day, wish.sampling);
    if (auto* faults = std::get_if<Faults>(&forecast)) return std::move(*faults);
    if (wish.late >= day.matches.size() || !waits(day, wish.late))
        return Faults{
            {"repair", "the late match is not one that waits", "name a match that has not begun"}};
    const auto& before = std::get<DayForecast>(forecast);
    std::vector<Repair> found;
    for (const DayChange& change : changes(day, before, wish)) {
        const auto tried = what_if(forecaster, day, before, change, wish.sampling);
        // One that would break the day is no repair.
        const auto* what = std::get_if<WhatIf>(&tried);
        if (what == nullptr) continue;
        const Repair repair = repair_of(day, before, change, *what);
        if (repair.saved > wish.minutes_each_person * static_cast<double>(repair.people))
            found.push_back(repair);
    }
    const auto worth = [&](const Repair& repair) {
        return repair.saved - wish.minutes_each_person * static_cast<double>(repair.people);
    };
    std::stable_sort(found.begin(), found.end(),
                     [&](const Repair& x, const Repair& y) { return worth(x) > worth(y); });
    if (found.size() > repairs_told) found.resize(repairs_told);
    return found;
}

}  // namespace courthand::forecast
