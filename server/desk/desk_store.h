// The desk's teams, their lists and the courts, as the tournament's record has them. Thread-safe;
// every call may take as long as the database takes.
#pragma once

#include <span>
#include <vector>

#include "server/desk/roster_file.h"
#include "server/desk/team.h"
#include "server/store/status.h"
#include "server/tournament/say.h"

namespace courthand::server::desk {

class DeskStore {
  public:
    /// `record` outlives it.
    explicit DeskStore(tournament::RecordKeeper& record) : record_{record} {}

    /// By name.
    [[nodiscard]] Result<std::vector<Team>> teams();
    /// `not_found` when there is none. Of a team that is known here, as it is known: a table that
    /// fetches its match does not wait for a desk that imports.
    [[nodiscard]] Result<Team> team(TeamId id);
    /// A team that is there keeps its id and gets the new list. Fine when all of them can be kept.
    /// `reason` stands beside each frozen list that changes; without one none may.
    [[nodiscard]] Status check_teams(std::span<const Team> teams, const std::string& reason);
    /// All, or a status that says how many: a long file comes into the record in several parts, of
    /// which the last may find the database gone. What is kept is not said twice.
    [[nodiscard]] Result<std::vector<Team>> keep_teams(const tournament::Speaker& speaker,
                                                       std::span<const Team> teams,
                                                       const std::string& reason);

    /// Fine when those of the file who do not play can be kept.
    [[nodiscard]] Status check_people(const RosterFile& file);
    /// Those of the file who do not play; likewise. A coach is of the team by the name that the
    /// record has for it. The teams must be entered.
    [[nodiscard]] Status keep_people(const tournament::Speaker& speaker, const RosterFile& file);

    /// By number.
    [[nodiscard]] Result<std::vector<Court>> courts();
    /// Adds the court, or renames it when `name` is not empty.
    [[nodiscard]] Status keep_court(const tournament::Speaker& speaker, const Court& court);

  private:
    /// With what other servers have kept. A fact that this program cannot read ends what is known,
    /// and no more.
    [[nodiscard]] Result<tournament::KnownRecord> now();

    tournament::RecordKeeper& record_;
};

}  // namespace courthand::server::desk
