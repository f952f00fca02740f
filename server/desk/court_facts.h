// What must be said so that the tournament's record has a court. Pure.
#pragma once

#include <vector>

#include "courthand/event/state.h"
#include "server/desk/team.h"

namespace courthand::server::desk {

/// Opens or renames the court; nothing when it is so. An empty name leaves the one it has.
[[nodiscard]] std::vector<event::Said> court_facts(const event::TournamentState& state,
                                                   const Court& court);

}  // namespace courthand::server::desk
