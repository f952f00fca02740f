#include "courthand/plan/task.h"

#include <fmt/format.h>

#include <algorithm>

namespace courthand::plan {

namespace {

constexpr Minute minutes_of_day = 24 * 60;

/// Of the matches that `match` waits for, whether all are among those that are `there`.
[[nodiscard]] bool ready(const PlanTask& task, const TaskMatch& match,
                         const std::vector<bool>& there) {
    const auto come = [&](PartyIndex party) {
        const auto& from = task.parties[party].from;
        return std::all_of(from.begin(), from.end(), [&](MatchIndex m) { return there[m]; });
    };
    return std::all_of(match.sides.begin(), match.sides.end(), come) &&
           std::all_of(match.workers.begin(), match.workers.end(), come) &&
           std::all_of(match.present.begin(), match.present.end(), come);
}

}  // namespace

std::vector<Window> days_of(const PlanTask& task) {
    std::vector<Window> days;
    for (const TaskCourt& court : task.courts)
        for (const Opening& opening : court.open) {
            if (opening.day >= days.size()) days.resize(opening.day + std::size_t{1});
            Window& day = days[opening.day];
            const bool first = day == Window{};
            day.from = first ? opening.hours.from : std::min(day.from, opening.hours.from);
            day.until = std::max(day.until, opening.hours.until);
        }
    return days;
}

std::string in_words(const PlanTask& task, Minute minute) {
    std::int32_t shown = minute;
    for (const ClockPiece& piece : task.clock)
        if (piece.from <= minute) shown = piece.shown + minute - piece.from;
    const std::int32_t of_day = shown % minutes_of_day;
    std::string time = fmt::format("{:02}:{:02}", of_day / 60, of_day % 60);
    const std::vector<Window> days = days_of(task);
    if (days.size() < 2) return time;
    std::size_t day = 0;
    for (std::size_t d = 0; d < days.size(); ++d)
        if (days[d].from <= minute) day = d;
    return fmt::format("{} of day {}", time, day + 1);
}

std::vector<MatchIndex> in_order(const PlanTask& task) {
    std::vector<MatchIndex> order;
    std::vector<bool> there(task.matches.size(), false);
    for (bool more = true; more;) {
        more = false;
        for (std::size_t m = 0; m < task.matches.size(); ++m) {
            if (there[m] || !ready(task, task.matches[m], there)) continue;
            there[m] = more = true;
            order.push_back(static_cast<MatchIndex>(m));
        }
    }
    return order;
}

}  // namespace courthand::plan
