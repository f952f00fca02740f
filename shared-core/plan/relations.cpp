#include <algorithm>

#include "courthand/plan/board.h"

namespace courthand::plan {

namespace {

template <class Item>
[[nodiscard]] bool holds(const std::vector<Item>& items, const Item& item) {
    return std::find(items.begin(), items.end(), item) != items.end();
}

[[nodiscard]] bool may_have(const TaskCourt& court, const TaskMatch& match) {
    const bool has_all = std::all_of(match.needs.begin(), match.needs.end(),
                                     [&](const auto& need) { return holds(court.features, need); });
    return has_all && (court.kept_for.empty() || holds(court.kept_for, match.group));
}

/// Each party once, with the part that asks most of it.
[[nodiscard]] std::vector<Relations::Attending> attending(const TaskMatch& match) {
    std::vector<Relations::Attending> all;
    const auto add = [&](PartyIndex party, Part part) {
        const auto same = [&](const Relations::Attending& who) { return who.party == party; };
        if (std::none_of(all.begin(), all.end(), same)) all.push_back({party, part});
    };
    for (const PartyIndex side : match.sides) add(side, Part::plays);
    for (const PartyIndex worker : match.workers) add(worker, Part::works);
    for (const PartyIndex person : match.present) add(person, Part::is_there);
    return all;
}

}  // namespace

Relations::Relations(const PlanTask& planned)
    : task{planned},
      days{days_of(planned)},
      of_party(planned.parties.size()),
      of_match(planned.matches.size()),
      before(planned.matches.size()),
      after(planned.matches.size()),
      courts(planned.matches.size()) {
    for (std::size_t m = 0; m < task.matches.size(); ++m) {
        const auto match = static_cast<MatchIndex>(m);
        of_match[m] = attending(task.matches[m]);
        for (const Attending& who : of_match[m]) {
            of_party[who.party].push_back({match, who.part});
            const Minute gap = who.part == Part::plays ? rest_of(match) : 0;
            for (const MatchIndex from : task.parties[who.party].from) {
                before[m].push_back({from, gap});
                after[from].push_back({match, gap});
            }
        }
        for (std::size_t c = 0; c < task.courts.size(); ++c)
            if (may_have(task.courts[c], task.matches[m]))
                courts[m].push_back(static_cast<CourtIndex>(c));
    }
}

DayIndex Relations::day_of(Minute start) const {
    for (std::size_t d = 0; d < days.size(); ++d)
        if (days[d].from <= start && start < days[d].until) return static_cast<DayIndex>(d);
    return static_cast<DayIndex>(days.size());
}

bool Relations::is_team(PartyIndex party) const {
    const Party::Kind kind = task.parties[party].kind;
    return kind == Party::Kind::team || kind == Party::Kind::expected;
}

}  // namespace courthand::plan
