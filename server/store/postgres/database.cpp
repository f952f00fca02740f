#include "server/store/postgres/database.h"

#include <fmt/format.h>

#include "server/store/postgres/connection_text.h"
#include "server/store/postgres/store_failure.h"

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

/// No connection is used before the database had the chance to notice that it was put back or
/// took over; one to a standby never gets it, and would outlive the moment when it takes over.
void look_where_it_is(pqxx::connection& connection) {
    pqxx::nontransaction session{connection};
    const pqxx::result row =
        session.exec("select pg_is_in_recovery(), to_regproc('notice_place') is not null");
    if (row[0][0].as<bool>())
        throw StoreFailure{Status::failed(
            StatusCode::unavailable,
            "the database cannot be reached (connecting: it is a standby that takes no changes)",
            "name the database that it follows, or let the standby take over; what was sent is "
            "not lost")};
    if (row[0][1].as<bool>()) session.exec("select notice_place()");
}

}  // namespace

/// A place in the pool while it is in use; gives it back at its end.
class Database::Lease {
  public:
    /// Without a pool: no place was free.
    Lease(Database* pool, WaitLimit::Connection connection, bool is_fresh)
        : fresh{is_fresh}, pool_{pool}, connection_{std::move(connection)} {}
    ~Lease() {
        if (pool_ != nullptr) pool_->give_back(std::move(connection_));
    }
    Lease(const Lease&) = delete;
    Lease& operator=(const Lease&) = delete;

    [[nodiscard]] bool empty() const { return connection_ == nullptr; }
    pqxx::connection& operator*() { return *connection_; }
    [[nodiscard]] const WaitLimit::Connection& share() const { return connection_; }
    void drop() { connection_.reset(); }

    const bool fresh;  ///< opened for this use

  private:
    Database* pool_;
    WaitLimit::Connection connection_;
};

Database::Database(const std::string& dsn, PoolLimits limits)
    : dsn_{with_session_settings(dsn)}, limits_{limits}, commits_{limits.commit} {}
Database::~Database() = default;

void Database::add_statements(Statements statements) {
    {
        const std::scoped_lock lock{mutex_};
        for (Statement& statement : statements) statements_.push_back(std::move(statement));
    }
    // Connections made before do not know the new ones.
    forget_idle();
}

Database::Opened Database::open() {
    try {
        const auto connection = std::make_shared<pqxx::connection>(dsn_);
        never_reconnect(*connection);
        // After a take-over it writes, and that is a commit like any other.
        WaitLimit::Watch watch{commits_};
        watch.begin(connection);
        look_where_it_is(*connection);
        if (watch.end()) return {nullptr, unconfirmed("connecting")};
        const std::scoped_lock lock{mutex_};
        for (const Statement& s : statements_) connection->prepare(s.name, s.sql);
        return {connection, Status::fine()};
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

void Database::give_back(std::shared_ptr<pqxx::connection> connection) {
    {
        const std::scoped_lock lock{mutex_};
        --lent_;
        if (connection && connection->is_open()) idle_.push_back(std::move(connection));
    }
    freed_.notify_one();
}

void Database::forget_idle() {
    std::vector<std::shared_ptr<pqxx::connection>> gone;
    const std::scoped_lock lock{mutex_};
    gone.swap(idle_);
}

Status Database::run(const char* what, const std::function<void(pqxx::work&)>& body) {
    Status status;
    for (int attempt = 0; attempt < most_tries; ++attempt) {
        Lease lease = take(status);
        if (lease.empty()) return status;
        WaitLimit::Watch watch{commits_};
        status = Status::fine();
        try {
            pqxx::work work{*lease, what};
            body(work);
            watch.begin(lease.share());
            work.commit();
        } catch (...) {
            status = status_of_current_exception(what);
        }
        if (watch.end()) {
            lease.drop();
            if (status.ok() || !status.definite()) return unconfirmed(what);
        }
        if (status.ok()) return status;
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

Status Database::run_alone(const char* what,
                           const std::function<void(pqxx::nontransaction&)>& body) {
    Status status;
    Lease lease = take(status);
    if (lease.empty()) return status;
    WaitLimit::Watch watch{commits_};
    try {
        watch.begin(lease.share());
        pqxx::nontransaction session{*lease, what};
        body(session);
    } catch (...) {
        status = status_of_current_exception(what);
    }
    if (watch.end()) {
        lease.drop();
        if (status.ok()) return unconfirmed(what);
    }
    if (!status.passing()) return status;
    lease.drop();
    forget_idle();
    return doubtful(what);
}

Database::Statements Database::statements() const {
    const std::scoped_lock lock{mutex_};
    return statements_;
}

}  // namespace courthand::server::postgres
