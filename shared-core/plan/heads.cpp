#include "plan/heads.h"

#include <algorithm>

namespace courthand::plan {

namespace {

class Search {
  public:
    Search(const Relations& relations, std::span<const ClusterBest> best)
        : relations_{relations}, task_{relations.task}, best_{best}, starts_{starts_of(task_)} {
        const std::size_t count = task_.matches.size();
        found_.head.assign(count, 0);
        found_.tail.assign(count, 0);
        found_.day.resize(count);
    }

    [[nodiscard]] Heads run() {
        const std::vector<MatchIndex> order = in_order(task_);
        for (const MatchIndex match : order) {
            found_.head[match] = soonest(match, after_all(match));
            found_.day[match] = only_day(match);
        }
        for (auto match = order.rbegin(); match != order.rend(); ++match) add_tail(*match);
        return std::move(found_);
    }

  private:
    /// The end of all that the match waits for, with its rest.
    [[nodiscard]] Minute after_all(MatchIndex match) const {
        Minute from = 0;
        for (const Relations::Wait& wait : relations_.before[match])
            from = std::max(
                from, found_.head[wait.match] + task_.matches[wait.match].duration + wait.gap);
        for (const Relations::Attending& who : relations_.of_match[match]) {
            const Minute gap = who.part == Part::plays ? relations_.rest_of(match) : 0;
            from = std::max(from, all_over(task_.parties[who.party].from) + gap);
        }
        return from;
    }

    /// When clusters that are wholly among these can be over.
    [[nodiscard]] Minute all_over(const std::vector<MatchIndex>& matches) const {
        Minute over = 0;
        if (matches.size() < 2) return over;
        for (const ClusterBest& each : best_) {
            const auto& inside = each.cluster.matches;
            Minute first = never;
            for (const MatchIndex match : inside) {
                if (std::find(matches.begin(), matches.end(), match) == matches.end()) {
                    first = never;
                    break;
                }
                first = std::min(first, found_.head[match]);
            }
            if (first != never) over = std::max(over, first + each.shapes.front().length);
        }
        return over;
    }

    [[nodiscard]] bool open_for(MatchIndex match, Minute start) const {
        const Minute end = start + task_.matches[match].duration;
        const auto& finish = task_.groups[task_.matches[match].group].latest_finish;
        const auto& courts = relations_.courts[match];
        return end <= task_.matches[match].latest_end &&
               std::any_of(courts.begin(), courts.end(), [&](CourtIndex court) {
                   const auto& open = task_.courts[court].open;
                   return std::any_of(open.begin(), open.end(), [&](const Opening& opening) {
                       const bool late = opening.day < finish.size() && end > finish[opening.day];
                       return !late && opening.hours.from <= start && end <= opening.hours.until;
                   });
               });
    }

    /// Where nothing is open any more, the time itself: the bound stays a bound.
    [[nodiscard]] Minute soonest(MatchIndex m, Minute from) const {
        const TaskMatch& match = task_.matches[m];
        if (match.pinned) return match.pinned->start;
        const Minute first = std::max({from, match.earliest, task_.now});
        for (auto at = std::lower_bound(starts_.begin(), starts_.end(), first); at != starts_.end();
             ++at)
            if (open_for(m, *at)) return *at;
        return first;
    }

    [[nodiscard]] std::optional<DayIndex> only_day(MatchIndex m) const {
        if (const auto& pinned = task_.matches[m].pinned) {
            const DayIndex day = relations_.day_of(pinned->start);
            return day < relations_.days.size() ? std::optional{day} : std::nullopt;
        }
        std::optional<DayIndex> only;
        for (std::size_t d = 0; d < relations_.days.size(); ++d) {
            const Window& day = relations_.days[d];
            auto at = std::lower_bound(starts_.begin(), starts_.end(),
                                       std::max(day.from, found_.head[m]));
            while (at != starts_.end() && *at < day.until && !open_for(m, *at)) ++at;
            if (at == starts_.end() || *at >= day.until) continue;
            if (only) return std::nullopt;
            only = static_cast<DayIndex>(d);
        }
        return only;
    }

    void add_tail(MatchIndex match) {
        const auto& day = found_.day[match];
        for (const Relations::Wait& wait : relations_.after[match])
            if (day && found_.day[wait.match] == day && !task_.matches[wait.match].begun)
                found_.tail[match] =
                    std::max(found_.tail[match], wait.gap + task_.matches[wait.match].duration +
                                                     found_.tail[wait.match]);
    }

    const Relations& relations_;
    const PlanTask& task_;
    std::span<const ClusterBest> best_;
    std::vector<Minute> starts_;
    Heads found_;
};

}  // namespace

Minute grid_of(const PlanTask& task) {
    for (const TaskMatch& match : task.matches)
        for (const auto& place : {match.pinned, match.published})
            if (place && place->start % task.step != 0) return 1;
    return task.step;
}

Heads heads_of(const Relations& relations, std::span<const ClusterBest> best) {
    return Search{relations, best}.run();
}

}  // namespace courthand::plan
