// Matches as rows of a table on a page, as the whole hall or one team sees them.
#pragma once

#include <string>
#include <vector>

#include "courthand/event/state.h"
#include "server/publish/page.h"

namespace courthand::server::publish {

/// A name that is unique among all matches and can stand in an id: "m-0-12".
[[nodiscard]] std::string match_id(event::MatchRef match);
[[nodiscard]] std::string team_path(event::TeamIndex team);  ///< "team-4.html"
[[nodiscard]] std::string court_path(std::uint16_t court);   ///< "court-3.html"
/// The name of a team as a link to its page.
[[nodiscard]] std::string team_link(const event::TournamentState& state, event::TeamIndex team);
/// The side of a match: a link to its team, or the words where it comes from.
[[nodiscard]] std::string side_html(const event::TournamentState& state, event::MatchRef match,
                                    std::size_t which);

/// How far courts and times can be relied on.
[[nodiscard]] Fragment plan_fragment(const event::TournamentState& state);

/// All matches of the event in the order in which they are played: by time, then court; those
/// without a time after them, as the graphs have them.
[[nodiscard]] std::vector<event::MatchRef> in_order(const event::TournamentState& state);

/// A table of these matches, with time and court, or a sentence when there is none. `id`: of the
/// piece.
[[nodiscard]] Fragment match_table(const event::TournamentState& state, std::string id,
                                   const std::string& caption,
                                   const std::vector<event::MatchRef>& matches);

}  // namespace courthand::server::publish
