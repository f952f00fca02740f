// Planning anew in the middle of a day.
#pragma once

#include "courthand/plan/plan.h"

namespace courthand::plan {

/// What becomes of matches that people were told of and that have not begun.
enum class Keep : std::uint8_t {
    all,   ///< they stay where they were published, unless that time is past
    most,  ///< they may move, and each who must be told costs (`Wish::told`)
    none,  ///< they move as if nobody had been told
};

/// The task as of `now`: nothing that has not begun begins earlier.
[[nodiscard]] PlanTask from_now(const PlanTask& task, Minute now, Keep keep);

}  // namespace courthand::plan
