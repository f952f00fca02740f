// The brackets of a division on paper: trees from the first round on the left to their last match
// on the right. What does not fit a page is drawn part by part, and a page that joins the parts.
#pragma once

#include "courthand/event/state.h"
#include "server/papers/paper.h"

namespace courthand::server::papers {

void draw_brackets(Paper& paper, const event::TournamentState& state,
                   event::DivisionIndex division);

}  // namespace courthand::server::papers
