// Team lists from a CSV file. One row a player; the first row names the columns:
//
//   team, number              required
//   club, colour, name, captain, libero   as wanted, in any order
//
// Every fault is told with row, column and cure, so that a file is mended in one go. Pure.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "server/desk/team.h"

namespace courthand::server::desk {

struct RosterError {
    std::uint32_t line = 0;  ///< of the file, from 1; 0: the file as a whole
    std::string column;      ///< empty: the row as a whole
    std::string message;
    std::string cure;
};

struct RosterFile {
    std::vector<Team> teams;          ///< in the order of the file, without ids
    std::vector<RosterError> errors;  ///< in the order of the file
};

[[nodiscard]] RosterFile read_roster_file(std::string_view csv);

}  // namespace courthand::server::desk
