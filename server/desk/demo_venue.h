// The Harbour Cup: an invented tournament of eight invented clubs on four courts, for trying out.
#pragma once

#include <vector>

#include "server/desk/team.h"
#include "server/store/match_store.h"
#include "server/tournament/record_keeper.h"

namespace courthand::server::desk {

/// Name of the tournament.
inline constexpr const char* demo_name = "Harbour Cup";
inline constexpr std::uint32_t demo_courts = 4;

/// The eight teams with their lists, without ids.
[[nodiscard]] std::vector<Team> demo_teams();

/// Fills the tournament with courts, teams and one match on each court. Called again, also by two
/// servers at once, it changes nothing.
[[nodiscard]] Status fill_demo_venue(tournament::RecordKeeper& record, MatchStore& matches,
                                     TournamentId tournament);

}  // namespace courthand::server::desk
