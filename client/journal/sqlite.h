// The few SQLite calls the journal needs, with their handles closed by themselves.
//
// A failure is thrown as SqliteFailure. Of a write the journal turns it into a JournalError; of a
// read it leaves client/journal as what it is, an UnreadableJournal. One thread at a time.
#pragma once

#include <sqlite3.h>

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

#include "client/journal/unreadable_journal.h"

namespace courthand::client::sqlite {

class SqliteFailure : public UnreadableJournal {
  public:
    SqliteFailure(int code, const std::string& message) : UnreadableJournal{message}, code_{code} {}
    /// Primary result code, e.g. SQLITE_FULL.
    [[nodiscard]] int code() const noexcept { return code_ & 0xff; }
    [[nodiscard]] int extended_code() const noexcept { return code_; }

  private:
    int code_;
};

class Statement;

class Database {
  public:
    /// Opens or makes the file. Throws SqliteFailure.
    explicit Database(const std::string& path);

    /// Runs statements without values or rows.
    void exec(const std::string& sql);
    [[nodiscard]] Statement prepare(std::string_view sql);
    /// The one value of a query that has one.
    [[nodiscard]] std::int64_t number(std::string_view sql);
    [[nodiscard]] std::string text(std::string_view sql);
    /// Whether closing moves the write-ahead log into the file.
    void check_in_on_close(bool on) noexcept;
    /// Operating system error of the last failure, 0 when none.
    [[nodiscard]] int system_error() const noexcept;
    [[nodiscard]] sqlite3* handle() const noexcept { return handle_.get(); }

  private:
    struct Close {
        void operator()(sqlite3* db) const noexcept { sqlite3_close_v2(db); }
    };
    std::unique_ptr<sqlite3, Close> handle_;
};

class Statement {
  public:
    Statement(Database& db, std::string_view sql);

    Statement& bind(int place, std::int64_t value);
    Statement& bind_text(int place, std::string_view value);
    Statement& bind_bytes(int place, std::string_view value);
    /// True while there is a row.
    [[nodiscard]] bool step();
    /// Runs to the end and makes the statement ready for other values.
    void run();
    void reset() noexcept;

    [[nodiscard]] int columns() const noexcept;
    [[nodiscard]] bool is_number(int column) const noexcept;
    [[nodiscard]] std::int64_t number(int column) const noexcept;
    /// Text or bytes of a column.
    [[nodiscard]] std::string bytes(int column) const;

  private:
    struct Finalize {
        void operator()(sqlite3_stmt* statement) const noexcept { sqlite3_finalize(statement); }
    };
    [[noreturn]] void fail(int code) const;
    sqlite3* db_;
    std::unique_ptr<sqlite3_stmt, Finalize> handle_;
};

/// All or nothing: rolled back unless committed.
class Transaction {
  public:
    explicit Transaction(Database& db);
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    ~Transaction();
    void commit();

  private:
    Database& db_;
    bool open_ = true;
};

}  // namespace courthand::client::sqlite
