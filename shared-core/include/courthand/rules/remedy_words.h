// What a remedy does, in words: at the table, at the head's seat, on the board and in RULES.md.
#pragma once

#include <string>

#include "courthand/match/team.h"
#include "courthand/rules/verdict.h"

namespace courthand {

/// "point and service to Mill Lane; 2 points of Harbour Lights cancelled". Begins small, as the
/// part of a sentence that it may be; says nothing of the score after it. `at_fault` is the team of
/// the verdict.
[[nodiscard]] std::string remedy_words(const Remedy& remedy, Team at_fault,
                                       const PerTeam<std::string>& names);

}  // namespace courthand
