// One fact as a line of a script, read and written. Internal to shared-core/event_script.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "courthand/event/fact.h"
#include "script/line_reader.h"

namespace courthand::event {

/// Reads the rest of a line that began with `verb`; nothing when no fact has this verb.
[[nodiscard]] std::optional<Said> read_fact(std::string_view verb, script::LineReader& line);

/// The verbs of all facts.
[[nodiscard]] std::vector<std::string_view> fact_verbs();

}  // namespace courthand::event
