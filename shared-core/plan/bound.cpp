#include "courthand/plan/bound.h"

#include <algorithm>
#include <limits>
#include <map>
#include <numeric>
#include <set>

#include "courthand/plan/checker.h"
#include "plan/heads.h"
#include "plan/waits_between.h"

namespace courthand::plan {

namespace {

class Bound {
  public:
    Bound(const PlanTask& task, std::span<const ClusterBest> best)
        : task_{task},
          grid_{grid_of(task)},
          best_{best},
          relations_{task},
          heads_{heads_of(relations_, best)} {}

    [[nodiscard]] LowerBound run() const {
        LowerBound bound;
        std::map<PartyIndex, std::int64_t> alone;
        for (std::size_t p = 0; p < task_.parties.size(); ++p)
            if (task_.parties[p].kind == Party::Kind::team)
                alone[static_cast<PartyIndex>(p)] =
                    task_.weights[Wish::waiting] * waits_of(static_cast<PartyIndex>(p));
        std::int64_t ends = 0;
        for (std::size_t d = 0; d < relations_.days.size(); ++d) {
            const Trade trade = least_of(static_cast<DayIndex>(d), alone);
            ends += trade.end;
            bound.waiting += trade.waiting;
        }
        for (const auto& [team, waits] : alone) bound.waiting += waits;
        bound.waiting += task_.weights[Wish::waiting] * least_waits_between(relations_, heads_);
        bound.end = std::max(task_.weights[Wish::end] * all_load(), ends);
        const Plan none{std::vector<std::optional<Place>>(task_.matches.size())};
        bound.duties = task_.weights[Wish::duties] * check(task_, none).of(Wish::duties);
        return bound;
    }

  private:
    /// Of one day and its clusters, weighted.
    struct Trade {
        std::int64_t end = 0;
        std::int64_t waiting = 0;
        [[nodiscard]] std::int64_t total() const { return end + waiting; }
    };
    /// A cluster on its day: how long the day is at least with each of its shapes.
    struct OnDay {
        const ClusterBest* best = nullptr;
        Minute around = 0;       ///< before and after it
        std::int64_t alone = 0;  ///< what its teams wait, each by itself
    };

    /// The cheapest length of a day with its clusters, whose teams are then counted.
    [[nodiscard]] Trade least_of(DayIndex day, std::map<PartyIndex, std::int64_t>& alone) const {
        std::vector<OnDay> clusters;
        for (const ClusterBest& best : best_)
            if (heads_.day[best.cluster.matches.front()] == day)
                clusters.push_back(on_day(best, day, alone));
        auto shortest = static_cast<Minute>(end_of(day));
        std::set<Minute> lengths;
        for (const OnDay& each : clusters) {
            shortest = std::max(shortest, each.around + each.best->shapes.front().length);
            for (const Shape& shape : each.best->shapes) lengths.insert(each.around + shape.length);
        }
        Trade least = with(shortest, clusters);
        for (const Minute length : lengths)
            if (const Trade other = with(length, clusters);
                length > shortest && other.total() < least.total())
                least = other;
        return least;
    }

    [[nodiscard]] OnDay on_day(const ClusterBest& best, DayIndex day,
                               std::map<PartyIndex, std::int64_t>& alone) const {
        OnDay each{&best, 0, 0};
        Minute head = never;
        Minute tail = never;
        for (const MatchIndex match : best.cluster.matches) {
            head = std::min(head, heads_.head[match]);
            tail = std::min(tail, heads_.tail[match]);
            for (const auto& who : relations_.of_match[match]) {
                const auto team = alone.find(who.party);
                if (team == alone.end()) continue;
                each.alone += team->second;
                team->second = 0;
            }
        }
        each.around = head - relations_.days[day].from + tail;
        return each;
    }

    [[nodiscard]] Trade with(Minute length, const std::vector<OnDay>& clusters) const {
        Trade trade{task_.weights[Wish::end] * length, 0};
        for (const OnDay& each : clusters) {
            std::int64_t least = each.best->shapes.front().waiting;
            for (const Shape& shape : each.best->shapes)
                if (each.around + shape.length <= length) least = std::min(least, shape.waiting);
            trade.waiting += std::max(each.alone, least);
        }
        return trade;
    }

    /// The least minutes that one team waits, all its days together.
    [[nodiscard]] std::int64_t waits_of(PartyIndex party) const {
        std::int64_t plays = 0;
        std::int64_t works = 0;
        Minute rest = never;
        std::set<std::optional<DayIndex>> days;
        for (const Attendance& each : relations_.of_party[party]) {
            const TaskMatch& match = task_.matches[each.match];
            if (match.begun) return 0;  // it may have rested less
            days.insert(heads_.day[each.match]);
            if (each.part != Part::plays) {
                ++works;
                continue;
            }
            ++plays;
            rest = std::min(rest, break_after(match));
        }
        if (plays == 0) return 0;
        const bool one_day = days.size() == 1 && *days.begin();
        const auto most_days = static_cast<std::int64_t>(relations_.days.size());
        const std::int64_t breaks = plays - works - (one_day ? 1 : most_days);
        return std::max<std::int64_t>(0, breaks) * rest;
    }

    /// The least break after a match; on the grid it may be more than the rest.
    [[nodiscard]] Minute break_after(const TaskMatch& match) const {
        const Minute rest = task_.groups[match.group].rest;
        return stride(grid_, match.duration, rest) - match.duration;
    }

    /// From the opening of the day to the end of its last match.
    [[nodiscard]] std::int64_t end_of(DayIndex day) const {
        std::set<Minute> heads;
        std::set<Minute> tails;
        Minute end = 0;
        for (std::size_t m = 0; m < task_.matches.size(); ++m) {
            if (heads_.day[m] != day) continue;
            heads.insert(heads_.head[m]);
            tails.insert(heads_.tail[m]);
            end = std::max(end, heads_.head[m] + task_.matches[m].duration + heads_.tail[m]);
        }
        for (const Minute head : heads)
            for (const Minute tail : tails) end = std::max(end, load_end(day, head, tail));
        return end == 0 ? 0 : end - relations_.days[day].from;
    }

    /// Of matches that begin no sooner than `head` and are followed by `tail` minutes or more.
    [[nodiscard]] Minute load_end(DayIndex day, Minute head, Minute tail) const {
        std::vector<Minute> durations;
        std::set<CourtIndex> courts;
        for (std::size_t m = 0; m < task_.matches.size(); ++m) {
            if (heads_.day[m] != day || heads_.head[m] < head || heads_.tail[m] < tail) continue;
            if (task_.matches[m].pinned) return 0;  // they need not be beside each other
            durations.push_back(task_.matches[m].duration);
            for (const CourtIndex court : relations_.courts[m])
                if (is_open(court, day)) courts.insert(court);
        }
        if (durations.empty() || courts.empty()) return 0;
        std::sort(durations.begin(), durations.end());
        // Some court has so many of them; all but its last are followed by a start on the grid.
        const std::size_t most = (durations.size() + courts.size() - 1) / courts.size();
        const Minute fewest = least_in_turn(durations, most);
        const Minute all = std::accumulate(durations.begin(), durations.end(), 0);
        const auto count = static_cast<Minute>(courts.size());
        return head + std::max(fewest, (all + count - 1) / count) + tail;
    }

    /// Of so many of these, sorted, one after the other on a court: which one is last is open.
    [[nodiscard]] Minute least_in_turn(const std::vector<Minute>& durations,
                                       std::size_t most) const {
        Minute strides = 0;
        for (std::size_t i = 0; i < most; ++i) strides += stride(grid_, durations[i], 0);
        Minute least = std::numeric_limits<Minute>::max();
        for (std::size_t last = 0; last < durations.size(); ++last) {
            const Minute left_out = durations[last < most ? last : most - 1];
            least = std::min(least, strides - stride(grid_, left_out, 0) + durations[last]);
        }
        return least;
    }

    [[nodiscard]] bool is_open(CourtIndex court, DayIndex day) const {
        const auto& open = task_.courts[court].open;
        return std::any_of(open.begin(), open.end(),
                           [&](const Opening& opening) { return opening.day == day; });
    }

    /// However matches are shared out between days, courts need this time for them.
    [[nodiscard]] std::int64_t all_load() const {
        std::int64_t all = 0;
        for (const TaskMatch& match : task_.matches) all += match.pinned ? 0 : match.duration;
        const auto courts = static_cast<std::int64_t>(task_.courts.size());
        return (all + courts - 1) / courts;
    }

    const PlanTask& task_;
    Minute grid_;
    std::span<const ClusterBest> best_;
    Relations relations_;
    Heads heads_;
};

}  // namespace

LowerBound lower_bound(const PlanTask& task, std::span<const ClusterBest> best) {
    return Bound{task, best}.run();
}

std::vector<Cluster> clusters_of(const PlanTask& task) {
    const Relations relations{task};
    const Heads heads = heads_of(relations, {});
    std::vector<Cluster> clusters;
    std::vector<bool> seen(task.matches.size(), false);
    for (std::size_t m = 0; m < task.matches.size(); ++m) {
        if (seen[m]) continue;
        Cluster cluster{{static_cast<MatchIndex>(m)}};
        seen[m] = true;
        for (std::size_t next = 0; next < cluster.matches.size(); ++next)
            for (const auto& who : relations.of_match[cluster.matches[next]]) {
                if (task.parties[who.party].kind != Party::Kind::team) continue;
                for (const Attendance& other : relations.of_party[who.party])
                    if (!seen[other.match]) {
                        seen[other.match] = true;
                        cluster.matches.push_back(other.match);
                    }
            }
        std::sort(cluster.matches.begin(), cluster.matches.end());
        const auto& day = heads.day[cluster.matches.front()];
        const bool confined =
            day &&
            std::all_of(cluster.matches.begin(), cluster.matches.end(), [&](MatchIndex each) {
                return heads.day[each] == day && !task.matches[each].pinned;
            });
        if (confined && cluster.matches.size() > 1) clusters.push_back(std::move(cluster));
    }
    return clusters;
}

double gap_of(std::int64_t cost, std::int64_t bound) noexcept {
    if (cost <= bound) return 0;
    return bound <= 0 ? 1 : static_cast<double>(cost - bound) / static_cast<double>(bound);
}

}  // namespace courthand::plan
