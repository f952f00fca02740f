// From the messages of the Venue service to the values of the board.
#pragma once

#include <string>

#include "courthand/v1/venue.pb.h"
#include "venue/board.h"
#include "venue/fork.h"

namespace courthand::venue {

/// Text form of an id of the wire; empty for none and for what is no id.
[[nodiscard]] Id id_of_bytes(const std::string& bytes);
/// The bytes an id travels in; empty for none.
[[nodiscard]] std::string bytes_of_id(const Id& id);
[[nodiscard]] Moment moment_of_us(std::int64_t us);

[[nodiscard]] CourtOnBoard court_of(const v1::CourtCard& card);
[[nodiscard]] Alert alert_of(const v1::Alert& alert);

[[nodiscard]] Fork fork_of(const v1::ShowForkResponse& answer);

/// Takes a snapshot or a change into the board. Alerts that have ended are left out.
void apply(const v1::WatchBoardResponse& news, Board& board);
/// One alert as an answer to an act brought it.
void apply(const v1::Alert& alert, Board& board);

}  // namespace courthand::venue
