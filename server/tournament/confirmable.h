// Whether the results that a desk confirms are still those of the tables' records.
#pragma once

#include "server/store/match_store.h"
#include "server/tournament/record_keeper.h"

namespace courthand::server::tournament {

/// `conflict` when the table has written its record since the result was read from it. An act that
/// `record` has already is fine whatever was written since, so that it may be sent again; so is a
/// record that `matches` does not have, of which only the record of the tournament can tell. Fails
/// as the stores do.
[[nodiscard]] Status confirmable(const Act& act, TournamentId tournament, RecordKeeper& record,
                                 MatchStore& matches);

}  // namespace courthand::server::tournament
