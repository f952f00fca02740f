// The tables of a journal and their numbered migrations.
#pragma once

#include <cstdint>

#include "client/journal/sqlite.h"

namespace courthand::client {

inline constexpr std::int64_t journal_schema = 2;

/// Settings under which every journal is opened: one process, write-ahead log, every commit on
/// the disk before it returns. `most_pages` 0: no limit.
void prepare_journal(sqlite::Database& db, std::int64_t most_pages);
/// Runs the migrations the file has not seen yet, each in a transaction of its own.
void migrate_journal(sqlite::Database& db);
/// Moves the write-ahead log into the file and empties it. Throws SqliteFailure when it cannot.
void check_in(sqlite::Database& db);

}  // namespace courthand::client
