// Plans a task: the first plan as on paper, then ever better ones, each in a neighbourhood of the
// last.
//
// The solver frees a few matches and leaves the others where they are; what it finds counts only
// when the checker of the core has passed it. Work is counted in nodes of the search, so that the
// same task, seed and budget give the same plan on a fast machine and on a slow one.
#pragma once

#include <cstdint>
#include <functional>
#include <stop_token>
#include <variant>

#include "courthand/plan/bound.h"
#include "courthand/plan/checker.h"

namespace courthand::server::planner {

struct Budget {
    std::uint64_t nodes = 400'000;  ///< of all searches together
    std::uint64_t seed = 1;
    double good_enough = 0;  ///< ends when the gap to the bound is not above
    static constexpr std::uint64_t most_nodes = 100'000'000;  ///< hours of work
};

/// How far it is. The plan lives as long as the call.
struct Progress {
    std::uint64_t nodes = 0;
    std::uint64_t of = 0;
    std::int64_t cost = 0;
    std::int64_t bound = 0;
    const plan::Plan& plan;
};
/// Called with the first plan and with each better one, on the thread of the planner.
using Watch = std::function<void(const Progress&)>;

struct Planned {
    plan::Plan plan;
    plan::Report report;
    plan::LowerBound bound;
    bool best = false;  ///< nothing can cost less: the bound is reached, or all was tried
    std::uint64_t nodes = 0;
    [[nodiscard]] double gap() const {
        return best ? 0 : plan::gap_of(report.total, bound.total());
    }
};

/// There is no plan that keeps all limits.
struct Impossible {
    std::uint64_t nodes = 0;
};

/// Neither found nor shown to be impossible within the budget.
struct NotFound {
    plan::Plan most;  ///< the plan with the fewest matches without a place
    std::uint64_t nodes = 0;
};

using PlanResult = std::variant<Planned, Impossible, NotFound, plan::Faults>;

/// Asked to stop it gives the best so far.
[[nodiscard]] PlanResult make_plan(const plan::PlanTask& task, const Budget& budget,
                                   const Watch& watch = {}, const std::stop_token& stop = {});

/// Any plan that keeps all limits, or that there is none; the same without regard for costs.
[[nodiscard]] PlanResult find_any_plan(const plan::PlanTask& task, const Budget& budget,
                                       const std::stop_token& stop = {});

}  // namespace courthand::server::planner
