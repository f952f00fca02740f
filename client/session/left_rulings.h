// Rulings of the head official on matches that are not on the screen of their table any more.
#pragma once

#include <string>
#include <string_view>

#include "client/session/journaled_match.h"

namespace courthand::client {

/// Records the rulings that wait for a match which this device writes, but for the one that is
/// shown: its own session takes them. What was decided about entries beside the record of any match
/// is told as well, also where another device writes. What came of it is in the news. Call it now
/// and then, on the thread of the sessions.
void record_left_rulings(Journal& journal, const Device& device, std::string_view shown,
                         const SessionHooks& hooks);

/// What the person at the table is told of a ruling that was recorded so. `goes_on`: it has taken
/// the end of the match back.
[[nodiscard]] std::string words_of_left_ruling(const MatchSheet& sheet, bool goes_on);

}  // namespace courthand::client
