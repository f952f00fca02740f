#include "plan/costs.h"

#include <algorithm>
#include <map>
#include <numeric>

namespace courthand::plan {

namespace {

/// When a team is in the hall on one day, and with what.
struct Presence {
    Minute from = never;
    Minute until = 0;
    Minute busy = 0;
};

class Sums {
  public:
    Sums(const Relations& relations, const Plan& plan, Report& report)
        : relations_{relations}, task_{relations.task}, plan_{plan}, report_{report} {}

    void run() {
        for (std::size_t p = 0; p < task_.parties.size(); ++p)
            if (relations_.is_team(static_cast<PartyIndex>(p)))
                add_team(static_cast<PartyIndex>(p));
        add_ends();
        add_pools();
        add_duties();
        of(Wish::told) = static_cast<std::int64_t>(people_to_tell(task_, plan_).size());
        for (std::size_t w = 0; w < wish_count; ++w)
            report_.total += task_.weights.of[w] * report_.costs[w];
    }

  private:
    [[nodiscard]] std::int64_t& of(Wish wish) {
        return report_.costs[static_cast<std::size_t>(wish)];
    }
    [[nodiscard]] Minute end_of(MatchIndex match) const {
        return plan_.places[match]->start + task_.matches[match].duration;
    }

    void add_team(PartyIndex party) {
        std::map<DayIndex, Presence> days;
        std::vector<Window> played;
        for (const Attendance& each : relations_.of_party[party]) {
            const auto& place = plan_.places[each.match];
            if (!place) continue;
            Presence& day = days[relations_.day_of(place->start)];
            day.from = std::min(day.from, place->start);
            day.until = std::max(day.until, end_of(each.match));
            day.busy += task_.matches[each.match].duration;
            if (each.part == Part::plays) played.push_back({place->start, end_of(each.match)});
        }
        std::sort(played.begin(), played.end());
        come_from_earlier(party, days, played);
        for (const auto& [index, day] : days) {
            const std::int64_t waits = std::max(0, day.until - day.from - day.busy);
            report_.busy += day.busy;
            of(Wish::waiting) += waits;
            of(Wish::spread) += std::max<std::int64_t>(0, waits - task_.fair_wait);
        }
        for (std::size_t i = 1; i < played.size(); ++i)
            report_.worst_rest = std::min(report_.worst_rest, played[i].from - played[i - 1].until);
    }

    /// A team that is not known yet has played before, and waits from there on.
    void come_from_earlier(PartyIndex party, std::map<DayIndex, Presence>& days,
                           const std::vector<Window>& played) {
        Minute over = -1;
        DayIndex day = 0;
        for (const MatchIndex from : task_.parties[party].from)
            if (const auto& place = plan_.places[from]; place && end_of(from) > over) {
                over = end_of(from);
                day = relations_.day_of(place->start);
            }
        if (over < 0) return;
        if (const auto same = days.find(day); same != days.end())
            same->second.from = std::min(same->second.from, over);
        if (!played.empty())
            report_.worst_rest = std::min(report_.worst_rest, played.front().from - over);
    }

    void add_ends() {
        std::vector<Minute> ends(relations_.days.size() + 1, 0);
        for (std::size_t m = 0; m < task_.matches.size(); ++m)
            if (const auto& place = plan_.places[m]) {
                Minute& end = ends[relations_.day_of(place->start)];
                end = std::max(end, end_of(static_cast<MatchIndex>(m)));
            }
        for (std::size_t d = 0; d < relations_.days.size(); ++d)
            if (ends[d] > 0) of(Wish::end) += ends[d] - relations_.days[d].from;
    }

    void add_pools() {
        std::map<PoolIndex, std::map<CourtIndex, std::int64_t>> courts;
        for (std::size_t m = 0; m < task_.matches.size(); ++m)
            if (plan_.places[m] && task_.matches[m].pool)
                ++courts[*task_.matches[m].pool][plan_.places[m]->court];
        for (const auto& [pool, counted] : courts) {
            std::int64_t all = 0;
            std::int64_t most = 0;
            for (const auto& [court, count] : counted) {
                all += count;
                most = std::max(most, count);
            }
            of(Wish::courts) += all - most;
        }
    }

    void add_duties() {
        std::map<GroupIndex, std::vector<std::int64_t>> counts;
        for (std::size_t p = 0; p < task_.parties.size(); ++p) {
            if (task_.parties[p].kind != Party::Kind::team) continue;
            const auto& matches = relations_.of_party[p];
            const auto plays = std::find_if(matches.begin(), matches.end(), [](const auto& each) {
                return each.part == Part::plays;
            });
            if (plays == matches.end()) continue;
            counts[task_.matches[plays->match].group].push_back(
                std::count_if(matches.begin(), matches.end(),
                              [](const auto& each) { return each.part == Part::works; }));
        }
        for (const auto& [group, each] : counts) {
            const std::int64_t least = *std::min_element(each.begin(), each.end());
            of(Wish::duties) += std::accumulate(each.begin(), each.end(), std::int64_t{0}) -
                                least * static_cast<std::int64_t>(each.size());
        }
    }

    const Relations& relations_;
    const PlanTask& task_;
    const Plan& plan_;
    Report& report_;
};

}  // namespace

void add_costs(const Relations& relations, const Plan& plan, Report& report) {
    Sums{relations, plan, report}.run();
}

}  // namespace courthand::plan
