// What courthand-replay prints after each line.
#pragma once

#include <string>
#include <vector>

#include "courthand/replay/replay.h"
#include "courthand/rules/profile.h"

namespace courthand::replay {

/// A few lines of text for the line the replay stands at. `profile`: the one the replay judges by.
[[nodiscard]] std::string text_report(const ScriptReplay& replay, const Script& script,
                                      const Profile& profile);
[[nodiscard]] std::string text_summary(const MatchState& state, std::size_t failed);

/// One JSON object on one line. Each verdict names the parameters it rests on whose values were
/// not seen in print.
[[nodiscard]] std::string json_report(const ScriptReplay& replay, const Profile& profile);
[[nodiscard]] std::string json_summary(const MatchState& state, std::size_t failed);

/// A JSON string with its quotation marks.
[[nodiscard]] std::string json_string(std::string_view text);

/// The parameters in which two profiles differ, one a line, each value with its source.
[[nodiscard]] std::string profile_difference(const Profile& x, const Profile& y);

}  // namespace courthand::replay
