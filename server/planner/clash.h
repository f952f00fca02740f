// Why there is no plan: a smallest set of rules that cannot be kept together.
#pragma once

#include <vector>

#include "courthand/plan/rule.h"
#include "server/planner/planner.h"

namespace courthand::server::planner {

struct ClashingRules {
    /// Together they leave no plan; any one of them let go, the others leave one, unless `rough`.
    std::vector<plan::Rule> rules;
    /// A rule is among them only because the steps did not suffice to decide about it.
    bool rough = false;
    /// What a plan takes of each of them when the others are kept, the least worst that was found
    /// within the steps; of those for which a plan was found.
    std::vector<plan::Loosening> loosenings;
};

/// Of a task that is impossible. Leaves out rule by rule and keeps out what is not needed; each
/// attempt may take `each.nodes`. Without rules: even what nobody can let go leaves no plan.
[[nodiscard]] ClashingRules clashing_rules(const plan::PlanTask& task, const Budget& each,
                                           const std::stop_token& stop = {});

}  // namespace courthand::server::planner
