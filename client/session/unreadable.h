// A journal whose disk fails while it is being read: what a person at the device is told.
#pragma once

#include <string>
#include <string_view>

namespace courthand::client {

/// Sentences with the cause and the cure. `why`: what the disk or the database said of it.
[[nodiscard]] std::string unreadable_words(std::string_view why);

}  // namespace courthand::client
