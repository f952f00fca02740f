#include "server/planner/first_plan.h"

#include <algorithm>
#include <numeric>

#include "courthand/plan/checker.h"
#include "server/planner/neighbourhood.h"

namespace courthand::server::planner {

namespace {

using plan::MatchIndex;
using plan::Plan;

/// Orders that are tried on paper: that of the list, then others by chance.
constexpr int orders_tried = 8;
/// Nodes of one attempt to place a match among others.
constexpr std::uint64_t nodes_to_mend = 1'500;
/// Times that mending is tried before all is looked at together.
constexpr int mends_tried = 60;
/// Larger tasks are not searched as a whole.
constexpr std::size_t most_at_once = 240;

/// Each match behind what it waits for, the longest ways to the end first; by so many minutes, less
/// one, chance makes ways longer.
[[nodiscard]] std::vector<MatchIndex> by_longest_way(const plan::Relations& relations,
                                                     draw::Random& random, std::uint64_t chance) {
    const auto& matches = relations.task.matches;
    std::vector<MatchIndex> order = plan::in_order(relations.task);
    std::vector<std::int64_t> way(matches.size(), 0);
    for (auto at = order.rbegin(); at != order.rend(); ++at) {
        for (const auto& wait : relations.after[*at])
            way[*at] = std::max(way[*at], way[wait.match] + wait.gap);
        way[*at] += matches[*at].duration;
    }
    for (auto& each : way) each += static_cast<std::int64_t>(random.below(chance));
    std::stable_sort(order.begin(), order.end(),
                     [&](MatchIndex a, MatchIndex b) { return way[a] > way[b]; });
    std::vector<bool> there(matches.size(), false);
    std::vector<MatchIndex> sorted;
    while (sorted.size() < order.size())
        for (const MatchIndex match : order) {
            const auto& before = relations.before[match];
            if (there[match] || std::any_of(before.begin(), before.end(),
                                            [&](const auto& wait) { return !there[wait.match]; }))
                continue;
            there[match] = true;
            sorted.push_back(match);
        }
    return sorted;
}

class Mending {
  public:
    Mending(const plan::Relations& relations, Steps& steps, draw::Random& random, FirstPlan first)
        : relations_{relations},
          steps_{steps},
          random_{random},
          near_{relations},
          first_{std::move(first)} {}

    [[nodiscard]] FirstPlan run() {
        for (int tries = 0; first_.unplaced > 0 && tries < mends_tried && !steps_.over(); ++tries)
            mend_one(4 + static_cast<std::size_t>(tries) / 3);
        if (first_.unplaced > 0 && !steps_.over()) search_all();
        return std::move(first_);
    }

  private:
    void mend_one(std::size_t size) {
        std::vector<MatchIndex> without;
        for (std::size_t m = 0; m < first_.plan.places.size(); ++m)
            if (!first_.plan.places[m]) without.push_back(static_cast<MatchIndex>(m));
        const MatchIndex must = without[random_.below(without.size())];
        ModelChoice choice{near_.choose(first_.plan, size, random_, &must), false};
        std::erase_if(choice.free, [&](MatchIndex match) {
            return match != must && !first_.plan.places[match];
        });
        take(choice, nodes_to_mend);
    }

    /// All that is not pinned, together: finds a plan or shows that there is none.
    void search_all() {
        ModelChoice choice{{}, false};
        for (std::size_t m = 0; m < relations_.task.matches.size(); ++m)
            if (!relations_.task.matches[m].pinned)
                choice.free.push_back(static_cast<MatchIndex>(m));
        if (choice.free.size() <= most_at_once) first_.impossible = take(choice, steps_.left() / 2);
    }

    /// Whether it was shown that these cannot be placed so.
    bool take(const ModelChoice& choice, std::uint64_t nodes) {
        const plan::Board board = board_without(relations_, first_.plan, choice.free);
        const Trying trying{all_courts(relations_.task), Trying::Way::all, random_.next()};
        PlaceModel model{relations_, board, choice, trying};
        const Found found = search(model, choice, steps_, nodes, true);
        if (found.places.empty()) return found.complete;
        for (std::size_t i = 0; i < choice.free.size(); ++i)
            first_.plan.places[choice.free[i]] = found.places[i];
        first_.unplaced = unplaced_in(first_.plan);
        return false;
    }

    const plan::Relations& relations_;
    Steps& steps_;
    draw::Random& random_;
    Neighbourhood near_;
    FirstPlan first_;
};

}  // namespace

std::vector<Plan> plans_by_shape(const plan::Relations& relations,
                                 std::span<const plan::ClusterBest> bests) {
    std::size_t most = 0;
    for (const plan::ClusterBest& best : bests) most = std::max(most, best.shapes.size());
    draw::Random none{0};
    std::vector<Plan> plans;
    for (const auto& list : {plan::in_order(relations.task), by_longest_way(relations, none, 1)})
        for (std::size_t k = 0; k < most; ++k) {
            std::vector<MatchIndex> order = list;
            for (const plan::ClusterBest& best : bests) {
                const auto& of = best.cluster.matches;
                auto next = best.shapes[std::min(k, best.shapes.size() - 1)].order.begin();
                for (MatchIndex& match : order)
                    if (std::binary_search(of.begin(), of.end(), match)) match = *next++;
            }
            plans.push_back(plan::in_this_order(relations.task, order));
        }
    return plans;
}

std::size_t unplaced_in(const Plan& plan) {
    return static_cast<std::size_t>(
        std::count(plan.places.begin(), plan.places.end(), std::nullopt));
}

std::vector<plan::CourtIndex> all_courts(const plan::PlanTask& task) {
    std::vector<plan::CourtIndex> courts(task.courts.size());
    std::iota(courts.begin(), courts.end(), plan::CourtIndex{0});
    return courts;
}

plan::Board board_without(const plan::Relations& relations, const Plan& plan,
                          const std::vector<MatchIndex>& free) {
    plan::Board board{relations};
    for (std::size_t m = 0; m < plan.places.size(); ++m)
        if (plan.places[m] &&
            !std::binary_search(free.begin(), free.end(), static_cast<MatchIndex>(m)))
            board.place(static_cast<MatchIndex>(m), *plan.places[m]);
    return board;
}

FirstPlan first_plan(const plan::Relations& relations, Steps& steps, draw::Random& random) {
    const plan::PlanTask& task = relations.task;
    FirstPlan first{plan::in_list_order(task)};
    first.unplaced = unplaced_in(first.plan);
    std::int64_t least = plan::check(task, first.plan).total;
    const auto offer = [&](Plan plan) {
        const std::size_t unplaced = unplaced_in(plan);
        const std::int64_t cost = plan::check(task, plan).total;
        if (std::pair{unplaced, cost} >= std::pair{first.unplaced, least}) return;
        first.plan = std::move(plan);
        first.unplaced = unplaced;
        least = cost;
    };
    offer(plan::near_published(task));
    for (int tries = 0; tries < orders_tried; ++tries)
        offer(plan::in_this_order(task, by_longest_way(relations, random, tries == 0 ? 1 : 60)));
    if (first.unplaced == 0) return first;
    return Mending{relations, steps, random, std::move(first)}.run();
}

}  // namespace courthand::server::planner
