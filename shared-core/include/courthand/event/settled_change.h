// What an act changes of things that people rely on already. Nothing forbids it; whoever does it is
// asked for the reason, which stands beside the act.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "courthand/event/state.h"

namespace courthand::event {

enum class Settled : std::uint8_t {
    list,        ///< a frozen list has other numbers, or its team is gone
    left,        ///< a team leaves
    result,      ///< a result that counted is another one, or counts no more
    plan,        ///< a match of the published plan has another court or time, or none
    taken_back,  ///< a fact that was said counts no more, or counts again
};

/// In the order of `Settled`, each once. `after` is `before` with what was said.
[[nodiscard]] std::vector<Settled> settled_changes(const TournamentState& before,
                                                   const TournamentState& after,
                                                   std::span<const Fact> said);

}  // namespace courthand::event
