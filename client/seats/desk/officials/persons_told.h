// Of whom a fact tells. What was written beside it may be a name, or a reason
// about a person: it can be erased, and stands in no log.
#pragma once

#include <QString>
#include <cstdint>
#include <vector>

#include "courthand/event/state.h"

namespace courthand::seats {

/// Numbers of the persons; empty: the fact tells of none. A fact that takes one
/// back tells of the same persons; one that takes a taking back back tells of
/// none.
[[nodiscard]] std::vector<std::uint16_t> persons_told(const event::TournamentState& state,
                                                      const event::Fact& fact);
/// "official 7": role and number, without the name; "person 7" when nobody of
/// that number is listed.
[[nodiscard]] QString numbered_words(const event::TournamentState& state, std::uint16_t person);

}  // namespace courthand::seats
