// Whether the results that a desk confirms are still those of the tables' records.
#pragma once

#include "server/store/match_store.h"
#include "server/tournament/record_keeper.h"

namespace courthand::server::tournament {

/// `conflict` when the table has written its record since the result was read from it. An act that
/// `record` has already is fine whatever was written since, so that it may be sent again; so is a
/// record that `matches` does not have, of which only the record of the tournament can tell. Fails
/// as the stores do.
/// A look beforehand, so that a preview says it too; what is written between this and the act the
/// store finds (`FactStore::append`).
[[nodiscard]] Status confirmable(const Act& act, TournamentId tournament, RecordKeeper& record,
                                 MatchStore& matches);

/// The ends of tables' records on which the results of the act rest.
[[nodiscard]] std::vector<RecordEnd> ends_under(const Act& act);
/// `conflict`: the table of this match has written since.
[[nodiscard]] Status written_since(const Act& act, MatchId match);

}  // namespace courthand::server::tournament
