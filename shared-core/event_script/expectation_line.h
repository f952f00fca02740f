// What follows `expect`. Internal to shared-core/event_script.
#pragma once

#include "courthand/event_script/event_script.h"
#include "script/line_reader.h"

namespace courthand::event {

[[nodiscard]] Expectation read_expectation(script::LineReader& line);

}  // namespace courthand::event
