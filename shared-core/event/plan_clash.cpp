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

/// Against a bye nobody plays.
[[nodiscard]] bool is_played(const TournamentState& state, MatchRef match) {
    return state.side(match, 0).state != Side::State::bye &&
           state.side(match, 1).state != Side::State::bye;
}

[[nodiscard]] bool plays(const TournamentState& state, MatchRef match, TeamIndex team) {
    return is_played(state, match) &&
           (state.side(match, 0).team == team || state.side(match, 1).team == team);
}

/// The time after which its teams rest. Where no length is told a match holds its court until the
/// next one there, be that hours away: its teams are done with it before.
[[nodiscard]] CourtTime of_teams(const TournamentState& state, CourtTime time) {
    if (state.divisions[time.match.division].rules.match_minutes != 0) return time;
    const LocalTime usual{time.from.minutes + usual_minutes(state.match(time.match).format)};
    time.until = std::min(time.until, usual);
    return time;
}

/// Between two matches of a team that are not in a row there is room for another.
[[nodiscard]] std::int32_t room_for_another(const Division& division) {
    return division.rules.match_minutes != 0 ? division.rules.match_minutes
                                             : usual_minutes(division.format);
}

/// The matches of a team by their beginning, the one looked at among them.
[[nodiscard]] std::vector<CourtTime> played_by(const TournamentState& state, TeamIndex team,
                                               std::vector<CourtTime> times) {
    std::erase_if(times, [&](const CourtTime& time) { return !plays(state, time.match, team); });
    for (CourtTime& time : times) time = of_teams(state, time);
    std::sort(times.begin(), times.end(),
              [](const CourtTime& a, const CourtTime& b) { return a.from < b.from; });
    return times;
}

/// How many of them are in one row with `own`.
[[nodiscard]] std::size_t row_with(const std::vector<CourtTime>& played, const CourtTime& own,
                                   std::int32_t room) {
    std::size_t row = 0;
    bool holds = false;
    for (std::size_t i = 0; i < played.size(); ++i) {
        if (i > 0 && between(played[i - 1], played[i]) >= room) {
            if (holds) return row;
            row = 0;
        }
        ++row;
        holds = holds || played[i].match == own.match;
    }
    return row;
}

void look_at_load(const TournamentState& state, const CourtTime& own, TeamIndex team,
                  const std::vector<CourtTime>& times, std::vector<PlanClash>& found) {
    const Division& division = state.divisions[own.match.division];
    const std::size_t most_in_a_row = division.rules.most_in_a_row;
    const std::size_t most_a_day = division.rules.most_a_day;
    if (most_in_a_row == 0 && most_a_day == 0) return;
    const std::vector<CourtTime> played = played_by(state, team, times);
    const std::size_t row = row_with(played, own, room_for_another(division));
    if (most_in_a_row != 0 && row > most_in_a_row)
        found.push_back({PlanClash::Kind::in_a_row, team, {}, 0, row});
    const auto that_day = static_cast<std::size_t>(
        std::count_if(played.begin(), played.end(),
                      [&](const CourtTime& time) { return time.from.date() == own.from.date(); }));
    if (most_a_day != 0 && that_day > most_a_day)
        found.push_back({PlanClash::Kind::a_day, team, {}, 0, that_day});
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
            found.push_back({PlanClash::Kind::court_taken, no_team, other.match, 0, 0});
        for (const std::size_t which : {std::size_t{0}, std::size_t{1}}) {
            const Side side = state.side(match, which);
            if (!side.is_team() || !plays(state, other.match, side.team)) continue;
            if (together && !over)
                found.push_back({PlanClash::Kind::plays_then, side.team, other.match, 0, 0});
            const std::int32_t left = between(of_teams(state, *own), of_teams(state, other));
            if (!together && left < rest)
                found.push_back({PlanClash::Kind::short_rest, side.team, other.match, left, 0});
        }
    }
    if (!is_played(state, match)) return found;
    for (const std::size_t which : {std::size_t{0}, std::size_t{1}})
        if (const Side side = state.side(match, which); side.is_team())
            look_at_load(state, *own, side.team, times, found);
    return found;
}

std::string in_words(const TournamentState& state, MatchRef match, const PlanClash& clash) {
    const std::string team = clash.team == no_team ? std::string{} : state.teams[clash.team].name;
    const auto other = [&] { return state.node(clash.other).name; };
    const DivisionOpened& rules = state.divisions[match.division].rules;
    switch (clash.kind) {
        case PlanClash::Kind::court_taken:
            return fmt::format("{} holds this court at this time", other());
        case PlanClash::Kind::plays_then:
            return fmt::format("{} plays {} at this time", team, other());
        case PlanClash::Kind::short_rest:
            return fmt::format("{} has {} minutes of rest beside {}, and not {}", team,
                               clash.minutes, other(), rules.rest_minutes);
        case PlanClash::Kind::in_a_row:
            return fmt::format("{} plays {} matches in a row, and not {}", team, clash.matches,
                               rules.most_in_a_row);
        case PlanClash::Kind::a_day:
            return fmt::format("{} plays {} matches on this day, and not {}", team, clash.matches,
                               rules.most_a_day);
    }
    return {};
}

}  // namespace courthand::event
