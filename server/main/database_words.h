// What a person at a command line is told about the database that was named: where it is, what is
// wrong, what to do. Nothing of it shows a password or an account.
#pragma once

#include <optional>
#include <string>

#include "server/store/status.h"

namespace courthand::server {

/// Why this text names no database at all; nothing when it does. `option` is the word it came with.
[[nodiscard]] std::optional<std::string> unreadable_database(const std::string& dsn,
                                                             const std::string& option);
/// "127.0.0.1:5432/courthand", as far as the text says it.
[[nodiscard]] std::string place_of_database(const std::string& dsn);
/// A failure of a command that does one thing and ends: nothing is tried again by itself.
[[nodiscard]] std::string words_of_failure(const Status& status, const std::string& dsn);

}  // namespace courthand::server
