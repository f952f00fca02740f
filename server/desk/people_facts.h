// What must be said so that the tournament's record has the people of a list who do not play. Pure.
#pragma once

#include <cstdint>
#include <map>
#include <span>
#include <string>
#include <vector>

#include "courthand/event/state.h"
#include "server/desk/roster_file.h"
#include "server/store/status.h"

namespace courthand::server::desk {

/// Names that stand beside the record, by number of the person.
using NamesByPerson = std::map<std::uint16_t, std::string>;

/// Each gets the lowest number that nobody has, and the name beside the fact. Whoever is there with
/// the same role, team and name is not said again; rows without a name are as many persons in all.
/// `exhausted` when the numbers do not suffice. Teams must be entered by then.
[[nodiscard]] Result<std::vector<event::Said>> people_facts(const event::TournamentState& state,
                                                            const NamesByPerson& names,
                                                            std::span<const RosterPerson> people);

}  // namespace courthand::server::desk
