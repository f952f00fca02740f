#include "server/store/postgres/database.h"

#include <fmt/format.h>

#include "server/store/postgres/connection_text.h"

namespace courthand::server::postgres {
namespace {

/// libpqxx would open a lost connection anew in the middle of a call, without our looking at what
/// answers there. We drop it instead.
void never_reconnect(pqxx::connection& connection) {
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wdeprecated-declarations"
    connection.inhibit_reactivation(true);
#pragma GCC diagnostic pop
}

}  // namespace

/// A place in the pool while it is in use; gives it back at its end.
class Database::Lease {
  public:
    /// Without a pool: no place was free.
    Lease(Database* pool, std::unique_ptr<pqxx::connection> connection, bool is_fresh)
        : fresh{is_fresh}, pool_{pool}, connection_{std::move(connection)} {}
    ~Lease() {
        if (pool_ != nullptr) pool_->give_back(std::move(connection_));
    }
    Lease(const Lease&) = delete;
    Lease& operator=(const Lease&) = delete;

    [[nodiscard]] bool empty() const { return connection_ == nullptr; }
    pqxx::connection& operator*() { return *connection_; }
    void drop() { connection_.reset(); }

    const bool fresh;  ///< opened for this use

  private:
    Database* pool_;
    std::unique_ptr<pqxx::connection> connection_;
};

Database::Database(const std::string& dsn, PoolLimits limits)
    : dsn_{with_session_settings(dsn)}, limits_{limits} {}
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
        never_reconnect(*connection);
        const std::lock_guard lock{mutex_};
        for (const Statement& s : statements_) connection->prepare(s.name, s.sql);
        return {std::move(connection), Status::fine()};
    } catch (...) {
        return {nullptr, status_of_current_exception("connecting")};
    }
}

Database::Lease Database::take(Status& status) {
    std::unique_lock lock{mutex_};
    const bool free = freed_.wait_for(
        lock, limits_.wait, [this] { return !idle_.empty() || lent_ < limits_.connections; });
    if (!free) {
        status = Status::failed(
            StatusCode::exhausted,
            fmt::format("all {} connections to the database are busy", limits_.connections),
            "it is tried again by itself; when it stays so, look at the database: it is slow or "
            "something holds a lock");
        return {nullptr, nullptr, false};
    }
    ++lent_;
    if (!idle_.empty()) {
        auto connection = std::move(idle_.back());
        idle_.pop_back();
        lock.unlock();
        return {this, std::move(connection), false};
    }
    lock.unlock();
    Opened opened = open();
    status = opened.status;
    return {this, std::move(opened.connection), true};
}

void Database::give_back(std::unique_ptr<pqxx::connection> connection) {
    {
        const std::lock_guard lock{mutex_};
        --lent_;
        if (connection && connection->is_open()) idle_.push_back(std::move(connection));
    }
    freed_.notify_one();
}

void Database::forget_idle() {
    std::vector<std::unique_ptr<pqxx::connection>> gone;
    const std::lock_guard lock{mutex_};
    gone.swap(idle_);
}

Status Database::run(const char* what, const std::function<void(pqxx::work&)>& body) {
    Status status;
    for (int attempt = 0; attempt < most_tries; ++attempt) {
        Lease lease = take(status);
        if (lease.empty()) return status;
        try {
            pqxx::work work{*lease, what};
            body(work);
            work.commit();
            return Status::fine();
        } catch (...) {
            status = status_of_current_exception(what);
        }
        if (status.passing()) {
            // The others broke with this one, most likely: a restarted database keeps none.
            lease.drop();
            forget_idle();
            if (!lease.fresh && status.code == StatusCode::unavailable) continue;
            return status;
        }
        if (!worth_another_try(status)) return status;
    }
    return status;
}

}  // namespace courthand::server::postgres
