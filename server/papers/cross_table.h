// A pool on paper: who met whom with every set, the sums, and the order with its reasons.
#pragma once

#include "courthand/event/state.h"
#include "server/papers/paper.h"

namespace courthand::server::papers {

/// On as many pages as the pool needs: a table of more teams than a page holds goes on behind.
void draw_cross_table(Paper& paper, const event::TournamentState& state,
                      event::DivisionIndex division, event::PoolIndex pool);

}  // namespace courthand::server::papers
