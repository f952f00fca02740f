// What would be another thing, old and new side by side: for whoever reads a preview.
#pragma once

#include <string>
#include <vector>

#include "courthand/event/state.h"

namespace courthand::event {

/// One thing that people see of the tournament, a match, a place, a team, a division, a person or a
/// crew.
struct Change {
    std::string of;    ///< "M7", "place 1 of pool A in U16", "Mill Lane", "division U16"
    std::string what;  ///< "court", "result", "pool"; empty where `of` says it all
    std::string was;   ///< in words: "3", "21-12 21-14", "winner of M3"; never empty
    std::string is;    ///< the same now
    friend bool operator==(const Change&, const Change&) = default;
};

/// Of what there was before: name, days and time zone of the tournament; matches with sides,
/// result, court, time and points carried; settled places; who works a match, also by the order of
/// play; teams with pool, seed and list, courts with their hours, what divisions are played under;
/// persons by number and role, their conflicts, and crews. What is new altogether has no old value
/// and is not among them.
[[nodiscard]] std::vector<Change> changes(const TournamentState& before,
                                          const TournamentState& after);

}  // namespace courthand::event
