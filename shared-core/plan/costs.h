// What a plan costs beside what it breaks.
#pragma once

#include "courthand/plan/board.h"
#include "courthand/plan/checker.h"

namespace courthand::plan {

/// Fills costs, busy minutes, worst rest and total.
void add_costs(const Relations& relations, const Plan& plan, Report& report);

}  // namespace courthand::plan
