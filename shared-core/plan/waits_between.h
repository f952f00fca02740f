// What teams wait that come out of earlier matches, all together.
#pragma once

#include <cstdint>

#include "courthand/plan/board.h"
#include "plan/heads.h"

namespace courthand::plan {

/// At least so many minutes, whatever the plan. Each wait is a beginning less an end, on one day;
/// their sum stays the same when ends change places. Put so that the ways through the graph from
/// each end to its beginning are longest, it is no less than these ways: the heaviest assignment.
[[nodiscard]] std::int64_t least_waits_between(const Relations& relations, const Heads& heads);

}  // namespace courthand::plan
