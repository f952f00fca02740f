// All teams, and the day of each.
#pragma once

#include <vector>

#include "server/publish/hall_view.h"
#include "server/publish/page.h"

namespace courthand::server::publish {

[[nodiscard]] Page teams_page(const HallView& hall);
/// One for each team: its matches and work, and the court it is on now.
[[nodiscard]] std::vector<Page> team_pages(const HallView& hall);

/// Matches that the team plays, as far as its sides are settled, and matches that it works; in the
/// order in which they are played.
[[nodiscard]] std::vector<event::MatchRef> matches_of(const HallView& hall, event::TeamIndex team);
[[nodiscard]] std::vector<event::MatchRef> work_of(const HallView& hall, event::TeamIndex team);

}  // namespace courthand::server::publish
