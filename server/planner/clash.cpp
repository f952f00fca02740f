#include "server/planner/clash.h"

#include <algorithm>

namespace courthand::server::planner {

namespace {

using plan::PlanTask;
using plan::Rule;

enum class Answer : std::uint8_t { possible, impossible, open };

[[nodiscard]] Answer answer(const PlanTask& task, const Budget& each, const std::stop_token& stop) {
    const PlanResult result = find_any_plan(task, each, stop);
    if (std::holds_alternative<Planned>(result)) return Answer::possible;
    return std::holds_alternative<Impossible>(result) ? Answer::impossible : Answer::open;
}

/// The plan that takes least of a rule, as far as the steps can tell; nothing when none was found.
[[nodiscard]] std::optional<plan::Plan> least_loose(const PlanTask& task, const Rule& rule,
                                                    const Budget& each,
                                                    const std::stop_token& stop) {
    const auto plan_of = [&](const PlanTask& loose) -> std::optional<plan::Plan> {
        PlanResult result = find_any_plan(loose, each, stop);
        auto* planned = std::get_if<Planned>(&result);
        return planned != nullptr ? std::optional{std::move(planned->plan)} : std::nullopt;
    };
    auto best = plan_of(plan::without(task, rule));
    if (!best || !plan::loosened(task, rule, 1)) return best;
    const bool counts = rule.kind == Rule::Kind::in_a_row || rule.kind == Rule::Kind::a_day;
    const std::int32_t unit = counts ? 1 : task.step;
    std::int32_t too_little = 0;
    std::int32_t enough = (plan::loosening(task, rule, *best).worst + unit - 1) / unit;
    while (enough - too_little > 1) {
        const std::int32_t middle = (too_little + enough) / 2;
        auto found = plan_of(*plan::loosened(task, rule, middle * unit));
        (found ? enough : too_little) = middle;
        if (found) best = std::move(found);
    }
    return best;
}

}  // namespace

ClashingRules clashing_rules(const PlanTask& task, const Budget& each,
                             const std::stop_token& stop) {
    ClashingRules clash;
    PlanTask loose = task;  // with the rules that are needed, and those not looked at yet
    for (const Rule& rule : plan::rules_of(task)) {
        PlanTask looser = plan::without(loose, rule);
        const Answer without = answer(looser, each, stop);
        if (without == Answer::impossible) {
            loose = std::move(looser);
            continue;
        }
        clash.rules.push_back(rule);
        clash.rough = clash.rough || without == Answer::open;
    }
    for (const Rule& rule : clash.rules)
        if (const auto plan = least_loose(task, rule, each, stop))
            clash.loosenings.push_back(plan::loosening(task, rule, *plan));
    return clash;
}

}  // namespace courthand::server::planner
