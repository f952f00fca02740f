// Plans of two halls, ours beside the order of the list as a person makes it on paper. Steps are
// counted, not time: the plans are the same on each machine, the seconds are not.
#include <benchmark/benchmark.h>

#include <chrono>

#include "server/planner/planner.h"
#include "tests/testkit/plan_tasks.h"

namespace courthand::server::planner {
namespace {

/// 24 teams on 6 courts in a day: pools of four, then brackets for the places 1 to 12 and 13 to 24.
[[nodiscard]] plan::PlanTask hall_of_24() {
    testkit::Hall hall;
    hall.pools = 6;
    hall.courts = 6;
    hall.brackets = true;
    hall.duration = 45;
    return testkit::plan_task(hall);
}

/// 64 teams on 16 courts over two days: the pools first, the brackets the next day.
[[nodiscard]] plan::PlanTask hall_of_64() {
    testkit::Hall hall;
    hall.pools = 16;
    hall.courts = 16;
    hall.days = 2;
    hall.brackets = true;
    return testkit::plan_task(hall);
}

void tell(benchmark::State& state, const plan::Report& report, const plan::LowerBound& bound) {
    const auto waits = static_cast<double>(report.of(plan::Wish::waiting));
    state.counters["waiting_share"] = waits / (waits + static_cast<double>(report.busy));
    state.counters["end_minutes"] = static_cast<double>(report.of(plan::Wish::end));
    state.counters["worst_rest"] = report.worst_rest;
    state.counters["moved_courts"] = static_cast<double>(report.of(plan::Wish::courts));
    state.counters["cost"] = static_cast<double>(report.total);
    state.counters["waiting"] = waits + static_cast<double>(report.of(plan::Wish::spread));
    state.counters["bound_waiting"] = static_cast<double>(bound.waiting);
    state.counters["bound_end"] = static_cast<double>(bound.end);
    state.counters["bound"] = static_cast<double>(bound.total());
    state.counters["gap"] = plan::gap_of(report.total, bound.total());
    state.counters["unplaced"] = static_cast<double>(report.violations.size());
}

/// The bound of the planner, so that both are measured by the same.
void paper(benchmark::State& state, const plan::PlanTask& task) {
    plan::Plan plan;
    for (auto _ : state) benchmark::DoNotOptimize(plan = plan::in_list_order(task));
    const PlanResult ours = make_plan(task, {2'000, 1});
    if (const auto* planned = std::get_if<Planned>(&ours))
        tell(state, plan::check(task, plan), planned->bound);
}

void ours(benchmark::State& state, const plan::PlanTask& task, const Budget& budget) {
    using Clock = std::chrono::steady_clock;
    for (auto _ : state) {
        const auto began = Clock::now();
        const auto since = [&] {
            return std::chrono::duration<double>(Clock::now() - began).count();
        };
        double first = 0;
        double within_five = 0;
        double within_two = 0;
        const PlanResult result = make_plan(task, budget, [&](const Progress& now) {
            const double gap = plan::gap_of(now.cost, now.bound);
            if (first == 0) first = since();
            if (within_five == 0 && gap <= .05) within_five = since();
            if (within_two == 0 && gap <= .02) within_two = since();
        });
        const auto* planned = std::get_if<Planned>(&result);
        if (planned == nullptr) return state.SkipWithError("no plan was found");
        tell(state, planned->report, planned->bound);
        state.counters["first_s"] = first;
        state.counters["five_s"] = within_five;
        state.counters["two_s"] = within_two;
        state.counters["nodes"] = static_cast<double>(planned->nodes);
    }
}

BENCHMARK_CAPTURE(paper, 24, hall_of_24())->Name("plan/paper/24")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(ours, 24, hall_of_24(), Budget{100'000, 1, .02})
    ->Name("plan/ours/24")
    ->Unit(benchmark::kSecond)
    ->Iterations(1);
BENCHMARK_CAPTURE(paper, 64, hall_of_64())->Name("plan/paper/64")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(ours, 64, hall_of_64(), Budget{400'000, 1, .02})
    ->Name("plan/ours/64")
    ->Unit(benchmark::kSecond)
    ->Iterations(1);

}  // namespace
}  // namespace courthand::server::planner

BENCHMARK_MAIN();
