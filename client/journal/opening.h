// Opening a journal: make, migrate, verify, and exchange a damaged one for what is whole of it.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "client/journal/journal.h"
#include "client/journal/sqlite.h"

namespace courthand::client {

struct OpenedJournal {
    std::unique_ptr<sqlite::Database> db;
    std::optional<Recovery> recovery;
};

[[nodiscard]] std::variant<OpenedJournal, JournalError> open_journal_file(
    const std::filesystem::path& folder, std::int64_t most_pages);

/// A failure in words for the person at the device.
[[nodiscard]] JournalError explain_failure(const sqlite::SqliteFailure& failure, int system_error,
                                           const std::filesystem::path& folder);

/// Writes one entry inside a transaction of the caller. The signature may be empty.
void insert_entry(sqlite::Database& db, const JournalEntry& entry, std::string_view signature);
/// Writes an entry that is no longer part of the record, inside a transaction of the caller. The
/// signature may be empty.
void insert_aside(sqlite::Database& db, const JournalEntry& entry, std::string_view why,
                  std::string_view signature);
/// Writes matches and settings inside a transaction of the caller.
void store_rows(sqlite::Database& db, const std::vector<StoredMatch>& matches,
                const std::vector<std::pair<std::string, std::string>>& settings);

}  // namespace courthand::client
