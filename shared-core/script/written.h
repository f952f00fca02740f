// How a script writes the values that stand in a fact.
#pragma once

#include <string>
#include <string_view>

#include "courthand/match/fact.h"

namespace courthand::script {

[[nodiscard]] std::string written(Team team);
/// A number, or "none".
[[nodiscard]] std::string written(Jersey jersey);
/// A number, "none" or "?".
[[nodiscard]] std::string written(const LiberoBox& box);
/// "8 6".
[[nodiscard]] std::string written(Score score);
/// In quotation marks, with escapes; other control characters become blanks.
[[nodiscard]] std::string written_text(std::string_view text);

}  // namespace courthand::script
