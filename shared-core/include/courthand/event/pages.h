// Which of the pages for everyone tell of what an act changes. They are made elsewhere
// (server/publish), under the titles that stand here.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "courthand/event/state.h"

namespace courthand::event {

inline constexpr const char* pools_title = "Pools";
inline constexpr const char* brackets_title = "Brackets";
/// "Court 3", with the name it has in the hall.
[[nodiscard]] std::string court_title(std::uint16_t number, const Court& court);

/// The titles of the pages on which a match or a place stands that is another one in the second
/// state: pools, brackets, courts by number, teams in the order of entry. What is on a court now
/// its table tells, so that page is none of them.
[[nodiscard]] std::vector<std::string> pages_that_change(const TournamentState& before,
                                                         const TournamentState& after);

}  // namespace courthand::event
