// When each match can begin at the soonest, and what must come after it, whatever the plan.
#pragma once

#include <optional>
#include <vector>

#include "courthand/plan/board.h"
#include "courthand/plan/bound.h"

namespace courthand::plan {

struct Heads {
    std::vector<Minute> head;  ///< by match: not sooner
    std::vector<Minute> tail;  ///< by match: minutes from its end to that of the last that waits
    /// By match: the one day that it can be on, where there is only one.
    std::vector<std::optional<DayIndex>> day;
};

[[nodiscard]] Heads heads_of(const Relations& relations, std::span<const ClusterBest> best);

/// The step on which every beginning of every plan lies: 1 where something was pinned or published
/// beside it.
[[nodiscard]] Minute grid_of(const PlanTask& task);

/// From a start on the grid to the next after a match of this length and a gap.
[[nodiscard]] constexpr Minute stride(Minute step, Minute duration, Minute gap) noexcept {
    return (duration + gap + step - 1) / step * step;
}

}  // namespace courthand::plan
