// Lists on paper: the order of every pool with its sums, the final places, and the results.
#pragma once

#include "courthand/event/state.h"
#include "server/papers/paper.h"

namespace courthand::server::papers {

/// Every pool of the division in short, then the final places.
void draw_standings(Paper& paper, const event::TournamentState& state,
                    event::DivisionIndex division);

/// Every match of the division, in the order of the graph.
void draw_results(Paper& paper, const event::TournamentState& state, event::DivisionIndex division);

}  // namespace courthand::server::papers
