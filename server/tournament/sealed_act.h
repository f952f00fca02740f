// An act of the desk as the entries that come into the record: sealed one behind the other.
#pragma once

#include <vector>

#include "server/tournament/record_keeper.h"
#include "wire/read_entry.h"

namespace courthand::server::tournament {

/// The facts of the act behind `head`, each with its hash and the words beside it. `invalid` with
/// the reason when one of them breaks a bound of the wire.
[[nodiscard]] Result<std::vector<KeptFact>> seal(TournamentId tournament, const FactHead& head,
                                                 const Act& act);

/// The end of a record as the chain begins or goes on with it.
[[nodiscard]] wire::Head wire_head(TournamentId tournament, const FactHead& head);

}  // namespace courthand::server::tournament
