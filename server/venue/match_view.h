// One match as the board and the desk show it. Pure: taken from the folded record.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "courthand/v1/venue.pb.h"
#include "server/alerts/condition.h"
#include "server/alerts/match_history.h"
#include "server/domain/match_observer.h"
#include "server/venue/match_teams.h"

namespace courthand::server::venue {

struct MatchView {
    MatchPlan plan;
    MatchTeams teams;
    v1::CourtCard card;  ///< without alerts and device
    Stage stage = Stage::before_match;
    bool begun = false;  ///< the record has entries
    ServerTime last_entry_at{};
    std::vector<alerts::Condition> conditions;
    std::optional<alerts::Condition> asked;  ///< a device asks to take the match over
    DeviceId writer;                         ///< who writes it now; nil: nobody yet

    /// Won, or its result is confirmed whatever the record says.
    [[nodiscard]] bool over() const noexcept {
        return stage == Stage::match_over || plan.status == PlanStatus::confirmed;
    }
    /// From the toss of its first set on, until it is over.
    [[nodiscard]] bool played() const noexcept {
        return begun && !over() && stage != Stage::before_match &&
               plan.status != PlanStatus::cancelled;
    }
};

/// Everything the server says about a match that is not its record. `history` has followed it.
[[nodiscard]] MatchView view_of(const LiveMatch& match, const alerts::MatchHistory& history);

/// Of two matches of one court: is the first rather the one that is on it now? The one in play,
/// else the next one planned, else the last one played; a cancelled one never.
[[nodiscard]] bool more_current(const MatchView& one, const MatchView& other);

}  // namespace courthand::server::venue
