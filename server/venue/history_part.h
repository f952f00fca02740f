// The history of a match as bytes, for the time in which the match rests: part of its snapshot.
// Values as they lie in memory, for the very program that wrote them (domain/match_snapshot.h).
#pragma once

#include <string>
#include <string_view>

#include "server/alerts/match_history.h"

namespace courthand::server::venue {

[[nodiscard]] std::string history_part(const alerts::MatchHistory& history);
/// What it tells of the past is complete; it cannot follow the match further without its record.
[[nodiscard]] alerts::MatchHistory history_of_part(std::string_view part);

}  // namespace courthand::server::venue
