// Which matches of the record the tables can play now, and what their plans should say: the bridge
// from the record to the matches that tables keep. Pure.
//
// A match is opened once it has a court, both its teams are settled and it has no result: then a
// record is named for it, and the tables get a plan of that id. A result that was confirmed closes
// the plan. A plan of the record is never left behind: what the record says later, it says too.
#pragma once

#include <span>
#include <vector>

#include "server/store/match_store.h"
#include "server/tournament/known_record.h"

namespace courthand::server::tournament {

struct Opening {
    struct Change {
        MatchPlan plan;
        bool before_play = false;  ///< only while nobody has written the match
    };
    /// To be said first: then this is asked again.
    std::vector<event::RecordOpened> records;
    std::vector<MatchPlan> made;  ///< in the order of play
    std::vector<Change> changed;
};

/// `stored`: the matches of the tables as they are. Matches that the record does not name are left
/// alone.
[[nodiscard]] Opening opening(TournamentId tournament, const KnownRecord& known,
                              std::span<const StoredMatch> stored);

/// The match of the tournament whose record this is now; nothing when there is none.
[[nodiscard]] std::optional<event::MatchRef> match_of_record(const event::TournamentState& state,
                                                             MatchId record);
[[nodiscard]] event::RecordId record_id(MatchId match);

/// The team of the record as a plan has it.
[[nodiscard]] PlannedTeam planned_team(const KnownRecord& known, event::TeamIndex team);

}  // namespace courthand::server::tournament
