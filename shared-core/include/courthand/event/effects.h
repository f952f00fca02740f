// What hangs on a fact or on a result, told before it is taken back or reopened.
#pragma once

#include <string>
#include <vector>

#include "courthand/event/state.h"

namespace courthand::event {

struct Effects {
    std::vector<FactNumber> facts;     ///< later ones that would have no effect any more
    std::vector<std::string> matches;  ///< other sides, result, place or duty, or none at all
    std::vector<std::string> places;   ///< "2nd of pool A in U16", "place 1 in U16"
    friend bool operator==(const Effects&, const Effects&) = default;

    [[nodiscard]] bool none() const noexcept {
        return facts.empty() && matches.empty() && places.empty();
    }
};

/// Empty for a number that names no fact, and for a fact that does not count.
[[nodiscard]] Effects effects_of_taking_back(const TournamentState& state, FactNumber fact);

/// Of reopening the result of a match, the match itself included.
[[nodiscard]] Effects effects_of_reopening(const TournamentState& state, MatchRef match);

/// In what two states differ.
[[nodiscard]] Effects difference(const TournamentState& before, const TournamentState& after);

}  // namespace courthand::event
