// Takes the records out of a journal as JSON lines: the exact bytes beside what identifies them.
//
// Works on journals of later schemas too, as long as their table of entries has the columns of
// schema 1; nothing is written to the journal.
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>
#include <variant>

namespace courthand::client {

/// How many entries were written, or a sentence that says what is wrong.
[[nodiscard]] std::variant<std::size_t, std::string> export_journal(
    const std::filesystem::path& folder, const std::filesystem::path& out);

}  // namespace courthand::client
