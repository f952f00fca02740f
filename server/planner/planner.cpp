#include "server/planner/planner.h"

#include <algorithm>
#include <cassert>

#include "server/planner/first_plan.h"
#include "server/planner/neighbourhood.h"

namespace courthand::server::planner {

namespace {

using plan::MatchIndex;
using plan::Plan;

/// Tasks with so few matches to place are tried out as a whole.
constexpr std::size_t small_task = 9;
/// Matches that are freed together; more when nothing is found for long.
constexpr std::size_t fewest_free = 5;
constexpr std::size_t most_free = 20;
/// Matches that are freed to be tried at every time.
constexpr std::size_t most_at_all_times = 4;
/// Nodes of one neighbourhood, for each of its matches.
constexpr std::uint64_t nodes_each = 60;

class Improving {
  public:
    Improving(const plan::Relations& relations, Steps& steps, draw::Random& random, Plan first,
              const Budget& budget, const Watch& watch)
        : relations_{relations},
          task_{relations.task},
          steps_{steps},
          random_{random},
          budget_{budget},
          watch_{watch},
          near_{relations} {
        best_.plan = std::move(first);
        best_.report = plan::check(task_, best_.plan);
        assert(best_.report.fine());
    }

    [[nodiscard]] Planned run() {
        const auto bests = plan::cluster_bests(task_);
        best_.bound = plan::lower_bound(task_, bests);
        for (Plan& plan : plans_by_shape(relations_, bests)) take(std::move(plan));
        tell();
        if (!good()) {
            try_whole();
        }
        while (!good() && !steps_.over()) {
            step();
        }
        best_.best = best_.best || best_.report.total <= best_.bound.total();
        best_.nodes = steps_.done();
        return std::move(best_);
    }

  private:
    [[nodiscard]] bool good() const { return best_.best || best_.gap() <= budget_.good_enough; }
    void tell() const {
        if (watch_)
            watch_(
                {steps_.done(), steps_.of(), best_.report.total, best_.bound.total(), best_.plan});
    }

    void try_whole() {
        ModelChoice choice;
        for (std::size_t m = 0; m < task_.matches.size(); ++m)
            if (!task_.matches[m].pinned) choice.free.push_back(static_cast<MatchIndex>(m));
        if (choice.free.size() > small_task || choice.free.empty()) return;
        best_.best = improve(choice, steps_.left() / 2, Trying::Way::all);
    }

    /// Many matches pushed to the beginning or the end of the day, or few at all times they can
    /// have.
    void step() {
        using Way = Trying::Way;
        constexpr Way ways[] = {Way::to_beginning, Way::to_beginning, Way::to_end, Way::all};
        const Way way = ways[random_.below(std::size(ways))];
        const std::size_t size = way == Way::all ? 1 + random_.below(most_at_all_times)
                                                 : std::min(most_free, fewest_free + failed_ / 40);
        ModelChoice choice{near_.choose(best_.plan, size, random_)};
        if (choice.free.empty()) return steps_.take(steps_.left());
        if (way == Way::to_end) choice.until = ends();
        const std::int64_t before = best_.report.total;
        improve(choice, nodes_each * choice.free.size(), way);
        failed_ = best_.report.total < before ? failed_ / 2 : failed_ + 1;
    }

    [[nodiscard]] std::vector<plan::Minute> ends() const {
        std::vector<plan::Minute> ends(relations_.days.size(), 0);
        for (std::size_t m = 0; m < task_.matches.size(); ++m) {
            const plan::Minute start = best_.plan.places[m]->start;
            const auto day = relations_.day_of(start);
            if (day < ends.size())
                ends[day] = std::max(ends[day], start + task_.matches[m].duration);
        }
        return ends;
    }

    /// Whether all ways to place these were tried.
    bool improve(const ModelChoice& choice, std::uint64_t nodes, Trying::Way way) {
        Trying trying{all_courts(task_), way, random_.next()};
        draw::shuffle(trying.courts, random_);
        const plan::Board board = board_without(relations_, best_.plan, choice.free);
        PlaceModel model{relations_, board, choice, trying};
        // The plan as it is fits it, so nothing is proven by this.
        if (model.status() == Gecode::SS_FAILED) return steps_.take(1), false;
        model.cost_below(cost_now(model, choice));
        const Found found = search(model, choice, steps_, nodes);
        if (!found.places.empty()) take(choice, found);
        return found.complete && model.knows_all_costs();
    }

    /// What the model says of the plan as it is, so that only better ones are looked for.
    [[nodiscard]] int cost_now(PlaceModel& model, const ModelChoice& choice) const {
        const std::unique_ptr<PlaceModel> same{static_cast<PlaceModel*>(model.clone())};
        for (std::size_t i = 0; i < choice.free.size(); ++i)
            same->fix(i, *best_.plan.places[choice.free[i]]);
        return same->status() == Gecode::SS_FAILED ? Gecode::Int::Limits::max : same->least_cost();
    }

    void take(const ModelChoice& choice, const Found& found) {
        Plan plan = best_.plan;
        for (std::size_t i = 0; i < choice.free.size(); ++i)
            plan.places[choice.free[i]] = found.places[i];
        take(std::move(plan));
    }

    /// The checker of the core has the last word.
    void take(Plan plan) {
        plan::Report report = plan::check(task_, plan);
        if (!report.fine() || report.total >= best_.report.total) return;
        best_.plan = std::move(plan);
        best_.report = std::move(report);
        tell();
    }

    const plan::Relations& relations_;
    const plan::PlanTask& task_;
    Steps& steps_;
    draw::Random& random_;
    const Budget& budget_;
    const Watch& watch_;
    Neighbourhood near_;
    Planned best_;
    std::size_t failed_ = 0;
};

[[nodiscard]] PlanResult plan_task(const plan::PlanTask& task, const Budget& budget,
                                   const Watch& watch, const std::stop_token& stop, bool any) {
    if (auto faults = plan::faults_of(task); !faults.empty()) return faults;
    const plan::Relations relations{task};
    Steps steps{std::min(budget.nodes, Budget::most_nodes), stop};
    draw::Random random{budget.seed};
    FirstPlan first = first_plan(relations, steps, random);
    if (first.impossible) return Impossible{steps.done()};
    if (first.unplaced > 0) return NotFound{std::move(first.plan), steps.done()};
    // What is pinned was not placed by the planner, and may break what it likes.
    plan::Report report = plan::check(task, first.plan);
    if (!report.fine()) return Impossible{steps.done()};
    if (any) return Planned{std::move(first.plan), std::move(report), {}, false, steps.done()};
    return Improving{relations, steps, random, std::move(first.plan), budget, watch}.run();
}

}  // namespace

PlanResult make_plan(const plan::PlanTask& task, const Budget& budget, const Watch& watch,
                     const std::stop_token& stop) {
    return plan_task(task, budget, watch, stop, false);
}

PlanResult find_any_plan(const plan::PlanTask& task, const Budget& budget,
                         const std::stop_token& stop) {
    return plan_task(task, budget, {}, stop, true);
}

}  // namespace courthand::server::planner
