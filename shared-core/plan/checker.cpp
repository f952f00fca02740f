#include "courthand/plan/checker.h"

#include <algorithm>
#include <tuple>

#include "plan/costs.h"

namespace courthand::plan {

namespace {

using Kind = Violation::Kind;

/// A match at its place.
struct Placed {
    MatchIndex match = 0;
    Window time{};
    Part part = Part::plays;
};

class Check {
  public:
    Check(const Relations& relations, const Plan& plan)
        : relations_{relations}, task_{relations.task}, plan_{plan} {}

    [[nodiscard]] std::vector<Violation> run() {
        for (std::size_t m = 0; m < task_.matches.size(); ++m) {
            const auto match = static_cast<MatchIndex>(m);
            if (!plan_.places[m]) {
                add({Kind::not_placed, match});
                continue;
            }
            if (task_.matches[m].pinned && task_.matches[m].pinned != plan_.places[m])
                add({Kind::pinned, match});
            look_at_court(match);
            look_at_time(match);
            look_at_order(match);
        }
        look_at_courts();
        for (std::size_t p = 0; p < task_.parties.size(); ++p)
            look_at_party(static_cast<PartyIndex>(p));
        std::stable_sort(found_.begin(), found_.end(),
                         [](const auto& a, const auto& b) { return a.match < b.match; });
        return std::move(found_);
    }

  private:
    /// What has begun stands as it is; only what is still planned can be wrong.
    void add(Violation violation) {
        const bool other_stands = !violation.other || task_.matches[*violation.other].begun;
        if (task_.matches[violation.match].begun && other_stands) return;
        found_.push_back(violation);
    }
    [[nodiscard]] Window time_of(MatchIndex match) const {
        const Minute start = plan_.places[match]->start;
        return {start, start + task_.matches[match].duration};
    }

    void look_at_court(MatchIndex m) {
        const TaskMatch& match = task_.matches[m];
        const TaskCourt& court = task_.courts[plan_.places[m]->court];
        const Window own = time_of(m);
        const auto within = [&](const Opening& opening) {
            return opening.hours.from <= own.from && own.until <= opening.hours.until;
        };
        if (std::none_of(court.open.begin(), court.open.end(), within)) add({Kind::closed, m});
        for (const std::string& need : match.needs)
            if (std::find(court.features.begin(), court.features.end(), need) ==
                court.features.end())
                add({Kind::feature, m});
        const auto& kept = court.kept_for;
        if (!kept.empty() && std::find(kept.begin(), kept.end(), match.group) == kept.end())
            add({Kind::kept, m});
    }

    void look_at_time(MatchIndex m) {
        const TaskMatch& match = task_.matches[m];
        const Window own = time_of(m);
        const Minute first = match.pinned ? match.earliest : std::max(match.earliest, task_.now);
        if (own.from < first) add({Kind::too_early, m, {}, {}, first - own.from});
        if (own.until > match.latest_end)
            add({Kind::too_late, m, {}, {}, own.until - match.latest_end});
        const DayIndex day = relations_.day_of(own.from);
        const auto& finish = task_.groups[match.group].latest_finish;
        if (day < finish.size() && own.until > finish[day])
            add({Kind::late_finish, m, {}, {}, own.until - finish[day]});
        for (const Window& twice : task_.no_start)
            if (!match.pinned && twice.from <= own.from && own.from < twice.until)
                add({Kind::shown_twice, m});
    }

    /// Of all that it waits for, the one that comes last speaks.
    void look_at_order(MatchIndex m) {
        Violation worst{Kind::order, m};
        for (const Relations::Wait& wait : relations_.before[m]) {
            if (!plan_.places[wait.match]) continue;
            const Minute early = time_of(wait.match).until + wait.gap - time_of(m).from;
            if (early <= worst.minutes) continue;
            worst.minutes = early;
            worst.other = wait.match;
        }
        if (worst.minutes > 0) add(worst);
    }

    /// Of two that meet, tells the one that begins later.
    template <class Tell>
    static void each_pair(std::vector<Placed>& placed, Minute apart, Tell tell) {
        std::sort(placed.begin(), placed.end(), [](const Placed& a, const Placed& b) {
            return std::tie(a.time, a.match) < std::tie(b.time, b.match);
        });
        for (std::size_t i = 0; i < placed.size(); ++i)
            for (std::size_t j = i + 1;
                 j < placed.size() && placed[j].time.from < placed[i].time.until + apart; ++j)
                tell(placed[i], placed[j]);
    }

    void look_at_courts() {
        std::vector<std::vector<Placed>> courts(task_.courts.size());
        for (std::size_t m = 0; m < task_.matches.size(); ++m) {
            const auto match = static_cast<MatchIndex>(m);
            if (plan_.places[m]) courts[plan_.places[m]->court].push_back({match, time_of(match)});
        }
        for (auto& placed : courts)
            each_pair(placed, 0, [&](const Placed& earlier, const Placed& later) {
                add({Kind::court_taken, later.match, earlier.match});
            });
    }

    void look_at_party(PartyIndex party) {
        std::vector<Placed> placed;
        Minute most_rest = 0;
        for (const Attendance& each : relations_.of_party[party])
            if (plan_.places[each.match]) {
                placed.push_back({each.match, time_of(each.match), each.part});
                most_rest = std::max(most_rest, relations_.rest_of(each.match));
            }
        each_pair(placed, most_rest, [&](const Placed& earlier, const Placed& later) {
            const Minute rest = later.time.from - earlier.time.until;
            const bool play = earlier.part == Part::plays && later.part == Part::plays;
            const Minute needed = relations_.rest_of(later.match);
            if (rest < 0)
                add({Kind::at_once, later.match, earlier.match, party});
            else if (play && rest < needed)
                add({Kind::short_rest, later.match, earlier.match, party, needed - rest});
        });
        std::erase_if(placed, [](const Placed& each) { return each.part != Part::plays; });
        if (!placed.empty()) look_at_load(party, placed);
    }

    /// The matches that a team plays, in the order of time.
    void look_at_load(PartyIndex team, const std::vector<Placed>& placed) {
        const Group& group = task_.groups[task_.matches[placed.front().match].group];
        std::vector<std::int32_t> a_day(relations_.days.size() + 1, 0);
        std::int32_t row = 0;
        for (std::size_t i = 0; i < placed.size(); ++i) {
            const bool joined =
                i > 0 && placed[i].time.from - placed[i - 1].time.until < group.row_break;
            row = joined ? row + 1 : 1;
            const std::int32_t that_day = ++a_day[relations_.day_of(placed[i].time.from)];
            if (group.most_in_a_row != 0 && row > group.most_in_a_row)
                add({Kind::in_a_row, placed[i].match, placed[i - 1].match, team,
                     row - group.most_in_a_row});
            if (group.most_a_day != 0 && that_day > group.most_a_day)
                add({Kind::a_day, placed[i].match, {}, team, that_day - group.most_a_day});
        }
    }

    const Relations& relations_;
    const PlanTask& task_;
    const Plan& plan_;
    std::vector<Violation> found_;
};

}  // namespace

Report check(const PlanTask& task, const Plan& plan) {
    const Relations relations{task};
    Report report;
    report.violations = Check{relations, plan}.run();
    add_costs(relations, plan, report);
    return report;
}

}  // namespace courthand::plan
