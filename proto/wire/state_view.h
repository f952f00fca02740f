// What a folded state looks like on a court card. No rule is applied here: everything is read off.
#pragma once

#include "courthand/match/state.h"
#include "courthand/rules/reason.h"
#include "courthand/v1/venue.pb.h"

namespace courthand::wire {

/// Fills set, score, serving, stage, both teams' sets, six, liberos, designations and counts, the
/// winner and the state hash. Names, colours, court, match, alerts and device fields are left
/// alone.
void show(const MatchState& state, v1::CourtCard& card);

[[nodiscard]] v1::Stage to_proto(Stage stage) noexcept;
[[nodiscard]] v1::Severity to_proto(Severity severity) noexcept;
/// English words for text boards, e.g. "dead ball".
[[nodiscard]] std::string_view words(Stage stage) noexcept;

}  // namespace courthand::wire
