// Moves what the tables of earlier programs hold into the tournament's record: teams with their
// lists, courts, and the matches that were planned, so that their records belong to the event.
//
// May be cut off anywhere and begun again, and two servers may do it at once: what the record has
// is not said twice, and the tables are emptied only when it has all. A team keeps its id, a match
// its record; plans are left as they are.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "server/desk/former_tables.h"
#include "server/store/match_store.h"
#include "server/tournament/record_keeper.h"

namespace courthand::server::desk {

struct Moved {
    std::size_t teams = 0;
    std::size_t courts = 0;
    std::size_t matches = 0;
    /// What stands in the record otherwise than in the tables, or not at all, and why.
    std::vector<std::string> notes;
};

/// Nothing to do: all zero. A status that passes: call it again.
[[nodiscard]] Result<Moved> move_tables(FormerTableStore& tables, tournament::RecordKeeper& record,
                                        MatchStore& matches, TournamentId tournament);

}  // namespace courthand::server::desk
