// Reading one's own writes: who has just pushed or planned must find it in the fold.
#pragma once

#include "server/domain/match_keeper.h"
#include "server/store/match_store.h"

namespace courthand::server::service {

/// Waits until the fold has reached what is stored now, a second at most. When the database is
/// away the fold is the best there is. May wait for the database.
void catch_up_with(MatchStore& store, TournamentId tournament, const MatchKeeper& keeper);

}  // namespace courthand::server::service
