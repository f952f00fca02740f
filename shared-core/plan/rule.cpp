#include "courthand/plan/rule.h"

#include <algorithm>

namespace courthand::plan {

namespace {

using Kind = Rule::Kind;

[[nodiscard]] bool is_person(const PlanTask& task, PartyIndex party) {
    const auto kind = task.parties[party].kind;
    return kind == Party::Kind::crew || kind == Party::Kind::person;
}

/// Whether somebody who is no team is at two matches.
[[nodiscard]] bool has_busy_person(const PlanTask& task) {
    std::vector<int> count(task.parties.size(), 0);
    for (const TaskMatch& match : task.matches) {
        for (const PartyIndex party : match.workers) ++count[party];
        for (const PartyIndex party : match.present) ++count[party];
    }
    for (std::size_t p = 0; p < count.size(); ++p)
        if (count[p] > 1 && is_person(task, static_cast<PartyIndex>(p))) return true;
    return false;
}

[[nodiscard]] bool says_anything(const PlanTask& task, GroupIndex g, Kind kind) {
    const Group& group = task.groups[g];
    const auto some = [&](auto says) {
        return std::any_of(task.matches.begin(), task.matches.end(),
                           [&](const TaskMatch& match) { return match.group == g && says(match); });
    };
    switch (kind) {
        case Kind::rest:
            return group.rest > 0;
        case Kind::in_a_row:
            return group.most_in_a_row > 0;
        case Kind::a_day:
            return group.most_a_day > 0;
        case Kind::latest_finish:
            return !group.latest_finish.empty();
        case Kind::not_before:
            return some([](const TaskMatch& match) { return match.earliest > 0; });
        case Kind::latest_end:
            return some([](const TaskMatch& match) { return match.latest_end < never; });
        case Kind::features:
            return some([](const TaskMatch& match) { return !match.needs.empty(); });
        case Kind::kept:
            return std::any_of(task.courts.begin(), task.courts.end(), [&](const auto& court) {
                const auto& kept = court.kept_for;
                return !kept.empty() && std::find(kept.begin(), kept.end(), g) == kept.end();
            });
        case Kind::hours:
        case Kind::persons:
        case Kind::pinned:
            return false;  // of no division
    }
    return false;
}

/// Each court is open from the beginning of each day until the next begins, and after the last for
/// as long again as days and nights have lasted, at least a whole day.
void open_all(PlanTask& task) {
    const std::vector<Window> days = days_of(task);
    constexpr Minute whole_day = 24 * 60;
    for (TaskCourt& court : task.courts) {
        court.open.clear();
        for (std::size_t d = 0; d < days.size(); ++d) {
            const Minute until = d + 1 < days.size()
                                     ? days[d + 1].from
                                     : std::min(latest_minute, days[d].until + whole_day);
            court.open.push_back({{days[d].from, until}, static_cast<DayIndex>(d)});
        }
    }
}

void free_persons(PlanTask& task) {
    const auto no_team = [&](PartyIndex party) { return is_person(task, party); };
    for (TaskMatch& match : task.matches) {
        std::erase_if(match.workers, no_team);
        std::erase_if(match.present, no_team);
    }
}

void loosen(PlanTask& task, GroupIndex g, Kind kind) {
    Group& group = task.groups[g];
    if (kind == Kind::rest) group.rest = 0;
    if (kind == Kind::in_a_row) group.most_in_a_row = 0;
    if (kind == Kind::a_day) group.most_a_day = 0;
    if (kind == Kind::latest_finish) group.latest_finish.clear();
    for (TaskMatch& match : task.matches) {
        if (match.group != g) continue;
        if (kind == Kind::not_before) match.earliest = 0;
        if (kind == Kind::latest_end) match.latest_end = never;
        if (kind == Kind::features) match.needs.clear();
    }
    if (kind != Kind::kept) return;
    for (TaskCourt& court : task.courts)
        if (!court.kept_for.empty()) court.kept_for.push_back(g);
}

[[nodiscard]] std::optional<Kind> kind_of(const PlanTask& task, const Violation& violation) {
    switch (violation.kind) {
        case Violation::Kind::closed:
            return Kind::hours;
        case Violation::Kind::short_rest:
        case Violation::Kind::order:
            return Kind::rest;
        case Violation::Kind::in_a_row:
            return Kind::in_a_row;
        case Violation::Kind::a_day:
            return Kind::a_day;
        case Violation::Kind::late_finish:
            return Kind::latest_finish;
        case Violation::Kind::too_early:
            return Kind::not_before;
        case Violation::Kind::too_late:
            return Kind::latest_end;
        case Violation::Kind::feature:
            return Kind::features;
        case Violation::Kind::kept:
            return Kind::kept;
        case Violation::Kind::pinned:
            return Kind::pinned;
        case Violation::Kind::at_once:
            if (is_person(task, *violation.party)) return Kind::persons;
            return std::nullopt;
        case Violation::Kind::court_taken:
        case Violation::Kind::not_placed:
        case Violation::Kind::shown_twice:
            return std::nullopt;
    }
    return std::nullopt;
}

/// Minutes of a match outside the hours of its court.
[[nodiscard]] std::int32_t outside(const PlanTask& task, const Plan& plan, MatchIndex match) {
    const Place place = *plan.places[match];
    const Minute end = place.start + task.matches[match].duration;
    Minute least = task.matches[match].duration;
    for (const Opening& opening : task.courts[place.court].open) {
        const Minute inside =
            std::min(end, opening.hours.until) - std::max(place.start, opening.hours.from);
        least = std::min(least, end - place.start - std::max(0, inside));
    }
    return least;
}

}  // namespace

std::vector<Rule> rules_of(const PlanTask& task) {
    std::vector<Rule> rules{{Kind::hours, {}}};
    const bool pins = std::any_of(task.matches.begin(), task.matches.end(), [](const auto& match) {
        return match.pinned.has_value() && !match.begun;
    });
    if (pins) rules.push_back({Kind::pinned, {}});
    if (has_busy_person(task)) rules.push_back({Kind::persons, {}});
    for (std::size_t g = 0; g < task.groups.size(); ++g)
        for (const Kind kind : {Kind::rest, Kind::in_a_row, Kind::a_day, Kind::latest_finish,
                                Kind::not_before, Kind::latest_end, Kind::features, Kind::kept})
            if (says_anything(task, static_cast<GroupIndex>(g), kind))
                rules.push_back({kind, static_cast<GroupIndex>(g)});
    return rules;
}

PlanTask without(const PlanTask& task, const Rule& rule) {
    PlanTask loose = task;
    if (rule.group) {
        loosen(loose, *rule.group, rule.kind);
    } else if (rule.kind == Kind::hours) {
        open_all(loose);
    } else if (rule.kind == Kind::persons) {
        free_persons(loose);
    } else if (rule.kind == Kind::pinned) {
        for (TaskMatch& match : loose.matches)
            if (!match.begun) match.pinned.reset();
    }
    return loose;
}

std::optional<PlanTask> loosened(const PlanTask& task, const Rule& rule, std::int32_t by) {
    PlanTask loose = task;
    if (rule.kind == Kind::hours) {
        for (TaskCourt& court : loose.courts)
            for (Opening& opening : court.open) opening.hours.until += by;
        const std::vector<Window> days = days_of(task);
        for (TaskCourt& court : loose.courts)
            for (Opening& opening : court.open)
                if (opening.day + std::size_t{1} < days.size())
                    opening.hours.until =
                        std::min(opening.hours.until, days[opening.day + std::size_t{1}].from);
        return loose;
    }
    if (!rule.group) return std::nullopt;
    Group& group = loose.groups[*rule.group];
    const auto more = static_cast<std::uint16_t>(by);
    if (rule.kind == Kind::rest) {
        group.rest = std::max(0, group.rest - by);
    } else if (rule.kind == Kind::in_a_row) {
        group.most_in_a_row = static_cast<std::uint16_t>(group.most_in_a_row + more);
    } else if (rule.kind == Kind::a_day) {
        group.most_a_day = static_cast<std::uint16_t>(group.most_a_day + more);
    } else if (rule.kind == Kind::latest_finish) {
        for (Minute& finish : group.latest_finish) finish = std::min(never, finish + by);
    } else if (rule.kind == Kind::not_before || rule.kind == Kind::latest_end) {
        for (TaskMatch& match : loose.matches) {
            if (match.group != *rule.group) continue;
            if (rule.kind == Kind::not_before) match.earliest = std::max(0, match.earliest - by);
            if (rule.kind == Kind::latest_end)
                match.latest_end = std::min(never, match.latest_end + by);
        }
    } else {
        return std::nullopt;
    }
    return loose;
}

bool breaks(const PlanTask& task, const Rule& rule, const Violation& violation) {
    return kind_of(task, violation) == rule.kind &&
           (!rule.group || task.matches[violation.match].group == rule.group);
}

Loosening loosening(const PlanTask& task, const Rule& rule, const Plan& plan) {
    Loosening loose{rule};
    for (const Violation& violation : check(task, plan).violations) {
        if (!breaks(task, rule, violation)) continue;
        const std::int32_t minutes = violation.kind == Violation::Kind::closed
                                         ? outside(task, plan, violation.match)
                                         : violation.minutes;
        ++loose.places;
        loose.minutes += minutes;
        loose.worst = std::max(loose.worst, minutes);
    }
    return loose;
}

}  // namespace courthand::plan
