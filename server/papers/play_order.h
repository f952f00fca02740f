// Who plays whom, when and where, and who works it: the order of play of the event by its courts,
// and that of a pool. Persons are numbers there: no name of a person stands on a paper.
#pragma once

#include <string>

#include "courthand/event/state.h"
#include "server/papers/paper.h"

namespace courthand::server::papers {

/// Every match that has a court, by court, day and time, then those that have none and wait for
/// one. Nothing where no match has a court.
void draw_order_of_play(Paper& paper, const event::TournamentState& state);

/// The matches of a pool in their order, below `y` of a page that lies across, or from the top of
/// one of its own, `title`, where there is no room for all of them.
void draw_pool_play(Paper& paper, const event::TournamentState& state,
                    event::DivisionIndex division, event::PoolIndex pool, const std::string& title,
                    double y);

}  // namespace courthand::server::papers
