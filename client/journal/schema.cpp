#include "client/journal/schema.h"

#include <fmt/format.h>

#include <array>

#include "client/journal/rows.h"
#include "client/journal/salvage.h"

namespace courthand::client {
namespace {

/// Element i brings a file from schema i to i + 1. Never changed once released.
constexpr std::array<const char*, journal_schema> migrations{
    R"(
    CREATE TABLE entry (
        id INTEGER PRIMARY KEY,  -- in the order of writing
        match_id TEXT NOT NULL,
        epoch INTEGER NOT NULL,
        seq INTEGER NOT NULL,
        entry_id TEXT NOT NULL,
        prev_hash BLOB NOT NULL,
        hash BLOB NOT NULL,
        bytes BLOB NOT NULL,
        state TEXT NOT NULL,
        seal INTEGER NOT NULL
    );
    CREATE UNIQUE INDEX entry_place ON entry (match_id, seq);
    CREATE INDEX entry_waiting ON entry (match_id, seq) WHERE state = 'waiting';
    CREATE TABLE match (
        match_id TEXT PRIMARY KEY,
        sheet BLOB NOT NULL,
        seal INTEGER NOT NULL
    );
    CREATE TABLE setting (
        name TEXT PRIMARY KEY,
        value BLOB NOT NULL,
        seal INTEGER NOT NULL
    );
    )",
    // `id` is the entry's, so that a signature is found without an index of its own.
    R"(
    CREATE TABLE signature (
        id INTEGER PRIMARY KEY,
        match_id TEXT NOT NULL,
        seq INTEGER NOT NULL,
        hash BLOB NOT NULL,
        signature BLOB NOT NULL,
        seal INTEGER NOT NULL
    );
    CREATE TABLE aside (
        id INTEGER PRIMARY KEY,
        match_id TEXT NOT NULL,
        epoch INTEGER NOT NULL,
        seq INTEGER NOT NULL,
        entry_id TEXT NOT NULL,
        prev_hash BLOB NOT NULL,
        hash BLOB NOT NULL,
        bytes BLOB NOT NULL,
        state TEXT NOT NULL,
        seal INTEGER NOT NULL,
        why TEXT NOT NULL
    );
    DROP INDEX entry_waiting;
    CREATE INDEX entry_unsettled ON entry (match_id, seq, state) WHERE state <> 'acknowledged';
    )",
};

}  // namespace

void prepare_journal(sqlite::Database& db, std::int64_t most_pages) {
    db.exec(fmt::format("PRAGMA page_size={}", journal_page_bytes));
    db.exec("PRAGMA locking_mode=EXCLUSIVE");
    db.exec("PRAGMA journal_mode=WAL");
    db.exec("PRAGMA synchronous=FULL");
    db.exec("PRAGMA cell_size_check=ON");
    // A name that is taken off a sheet leaves no copy in the free part of a page.
    db.exec("PRAGMA secure_delete=ON");
    if (most_pages > 0) db.exec(fmt::format("PRAGMA max_page_count={}", most_pages));
}

void check_in(sqlite::Database& db) {
    // Answers whether something was in its way, and is no failure then.
    if (db.number("PRAGMA wal_checkpoint(TRUNCATE)") != 0)
        throw sqlite::SqliteFailure{SQLITE_BUSY, "the write-ahead log is in use"};
}

void migrate_journal(sqlite::Database& db) {
    for (std::int64_t version = db.number("PRAGMA user_version"); version < journal_schema;
         ++version) {
        sqlite::Transaction transaction{db};
        db.exec(migrations[static_cast<std::size_t>(version)]);
        db.exec(fmt::format("PRAGMA user_version={}", version + 1));
        // Said twice: a flipped bit in the file header must not pass for a newer schema.
        const std::string text = fmt::format("{}", version + 1);
        db.prepare(
              "INSERT INTO setting (name, value, seal) VALUES (?, ?, ?)"
              " ON CONFLICT (name) DO UPDATE SET value = excluded.value,"
              " seal = excluded.seal")
            .bind_text(1, "schema")
            .bind_bytes(2, text)
            .bind(3, setting_seal("schema", text))
            .run();
        transaction.commit();
    }
}

}  // namespace courthand::client
