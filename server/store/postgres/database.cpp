#include "server/store/postgres/database.h"

#include <string_view>

namespace courthand::server::postgres {
namespace {

/// Seconds and milliseconds after which a silent database counts as gone. A table waits for its
/// answer meanwhile, and goes on recording.
constexpr std::string_view connect_seconds = "3";
constexpr std::string_view tcp_user_ms = "5000";
constexpr const char* session_settings =
    "set statement_timeout = 15000; set lock_timeout = 8000; "
    "set idle_in_transaction_session_timeout = 20000; set synchronous_commit = on; "
    "set timezone = 'UTC'; set client_min_messages = warning";

bool is_uri(std::string_view dsn) {
    return dsn.starts_with("postgres://") || dsn.starts_with("postgresql://");
}

std::string with_setting(std::string dsn, std::string_view key, std::string_view value) {
    if (dsn.find(key) != std::string::npos) return dsn;
    if (is_uri(dsn))
        dsn += dsn.find('?') == std::string::npos ? '?' : '&';
    else if (!dsn.empty())
        dsn += ' ';
    dsn.append(key).append("=").append(value);
    return dsn;
}

std::string with_time_limits(std::string dsn) {
    dsn = with_setting(std::move(dsn), "connect_timeout", connect_seconds);
    dsn = with_setting(std::move(dsn), "tcp_user_timeout", tcp_user_ms);
    return with_setting(std::move(dsn), "application_name", "courthand-server");
}

void set_up_session(pqxx::connection& connection) {
    pqxx::nontransaction session{connection};
    session.exec(session_settings);
}

}  // namespace

Database::Database(std::string dsn) : dsn_{with_time_limits(std::move(dsn))} {}
Database::~Database() = default;

void Database::add_statements(Statements statements) {
    {
        const std::lock_guard lock{mutex_};
        for (Statement& statement : statements) statements_.push_back(std::move(statement));
    }
    // Connections made before do not know the new ones.
    forget_idle();
}

Database::Opened Database::open() {
    try {
        auto connection = std::make_unique<pqxx::connection>(dsn_);
        set_up_session(*connection);
        const std::lock_guard lock{mutex_};
        for (const Statement& s : statements_) connection->prepare(s.name, s.sql);
        return {std::move(connection), Status::fine()};
    } catch (...) {
        return {nullptr, status_of_current_exception("connecting")};
    }
}

std::unique_ptr<pqxx::connection> Database::take(bool& fresh, Status& status) {
    {
        const std::lock_guard lock{mutex_};
        if (!idle_.empty()) {
            auto connection = std::move(idle_.back());
            idle_.pop_back();
            fresh = false;
            return connection;
        }
    }
    fresh = true;
    Opened opened = open();
    status = opened.status;
    return std::move(opened.connection);
}

void Database::give_back(std::unique_ptr<pqxx::connection> connection) {
    const std::lock_guard lock{mutex_};
    if (idle_.size() < most_connections && connection->is_open())
        idle_.push_back(std::move(connection));
}

void Database::forget_idle() {
    std::vector<std::unique_ptr<pqxx::connection>> gone;
    const std::lock_guard lock{mutex_};
    gone.swap(idle_);
}

Status Database::run(const char* what, const std::function<void(pqxx::work&)>& body) {
    Status status;
    for (int attempt = 0; attempt < most_tries; ++attempt) {
        bool fresh = false;
        auto connection = take(fresh, status);
        if (!connection) return status;
        try {
            pqxx::work work{*connection, what};
            body(work);
            work.commit();
            give_back(std::move(connection));
            return Status::fine();
        } catch (...) {
            status = status_of_current_exception(what);
        }
        if (status.passing()) {
            // The others broke with this one, most likely: a restarted database keeps none.
            forget_idle();
            if (!fresh && status.code == StatusCode::unavailable) continue;
            return status;
        }
        give_back(std::move(connection));
        if (!worth_another_try(status)) return status;
    }
    return status;
}

}  // namespace courthand::server::postgres
