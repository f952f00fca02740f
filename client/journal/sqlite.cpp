#include "client/journal/sqlite.h"

namespace courthand::client::sqlite {

Database::Database(const std::string& path) {
    sqlite3* raw = nullptr;
    const int code =
        sqlite3_open_v2(path.c_str(), &raw,
                        SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_NOMUTEX, nullptr);
    handle_.reset(raw);
    if (code != SQLITE_OK) {
        const std::string words = raw != nullptr ? sqlite3_errmsg(raw) : sqlite3_errstr(code);
        throw SqliteFailure{raw != nullptr ? sqlite3_extended_errcode(raw) : code, words};
    }
    sqlite3_extended_result_codes(raw, 1);
}

void Database::exec(const std::string& sql) {
    const int code = sqlite3_exec(handle_.get(), sql.c_str(), nullptr, nullptr, nullptr);
    if (code != SQLITE_OK) throw SqliteFailure{code, sqlite3_errmsg(handle_.get())};
}

Statement Database::prepare(std::string_view sql) {
    return Statement{*this, sql};
}

std::int64_t Database::number(std::string_view sql) {
    Statement statement{*this, sql};
    return statement.step() ? statement.number(0) : 0;
}

std::string Database::text(std::string_view sql) {
    Statement statement{*this, sql};
    return statement.step() ? statement.bytes(0) : std::string{};
}

void Database::check_in_on_close(bool on) noexcept {
    sqlite3_db_config(handle_.get(), SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, on ? 0 : 1, nullptr);
}

int Database::system_error() const noexcept {
    return sqlite3_system_errno(handle_.get());
}

Statement::Statement(Database& db, std::string_view sql) : db_{db.handle()} {
    sqlite3_stmt* raw = nullptr;
    const int code =
        sqlite3_prepare_v2(db_, sql.data(), static_cast<int>(sql.size()), &raw, nullptr);
    handle_.reset(raw);
    if (code != SQLITE_OK) fail(code);
}

void Statement::fail(int code) const {
    throw SqliteFailure{code, sqlite3_errmsg(db_)};
}

Statement& Statement::bind(int place, std::int64_t value) {
    const int code = sqlite3_bind_int64(handle_.get(), place, value);
    if (code != SQLITE_OK) fail(code);
    return *this;
}

Statement& Statement::bind_text(int place, std::string_view value) {
    const char* data = value.data() != nullptr ? value.data() : "";
    const int code = sqlite3_bind_text(handle_.get(), place, data, static_cast<int>(value.size()),
                                       SQLITE_TRANSIENT);
    if (code != SQLITE_OK) fail(code);
    return *this;
}

Statement& Statement::bind_bytes(int place, std::string_view value) {
    const char* data = value.data() != nullptr ? value.data() : "";
    const int code = sqlite3_bind_blob(handle_.get(), place, data, static_cast<int>(value.size()),
                                       SQLITE_TRANSIENT);
    if (code != SQLITE_OK) fail(code);
    return *this;
}

bool Statement::step() {
    const int code = sqlite3_step(handle_.get());
    if (code == SQLITE_ROW) return true;
    if (code == SQLITE_DONE) return false;
    const SqliteFailure failure{code, sqlite3_errmsg(db_)};
    reset();
    throw failure;
}

void Statement::run() {
    while (step()) {
    }
    reset();
}

void Statement::reset() noexcept {
    sqlite3_reset(handle_.get());
    sqlite3_clear_bindings(handle_.get());
}

int Statement::columns() const noexcept {
    return sqlite3_column_count(handle_.get());
}

bool Statement::is_number(int column) const noexcept {
    return sqlite3_column_type(handle_.get(), column) == SQLITE_INTEGER;
}

std::int64_t Statement::number(int column) const noexcept {
    return sqlite3_column_int64(handle_.get(), column);
}

std::string Statement::bytes(int column) const {
    const void* data = sqlite3_column_blob(handle_.get(), column);
    const int size = sqlite3_column_bytes(handle_.get(), column);
    if (data == nullptr || size <= 0) return {};
    return std::string{static_cast<const char*>(data), static_cast<std::size_t>(size)};
}

Transaction::Transaction(Database& db) : db_{db} {
    db_.exec("BEGIN IMMEDIATE");
}

Transaction::~Transaction() {
    if (!open_) return;
    // A failed write may have rolled back already; then there is nothing left to undo.
    if (sqlite3_get_autocommit(db_.handle()) == 0)
        sqlite3_exec(db_.handle(), "ROLLBACK", nullptr, nullptr, nullptr);
}

void Transaction::commit() {
    db_.exec("COMMIT");
    open_ = false;
}

}  // namespace courthand::client::sqlite
