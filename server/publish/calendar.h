// Matches as a calendar (RFC 5545): of a team, a court, an official.
#pragma once

#include <string>
#include <vector>

#include "server/publish/hall_view.h"

namespace courthand::server::publish {

/// The calendar as the event has it now, in UTC. Only matches with a time are in it. Of each match
/// the UID stays as long as the event has the match, and SEQUENCE is the number of the fact that
/// gave it its place: it grows with each move. A match lasts as long as its division plans it, and
/// where that is not told `usual_minutes`.
[[nodiscard]] std::string calendar(const HallView& hall, const std::string& name,
                                   const std::vector<event::MatchRef>& matches);

/// A match of best of three with its warm-up: handbook arithmetic, memory.
inline constexpr std::int32_t usual_minutes = 60;

/// Matches at which this official is a referee or in the crew, in the order in which they are
/// played.
[[nodiscard]] std::vector<event::MatchRef> matches_worked_by(const HallView& hall,
                                                             std::uint16_t person);

}  // namespace courthand::server::publish
