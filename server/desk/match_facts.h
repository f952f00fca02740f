// What must be said so that the tournament's record has a match of the tables. Pure.
#pragma once

#include <string>
#include <vector>

#include "server/store/match_store.h"
#include "server/tournament/record_keeper.h"

namespace courthand::server::desk {

/// A match of two teams of the record, called `name`, with its court and time when it has a court,
/// and the record that its table keeps. Both teams must be those of the plan.
[[nodiscard]] std::vector<event::Said> match_facts(const tournament::KnownRecord& known,
                                                   const std::string& name, const MatchPlan& plan,
                                                   event::TeamIndex first, event::TeamIndex second);

/// The same with their ids, which are alike on each try and at every server: who plans a match
/// twice at once plans it once.
[[nodiscard]] std::vector<tournament::Act::Said> said_of(MatchId match,
                                                         std::vector<event::Said> facts);

/// The match goes to the court of that number, 0: to none; nothing when it is so.
[[nodiscard]] std::vector<event::Said> court_of_match_facts(const tournament::KnownRecord& known,
                                                            event::MatchRef ref,
                                                            const MatchPlan& plan,
                                                            std::uint32_t court);

/// A number that no match of the record has for a name, from `first` on.
[[nodiscard]] std::string free_match_name(const event::TournamentState& state, std::size_t first);

}  // namespace courthand::server::desk
