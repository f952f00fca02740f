// Writes one fact as the line of a script.
#pragma once

#include <string>
#include <string_view>

#include "courthand/match/fact.h"

namespace courthand::script {

/// `text` is the name of a team or the words of a note; other facts have none.
[[nodiscard]] std::string fact_text(const Fact& fact, std::string_view text);

}  // namespace courthand::script
