// Reads what follows `expect`.
#pragma once

#include "courthand/script/script.h"
#include "script/line_reader.h"

namespace courthand::script {

[[nodiscard]] Expectation read_expectation(LineReader& line);

}  // namespace courthand::script
