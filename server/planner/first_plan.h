// The first plan: as on paper, in several orders, and mended by the solver where a match found no
// place.
#pragma once

#include <span>

#include "courthand/draw/random.h"
#include "courthand/plan/bound.h"
#include "server/planner/search_steps.h"

namespace courthand::server::planner {

struct FirstPlan {
    plan::Plan plan;  ///< with the fewest matches without a place
    std::size_t unplaced = 0;
    bool impossible = false;  ///< shown: nothing places all
};

[[nodiscard]] FirstPlan first_plan(const plan::Relations& relations, Steps& steps,
                                   draw::Random& random);

/// Plans in the order of the list, and with the longest ways first, with the matches of each
/// cluster in the order of one of its shapes: all shortest, and so on until all wait least.
[[nodiscard]] std::vector<plan::Plan> plans_by_shape(const plan::Relations& relations,
                                                     std::span<const plan::ClusterBest> bests);

[[nodiscard]] std::size_t unplaced_in(const plan::Plan& plan);
/// A board with all matches of a plan but these.
[[nodiscard]] plan::Board board_without(const plan::Relations& relations, const plan::Plan& plan,
                                        const std::vector<plan::MatchIndex>& free);
[[nodiscard]] std::vector<plan::CourtIndex> all_courts(const plan::PlanTask& task);

}  // namespace courthand::server::planner
