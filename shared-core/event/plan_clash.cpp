#include "courthand/event/plan_clash.h"

#include <fmt/format.h>

#include <algorithm>

#include "courthand/event/court_time.h"

namespace courthand::event {

namespace {

/// Minutes between two matches that do not meet.
[[nodiscard]] std::int32_t between(const CourtTime& a, const CourtTime& b) {
    return a.from < b.from ? b.from.minutes - a.until.minutes : a.from.minutes - b.until.minutes;
}

[[nodiscard]] bool plays(const TournamentState& state, MatchRef match, TeamIndex team) {
    return state.side(match, 0).team == team || state.side(match, 1).team == team;
}

}  // namespace

std::vector<PlanClash> plan_clashes(const TournamentState& state, MatchRef match) {
    std::vector<PlanClash> found;
    const std::vector<CourtTime> times = court_times(state);
    const auto own = std::find_if(times.begin(), times.end(),
                                  [&](const CourtTime& time) { return time.match == match; });
    if (own == times.end()) return found;
    const std::int32_t rest = state.divisions[match.division].rules.rest_minutes;
    for (const CourtTime& other : times) {
        if (other.match == match) continue;
        const bool together = meet(*own, other);
        const bool over = state.match(other.match).result_counts;
        if (together && !over && other.court == own->court)
            found.push_back({PlanClash::Kind::court_taken, no_team, other.match, 0});
        for (const std::size_t which : {std::size_t{0}, std::size_t{1}}) {
            const Side side = state.side(match, which);
            if (!side.is_team() || !plays(state, other.match, side.team)) continue;
            if (together && !over)
                found.push_back({PlanClash::Kind::plays_then, side.team, other.match, 0});
            if (!together && between(*own, other) < rest)
                found.push_back(
                    {PlanClash::Kind::short_rest, side.team, other.match, between(*own, other)});
        }
    }
    return found;
}

std::string in_words(const TournamentState& state, MatchRef match, const PlanClash& clash) {
    const std::string team = clash.team == no_team ? std::string{} : state.teams[clash.team].name;
    const std::string& other = state.node(clash.other).name;
    switch (clash.kind) {
        case PlanClash::Kind::court_taken:
            return fmt::format("{} holds this court at this time", other);
        case PlanClash::Kind::plays_then:
            return fmt::format("{} plays {} at this time", team, other);
        case PlanClash::Kind::short_rest:
            return fmt::format("{} has {} minutes of rest beside {}, and not {}", team,
                               clash.minutes, other,
                               state.divisions[match.division].rules.rest_minutes);
    }
    return {};
}

}  // namespace courthand::event
