// Reads what follows a verb that says a fact.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "courthand/match/fact.h"
#include "script/line_reader.h"

namespace courthand::script {

/// A fact with the words it cannot carry: a team's name, or the text of a remark.
struct SpokenFact {
    Fact fact{};
    std::string text;
    std::uint32_t text_column = 0;  ///< where a team's name stands
};

/// Points a set can be played to, and a score that can be set: far above any played one.
inline constexpr unsigned most_points = 199;

/// Reads the rest of a line that began with `verb`; nothing when no fact has this verb. A format
/// line changes `standard`, the format of the profile.
[[nodiscard]] std::optional<SpokenFact> read_fact(std::string_view verb, LineReader& line,
                                                  const MatchFormat& standard);

/// The verbs of all facts.
[[nodiscard]] std::vector<std::string_view> fact_verbs();

}  // namespace courthand::script
