// The tables of an event, to be opened by an office program: teams, people, matches, results, the
// order of pools, and final places. Pure.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "courthand/event/state.h"

namespace courthand::server::exports {

struct TableFile {
    std::string name;  ///< "teams.csv"
    std::string bytes;
};

/// By number of the person. Empty: names are left out.
using PersonNames = std::map<std::uint16_t, std::string>;

[[nodiscard]] std::vector<TableFile> event_tables(const event::TournamentState& state,
                                                  const PersonNames& names);

}  // namespace courthand::server::exports
