#include "courthand/event/earlier_result.h"

#include <algorithm>
#include <variant>

namespace courthand::event {

bool had_result(const TournamentState& state, std::string_view match) {
    return std::any_of(state.facts.begin(), state.facts.end(), [&](const Fact& fact) {
        if (const auto* const result = std::get_if<ResultConfirmed>(&fact))
            return result->match == match;
        const auto* const award = std::get_if<MatchAwarded>(&fact);
        return award != nullptr && award->match == match;
    });
}

}  // namespace courthand::event
