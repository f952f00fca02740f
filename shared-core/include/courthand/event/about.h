// Beside which facts words may tell of a person: names, reasons, notes. Whoever erases a person
// erases these. Words are free: beside any other fact, too, somebody may have named anybody.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "courthand/event/fact.h"

namespace courthand::event {

/// Numbers of the facts about this person: that list the person, freeze the list of a team of which
/// the person ever was, note something about such a team or withdraw it, give the person a crew, a
/// duty or a conflict of interest, or take any of these back. Nothing: about anybody. Facts that do
/// not count are among them: their words are there all the same.
[[nodiscard]] std::vector<FactNumber> facts_about(std::span<const Fact> facts,
                                                  std::optional<std::uint16_t> person);

/// Of whom the fact of this number tells, which is there; empty: of nobody. One that takes a fact
/// back tells of the same persons; one that takes a taking back back tells of none.
[[nodiscard]] std::vector<std::uint16_t> persons_told(std::span<const Fact> facts,
                                                      FactNumber number);

}  // namespace courthand::event
