// Connections to PostgreSQL: a bounded pool, retried transactions, one map of errors.
//
// A connection is used by one thread at a time. After an error of the connection it is dropped and
// a new one is made; statements are registered on every new connection. Thread-safe.
// Only files under store/postgres/ and the PostgreSQL twins of other stores include this.
#pragma once

#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <pqxx/pqxx>
#include <string>
#include <utility>
#include <vector>

#include "server/store/postgres/wait_limit.h"
#include "server/store/status.h"

namespace courthand::server::postgres {

/// A statement that every connection knows; prepared on its first use.
struct Statement {
    std::string name;
    std::string sql;
};

/// More would only queue inside the database: ingest needs one, readers a few.
inline constexpr std::size_t most_connections = 10;
/// A transaction that lost against another is tried again; more often points to a bug.
inline constexpr int most_tries = 4;

/// How many connections one program opens, and how long a call waits for one that is free.
struct PoolLimits {
    std::size_t connections = most_connections;
    /// Longer than a healthy database ever needs, shorter than a table waits for its answer.
    std::chrono::milliseconds wait{5000};
    /// How long a commit is waited for: a slow disk takes a second. It is long before a server that
    /// is asked to stop is killed, even when several wait one behind the other.
    std::chrono::milliseconds commit{4000};
};

class Database {
  public:
    using Statements = std::vector<Statement>;

    /// Connects only when first used. `dsn` is a URI or keywords as libpq reads them.
    explicit Database(const std::string& dsn, PoolLimits limits = {});
    ~Database();
    Database(const Database&) = delete;
    Database& operator=(const Database&) = delete;

    /// Each store that shares the database adds its own, before any of its calls.
    void add_statements(Statements statements);

    /// Runs `body(pqxx::work&)` and commits. The body must be repeatable: it runs again when the
    /// transaction lost against another, or when an idle connection turned out to be dead.
    /// `exhausted` when no connection became free in time, `in_doubt` when the connection broke
    /// during the commit, or the commit took longer than the limit.
    template <class Body>
    auto perform(const char* what, Body&& body)
        -> Result<decltype(body(std::declval<pqxx::work&>()))> {
        using Value = decltype(body(std::declval<pqxx::work&>()));
        std::optional<Value> value;
        Status status = run(what, [&](pqxx::work& work) { value.emplace(body(work)); });
        if (!status.ok()) return status;
        return std::move(*value);
    }
    /// The same for a body that answers nothing.
    [[nodiscard]] Status run(const char* what, const std::function<void(pqxx::work&)>& body);

    /// Runs `body(pqxx::nontransaction&)` once, each of its statements committed by itself. When
    /// the connection breaks meanwhile, or a limit ends the statement, the status is `in_doubt`;
    /// `unavailable` and `exhausted` say that nothing was sent.
    [[nodiscard]] Status run_alone(const char* what,
                                   const std::function<void(pqxx::nontransaction&)>& body);

    /// All statements, as they were added.
    [[nodiscard]] Statements statements() const;

    /// A connection of one's own, e.g. to listen on; null with the reason when there is none. It
    /// does not count among those of the pool.
    struct Opened {
        std::shared_ptr<pqxx::connection> connection;
        Status status;
    };
    [[nodiscard]] Opened open();

    /// Drops idle connections, so that the next call makes new ones.
    void forget_idle();

  private:
    class Lease;

    /// Waits for a free place; an empty lease when none came in time or none could be opened.
    [[nodiscard]] Lease take(Status& status);
    void give_back(std::shared_ptr<pqxx::connection> connection);

    const std::string dsn_;
    const PoolLimits limits_;
    mutable std::mutex mutex_;
    std::condition_variable freed_;
    Statements statements_;
    std::size_t lent_ = 0;
    std::vector<std::shared_ptr<pqxx::connection>> idle_;
    WaitLimit commits_;
};

/// Maps the exception now handled. The one place where exceptions of libpqxx end. The text names
/// neither host nor user of the database: it may go to anybody.
[[nodiscard]] Status status_of_current_exception(const char* what);

/// The connection broke, or a limit ended the statement: it may or may not have been kept.
[[nodiscard]] Status doubtful(const char* what);

/// The limit ended the wait for a commit: kept by this database, most likely, not by its standby.
[[nodiscard]] Status unconfirmed(const char* what);
[[nodiscard]] bool is_unconfirmed(const Status& status) noexcept;

/// The transaction lost against another and may be tried again at once.
[[nodiscard]] bool worth_another_try(const Status& status) noexcept;

}  // namespace courthand::server::postgres
