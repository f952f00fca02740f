// A plan: which match is on which court, and when it begins.
#pragma once

#include <optional>
#include <vector>

#include "courthand/plan/task.h"

namespace courthand::plan {

struct Plan {
    std::vector<std::optional<Place>> places;  ///< by match of the task; none: it has no place
    friend bool operator==(const Plan&, const Plan&) = default;
};

/// A plan as a person makes it on paper: match by match in the order of the list, each at the
/// earliest time on the first court at which nothing speaks against it; what was placed is not
/// moved again. Pinned matches come first. A match that fits nowhere is left without a place.
[[nodiscard]] Plan in_list_order(const PlanTask& task);
/// The same in another order, which must hold each match once.
[[nodiscard]] Plan in_this_order(const PlanTask& task, const std::vector<MatchIndex>& order);

/// The same in the order of the list, but what was published stays there as far as it fits.
[[nodiscard]] Plan near_published(const PlanTask& task);

/// The parties who were told of a published place that the plan changes; each once, in order.
[[nodiscard]] std::vector<PartyIndex> people_to_tell(const PlanTask& task, const Plan& plan);

}  // namespace courthand::plan
