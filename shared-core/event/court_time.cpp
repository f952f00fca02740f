#include "courthand/event/court_time.h"

#include <algorithm>
#include <tuple>

namespace courthand::event {

namespace {

/// Sorted by court and beginning: the end of the one at `i`, for which no length is planned.
[[nodiscard]] LocalTime end_by_next(const TournamentState& state,
                                    const std::vector<CourtTime>& times, std::size_t i) {
    const CourtTime& own = times[i];
    const auto next = std::find_if(
        times.begin() + static_cast<std::ptrdiff_t>(i), times.end(),
        [&](const CourtTime& later) { return later.court != own.court || later.from > own.from; });
    const bool follows =
        next != times.end() && next->court == own.court && next->from.date() == own.from.date();
    if (follows) return next->from;
    return LocalTime{own.from.minutes + usual_minutes(state.match(own.match).format)};
}

}  // namespace

std::vector<CourtTime> court_times(const TournamentState& state) {
    std::vector<CourtTime> times;
    for (DivisionIndex d = 0; d < state.division_count(); ++d)
        for (std::size_t m = 0; m < state.divisions[d].matches.size(); ++m)
            if (const auto& placed = state.divisions[d].matches[m].placement;
                placed && placed->at.given())
                times.push_back({placed->court, placed->at, {}, {d, static_cast<MatchIndex>(m)}});
    std::sort(times.begin(), times.end(), [](const CourtTime& a, const CourtTime& b) {
        return std::tie(a.court, a.from, a.match) < std::tie(b.court, b.from, b.match);
    });
    for (std::size_t i = 0; i < times.size(); ++i) {
        const std::uint16_t planned = state.divisions[times[i].match.division].rules.match_minutes;
        times[i].until = planned != 0 ? LocalTime{times[i].from.minutes + planned}
                                      : end_by_next(state, times, i);
    }
    std::sort(times.begin(), times.end(),
              [](const CourtTime& a, const CourtTime& b) { return a.match < b.match; });
    return times;
}

}  // namespace courthand::event
