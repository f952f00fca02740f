// A journal whose write-ahead log cannot be emptied for a while, as on a disk that fails.
#pragma once

#include <gtest/gtest.h>
#include <sqlite3.h>

#include <filesystem>
#include <memory>

#include "tests/unit/client/journal_kit.h"

namespace courthand::client {

/// Opens a journal and can keep a reader on its connection: with that no checkpoint ends. Not for a
/// journal that another thread uses meanwhile.
class HeldCheckpoint {
  public:
    explicit HeldCheckpoint(const std::filesystem::path& folder) {
        auto* const noting = reinterpret_cast<void (*)()>(&note);
        sqlite3_auto_extension(noting);
        journal = open_journal(folder);
        sqlite3_cancel_auto_extension(noting);
        connection_ = noted;
    }
    ~HeldCheckpoint() { let_go(); }
    HeldCheckpoint(const HeldCheckpoint&) = delete;
    HeldCheckpoint& operator=(const HeldCheckpoint&) = delete;

    void hold() {
        ASSERT_EQ(
            sqlite3_prepare_v2(connection_, "SELECT name FROM setting", -1, &reader_, nullptr),
            SQLITE_OK);
        ASSERT_EQ(sqlite3_step(reader_), SQLITE_ROW);
    }
    void let_go() {
        sqlite3_finalize(reader_);
        reader_ = nullptr;
    }

    std::unique_ptr<Journal> journal;

  private:
    static int note(sqlite3* db, char**, const sqlite3_api_routines*) {
        noted = db;
        return SQLITE_OK;
    }
    static inline sqlite3* noted = nullptr;  ///< the connection that was opened last
    sqlite3* connection_ = nullptr;
    sqlite3_stmt* reader_ = nullptr;
};

}  // namespace courthand::client
