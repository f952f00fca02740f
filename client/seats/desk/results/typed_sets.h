// The sets of a match as a person types them from a paper sheet.
#pragma once

#include <QString>
#include <variant>
#include <vector>

#include "courthand/event/values.h"

namespace courthand::seats {

/// "25-20 18:25 15-12": two numbers a set, in order. Otherwise a sentence that says what cannot be
/// read and how to write it. Whether a match can end so is for the core to say.
[[nodiscard]] std::variant<std::vector<event::SetScore>, QString> read_sets(const QString& typed);

}  // namespace courthand::seats
