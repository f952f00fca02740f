// An act of the desk as the entries that come into the record: sealed one behind the other.
#pragma once

#include <vector>

#include "server/tournament/record_keeper.h"

namespace courthand::server::tournament {

/// The facts of the act behind `head`, each with its hash and the words beside it. `invalid` with
/// the reason when one of them breaks a bound of the wire.
[[nodiscard]] Result<std::vector<KeptFact>> seal(TournamentId tournament, const FactHead& head,
                                                 const Act& act);

}  // namespace courthand::server::tournament
