#include "courthand/plan/board.h"

#include <algorithm>

namespace courthand::plan {

namespace {

[[nodiscard]] bool meet(const Window& a, const Window& b) {
    return a.from < b.until && b.from < a.until;
}

}  // namespace

int row_of(const std::vector<Window>& matches, Window own, Minute row_break) {
    int row = 0;
    bool holds = false;
    for (std::size_t i = 0; i < matches.size(); ++i) {
        if (i > 0 && matches[i].from - matches[i - 1].until >= row_break) {
            if (holds) return row;
            row = 0;
        }
        ++row;
        holds = holds || (matches[i].from == own.from && matches[i].until == own.until);
    }
    return holds ? row : 0;
}

std::vector<Minute> starts_of(const PlanTask& task) {
    std::vector<Minute> starts;
    for (const Window& day : days_of(task)) {
        Minute first = (day.from + task.step - 1) / task.step * task.step;
        for (; first < day.until; first += task.step) starts.push_back(first);
    }
    return starts;
}

Board::Board(const Relations& relations)
    : relations_{relations},
      plan_{std::vector<std::optional<Place>>(relations.task.matches.size())},
      on_court_(relations.task.courts.size()) {}

void Board::place(MatchIndex match, Place place) {
    remove(match);
    plan_.places[match] = place;
    on_court_[place.court].push_back(match);
}

void Board::remove(MatchIndex match) {
    const auto& place = plan_.places[match];
    if (!place) return;
    auto& there = on_court_[place->court];
    there.erase(std::find(there.begin(), there.end(), match));
    plan_.places[match].reset();
}

bool Board::within_limits(MatchIndex m, Minute start) const {
    const PlanTask& task = relations_.task;
    const TaskMatch& match = task.matches[m];
    if (match.pinned) return start == match.pinned->start;
    const Minute end = start + match.duration;
    if (start < match.earliest || start < task.now || end > match.latest_end) return false;
    const DayIndex day = relations_.day_of(start);
    if (day == relations_.days.size()) return false;
    const auto& finish = task.groups[match.group].latest_finish;
    if (day < finish.size() && end > finish[day]) return false;
    return std::none_of(task.no_start.begin(), task.no_start.end(), [&](const Window& twice) {
        return twice.from <= start && start < twice.until;
    });
}

bool Board::in_graph_order(MatchIndex match, Minute start) const {
    const auto& matches = relations_.task.matches;
    const auto over = [&](const Relations::Wait& wait) {
        const auto& place = plan_.places[wait.match];
        return !place || place->start + matches[wait.match].duration + wait.gap <= start;
    };
    const auto waits = [&](const Relations::Wait& wait) {
        const auto& place = plan_.places[wait.match];
        return !place || start + matches[match].duration + wait.gap <= place->start;
    };
    const auto& before = relations_.before[match];
    const auto& after = relations_.after[match];
    return std::all_of(before.begin(), before.end(), over) &&
           std::all_of(after.begin(), after.end(), waits);
}

bool Board::load_fits(MatchIndex m, PartyIndex team, Minute start) const {
    const TaskMatch& match = relations_.task.matches[m];
    const Group& group = relations_.task.groups[match.group];
    if (group.most_in_a_row == 0 && group.most_a_day == 0) return true;
    const Window own{start, start + match.duration};
    std::vector<Window> played{own};
    std::size_t that_day = 1;
    const DayIndex day = relations_.day_of(start);
    for (const Attendance& other : relations_.of_party[team]) {
        const auto& place = plan_.places[other.match];
        if (other.match == m || other.part != Part::plays || !place) continue;
        played.push_back(
            {place->start, place->start + relations_.task.matches[other.match].duration});
        if (relations_.day_of(place->start) == day) ++that_day;
    }
    if (group.most_a_day != 0 && that_day > group.most_a_day) return false;
    std::sort(played.begin(), played.end());
    // A row of what has begun already may be longer than it should; it is none of this match.
    return group.most_in_a_row == 0 || row_of(played, own, group.row_break) <= group.most_in_a_row;
}

bool Board::party_free(MatchIndex m, Relations::Attending who, Minute start) const {
    const auto& matches = relations_.task.matches;
    const Window own{start, start + matches[m].duration};
    for (const Attendance& other : relations_.of_party[who.party]) {
        const auto& place = plan_.places[other.match];
        if (other.match == m || !place) continue;
        const Window then{place->start, place->start + matches[other.match].duration};
        if (meet(own, then)) return false;
        if (who.part != Part::plays || other.part != Part::plays) continue;
        const bool later = own.from >= then.until;
        const Minute rest = later ? own.from - then.until : then.from - own.until;
        if (rest < relations_.rest_of(later ? m : other.match)) return false;
    }
    return who.part != Part::plays || load_fits(m, who.party, start);
}

bool Board::time_fits(MatchIndex match, Minute start) const {
    if (!within_limits(match, start) || !in_graph_order(match, start)) return false;
    const auto& who = relations_.of_match[match];
    return std::all_of(who.begin(), who.end(), [&](const Relations::Attending& each) {
        return party_free(match, each, start);
    });
}

bool Board::court_fits(MatchIndex m, Place place) const {
    const PlanTask& task = relations_.task;
    const TaskMatch& match = task.matches[m];
    if (match.pinned) {
        if (*match.pinned != place) return false;
    }
    const auto& courts = relations_.courts[m];
    if (std::find(courts.begin(), courts.end(), place.court) == courts.end()) return false;
    const Window own{place.start, place.start + match.duration};
    const auto& open = task.courts[place.court].open;
    if (std::none_of(open.begin(), open.end(), [&](const Opening& opening) {
            return opening.hours.from <= own.from && own.until <= opening.hours.until;
        }))
        return false;
    const auto& there = on_court_[place.court];
    return std::none_of(there.begin(), there.end(), [&](MatchIndex other) {
        const Minute from = plan_.places[other]->start;
        return other != m && meet(own, {from, from + task.matches[other].duration});
    });
}

}  // namespace courthand::plan
