// A match as the desk planned it, as it stands in an event file, and back. Pure.
#pragma once

#include "courthand/v1/match.pb.h"
#include "server/store/match_store.h"

namespace courthand::server::exports {

[[nodiscard]] v1::Match planned(const MatchPlan& plan);

/// `invalid` with the reason when it cannot be kept as a match of this tournament.
[[nodiscard]] Result<MatchPlan> plan_of(const v1::Match& match, TournamentId tournament);

}  // namespace courthand::server::exports
