// The first plan: as on paper, in several orders, and mended by the solver where a match found no
// place.
#pragma once

#include "courthand/draw/random.h"
#include "server/planner/search_steps.h"

namespace courthand::server::planner {

struct FirstPlan {
    plan::Plan plan;  ///< with the fewest matches without a place
    std::size_t unplaced = 0;
    bool impossible = false;  ///< shown: nothing places all
};

[[nodiscard]] FirstPlan first_plan(const plan::Relations& relations, Steps& steps,
                                   draw::Random& random);

[[nodiscard]] std::size_t unplaced_in(const plan::Plan& plan);
/// A board with all matches of a plan but these.
[[nodiscard]] plan::Board board_without(const plan::Relations& relations, const plan::Plan& plan,
                                        const std::vector<plan::MatchIndex>& free);
[[nodiscard]] std::vector<plan::CourtIndex> all_courts(const plan::PlanTask& task);

}  // namespace courthand::server::planner
