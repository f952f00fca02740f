// The tables of earlier programs, in which teams, their lists and courts were kept before they came
// into the tournament's record. Read once, by the move (table_move.h).
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "server/desk/team.h"
#include "server/store/status.h"

namespace courthand::server::desk {

/// As they stand there: names may be of two teams of different clubs.
struct FormerTables {
    std::vector<Team> teams;    ///< by name, then club
    std::vector<Court> courts;  ///< by number
};

class FormerTableStore {
  public:
    virtual ~FormerTableStore() = default;

    /// All of it at one moment; nothing when it was moved before.
    virtual Result<std::optional<FormerTables>> read() = 0;
    /// Notes that all of it is in the record, and empties the tables but for these teams, which
    /// could not be moved as they are.
    virtual Status moved(std::span<const TeamId> kept_back) = 0;
};

}  // namespace courthand::server::desk
