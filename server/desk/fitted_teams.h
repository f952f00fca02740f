// Teams of the former tables as the tournament's record can have them: names are given once, and
// keep the bounds of a record. Pure.
#pragma once

#include <string>
#include <vector>

#include "server/desk/team.h"

namespace courthand::server::desk {

struct FittedTeams {
    struct Renamed {
        TeamId team;
        std::string words;  ///< what it was called, and how it is called from now on
    };
    std::vector<Team> teams;        ///< in their order, each with its id
    std::vector<Renamed> renamed;   ///< teams that had the name of another
    std::vector<TeamId> kept_back;  ///< teams of which something does not fit
    std::vector<std::string> notes;
};

/// The name without control characters, as long as the record has names.
[[nodiscard]] std::string fitted_name(std::string name);

/// Only files within the bounds were ever imported: what does not fit came there by hand.
[[nodiscard]] FittedTeams fitted(const std::vector<Team>& teams);

}  // namespace courthand::server::desk
