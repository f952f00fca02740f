// Team lists from a CSV file. One row a player; the first row names the columns:
//
//   team, number              required
//   club, colour, name, captain, libero, division, role, last pool   as wanted, in any order
//
// "last pool" is the pool in which the team played the last event: a draw tells who meets again.
//
// A row is a player unless its role says "coach", "official" or "worker"; these have no number, and
// officials and workers no team.
//
// Every fault is told with row, column and cure, so that a file is mended in one go. Pure.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "courthand/event/entries.h"
#include "server/desk/team.h"

namespace courthand::server::desk {

struct RosterError {
    std::uint32_t line = 0;  ///< of the file, from 1; 0: the file as a whole
    std::string column;      ///< empty: the row as a whole
    std::string message;
    std::string cure;
};

/// Somebody who does not play.
struct RosterPerson {
    std::uint32_t line = 0;
    event::Role role = event::Role::coach;
    std::string team;                 ///< of a coach
    std::optional<std::string> name;  ///< none: the venue works with numbers only
    friend bool operator==(const RosterPerson&, const RosterPerson&) = default;
};

struct RosterFile {
    std::vector<Team> teams;           ///< in the order of the file, without ids
    std::vector<RosterPerson> people;  ///< in the order of the file
    std::vector<RosterError> errors;   ///< in the order of the file
};

[[nodiscard]] RosterFile read_roster_file(std::string_view csv);

}  // namespace courthand::server::desk
