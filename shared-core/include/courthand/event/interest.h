// Why a person should not work the match of a team: a conflict of interest that was declared, or a
// team or club of their own.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "courthand/event/state.h"

namespace courthand::event {

struct Interest {
    enum class Kind : std::uint8_t {
        declared,
        own_team,
        own_club,  ///< the person's team and this one are of one club
    };
    Kind kind = Kind::declared;
    TeamIndex team = no_team;
    friend bool operator==(const Interest&, const Interest&) = default;
};

/// The strongest reason, if any: declared, then team, then club. Common practice, no source.
[[nodiscard]] std::optional<Interest> interest_in(const TournamentState& state,
                                                  const Person& person, TeamIndex team);

/// One for each team with which the person has a conflict, in the order of entry.
[[nodiscard]] std::vector<Interest> interests(const TournamentState& state, const Person& person);

/// The facts that declare the conflict of a person with a team and count: to be taken back.
[[nodiscard]] std::vector<FactNumber> declarations(const TournamentState& state,
                                                   std::uint16_t person, TeamIndex team);

}  // namespace courthand::event
