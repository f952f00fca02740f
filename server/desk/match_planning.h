// Planning a match from two teams of the record, and moving it to a court: the record has it first,
// then the tables get its plan.
#pragma once

#include <optional>
#include <string>

#include "server/desk/team.h"
#include "server/store/match_store.h"
#include "server/tournament/say.h"

namespace courthand::server::desk {

/// Where matches are planned. All of it outlives the calls.
struct Planning {
    tournament::RecordKeeper& record;
    MatchStore& matches;
    tournament::Speaker speaker;
};

struct MatchWish {
    MatchKey key;  ///< made by the client, the same on each retry
    TeamId first;
    TeamId second;
    std::uint32_t court = 0;  ///< 0: assigned later
    std::string profile;
    std::optional<MatchFormat> format;  ///< none: as the profile says
    std::optional<ServerTime> scheduled_at;
};

/// Plans the match and makes its court known. The same wish again answers the same match;
/// `already_exists` when the id is that of another match.
[[nodiscard]] Result<MatchPlan> plan_match(const Planning& planning, const MatchWish& wish);

/// Moves the match to a court; 0 takes it off its court.
[[nodiscard]] Result<MatchPlan> assign_court(const Planning& planning, MatchKey match,
                                             std::uint32_t court);

}  // namespace courthand::server::desk
