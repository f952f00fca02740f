#include <algorithm>
#include <map>

#include "courthand/plan/board.h"
#include "courthand/plan/bound.h"
#include "plan/heads.h"

namespace courthand::plan {

namespace {

/// More orders than this are not gone through: those of a pool of five with its ten matches mostly
/// end early, those of larger ones do not.
constexpr std::uint64_t most_steps = 100'000;
constexpr std::size_t largest = 12;

/// Goes through the orders of matches that can only follow each other.
class Orders {
  public:
    Orders(const Relations& relations, const Cluster& cluster)
        : relations_{relations},
          task_{relations.task},
          grid_{grid_of(task_)},
          matches_{cluster.matches} {
        apart_.resize(matches_.size() * matches_.size());
        for (std::size_t i = 0; i < matches_.size(); ++i)
            for (std::size_t j = 0; j < matches_.size(); ++j) apart_[at(i, j)] = apart(i, j);
        add_teams();
    }

    [[nodiscard]] bool each_pair_meets() const {
        for (std::size_t i = 0; i < matches_.size(); ++i)
            for (std::size_t j = 0; j < matches_.size(); ++j)
                if (i != j && apart_[at(i, j)] == 0) return false;
        return true;
    }

    /// Nothing when there were too many.
    [[nodiscard]] std::optional<ClusterBest> best(const Cluster& cluster) {
        used_.assign(matches_.size(), false);
        go();
        if (steps_ > most_steps) return std::nullopt;
        std::sort(shapes_.begin(), shapes_.end(),
                  [](const Shape& a, const Shape& b) { return a.length < b.length; });
        return ClusterBest{cluster, std::move(shapes_)};
    }

  private:
    struct TeamOf {
        std::vector<bool> has;  ///< by match of the cluster
        std::size_t count = 0;
        Minute busy = 0;
    };

    [[nodiscard]] std::size_t at(std::size_t i, std::size_t j) const {
        return i * matches_.size() + j;
    }

    /// From the beginning of one to that of the next, where they share a team; else 0.
    [[nodiscard]] Minute apart(std::size_t i, std::size_t j) const {
        const Minute duration = task_.matches[matches_[i]].duration;
        Minute least = 0;
        for (const auto& one : relations_.of_match[matches_[i]])
            for (const auto& two : relations_.of_match[matches_[j]]) {
                if (one.party != two.party) continue;
                const bool rests = one.part == Part::plays && two.part == Part::plays;
                const Minute gap = rests ? relations_.rest_of(matches_[j]) : 0;
                least = std::max(least, stride(grid_, duration, gap));
            }
        return least;
    }

    void add_teams() {
        std::map<PartyIndex, TeamOf> teams;
        for (std::size_t i = 0; i < matches_.size(); ++i)
            for (const auto& who : relations_.of_match[matches_[i]]) {
                if (task_.parties[who.party].kind != Party::Kind::team) continue;
                TeamOf& team = teams[who.party];
                team.has.resize(matches_.size(), false);
                team.has[i] = true;
                ++team.count;
                team.busy += task_.matches[matches_[i]].duration;
            }
        for (auto& [party, team] : teams) teams_.push_back(std::move(team));
    }

    /// The least time from the beginning of the match at place `from` of the order to that of the
    /// last.
    [[nodiscard]] Minute least_time(std::size_t from) {
        times_.assign(order_.size(), 0);
        for (std::size_t j = from + 1; j < order_.size(); ++j)
            for (std::size_t i = from; i < j; ++i)
                times_[j] = std::max(times_[j], times_[i] + apart_[at(order_[i], order_[j])]);
        return times_.back();
    }

    /// What the team waits at least when it is in the hall from the match at place `from` to the
    /// last.
    [[nodiscard]] std::int64_t cost_of(const TeamOf& team, std::size_t from) {
        const Minute last = task_.matches[matches_[order_.back()]].duration;
        const std::int64_t waits = std::max(0, least_time(from) + last - team.busy);
        return task_.weights[Wish::waiting] * waits +
               task_.weights[Wish::spread] * std::max<std::int64_t>(0, waits - task_.fair_wait);
    }

    /// What the last match of the order adds: teams whose last it is wait no more.
    [[nodiscard]] std::int64_t added() {
        std::int64_t sum = 0;
        for (const TeamOf& team : teams_) {
            if (!team.has[order_.back()]) continue;
            const auto is_theirs = [&](std::size_t match) { return team.has[match]; };
            const auto seen = std::count_if(order_.begin(), order_.end(), is_theirs);
            if (static_cast<std::size_t>(seen) < team.count) continue;
            const auto first = std::find_if(order_.begin(), order_.end(), is_theirs);
            sum += cost_of(team, static_cast<std::size_t>(first - order_.begin()));
        }
        return sum;
    }

    /// Whether a shape is there that is no longer and waits no more.
    [[nodiscard]] bool beaten(Minute length, std::int64_t waiting) const {
        return std::any_of(shapes_.begin(), shapes_.end(), [&](const Shape& shape) {
            return shape.length <= length && shape.waiting <= waiting;
        });
    }

    void keep(Minute length) {
        std::erase_if(shapes_, [&](const Shape& shape) {
            return length <= shape.length && waiting_ <= shape.waiting;
        });
        Shape shape{length, waiting_, {}};
        for (const std::size_t match : order_) shape.order.push_back(matches_[match]);
        shapes_.push_back(std::move(shape));
    }

    void go() {
        if (++steps_ > most_steps) return;
        if (!order_.empty()) {
            const Minute last = task_.matches[matches_[order_.back()]].duration;
            const Minute length = least_time(0) + last;
            if (beaten(length, waiting_)) return;
            if (order_.size() == matches_.size()) return keep(length);
        }
        for (std::size_t i = 0; i < matches_.size(); ++i) {
            if (used_[i]) continue;
            order_.push_back(i);
            used_[i] = true;
            const std::int64_t before = waiting_;
            waiting_ += added();
            go();
            waiting_ = before;
            used_[i] = false;
            order_.pop_back();
        }
    }

    const Relations& relations_;
    const PlanTask& task_;
    Minute grid_;
    const std::vector<MatchIndex>& matches_;
    std::vector<Minute> apart_;
    std::vector<TeamOf> teams_;
    std::vector<std::size_t> order_;
    std::vector<bool> used_;
    std::vector<Minute> times_;
    std::int64_t waiting_ = 0;  ///< of the teams that are through
    std::vector<Shape> shapes_;
    std::uint64_t steps_ = 0;
};

}  // namespace

std::vector<ClusterBest> cluster_bests(const PlanTask& task) {
    const Relations relations{task};
    std::vector<ClusterBest> bests;
    for (const Cluster& cluster : clusters_of(task)) {
        if (cluster.matches.size() > largest) continue;
        Orders orders{relations, cluster};
        if (!orders.each_pair_meets()) continue;
        if (auto best = orders.best(cluster)) bests.push_back(std::move(*best));
    }
    return bests;
}

}  // namespace courthand::plan
