// The stores of one tournament in PostgreSQL, and who has which connections.
#pragma once

#include <memory>
#include <string>

#include "server/auth/device_register.h"
#include "server/domain/work_queue.h"
#include "server/main/stores.h"
#include "server/store/postgres/database.h"
#include "server/store/postgres/pg_match_store.h"
#include "server/tournament/postgres/pg_fact_store.h"
#include "server/venue/postgres/pg_heard_store.h"
#include "server/venue/postgres/pg_refusal_store.h"

namespace courthand::server {

/// Connections of the path from table to board: one appends, one follows. Neither ever waits for a
/// free one, however many of the others ask and however long they hold theirs.
inline constexpr postgres::PoolLimits path_pool{2, std::chrono::milliseconds{5000}};

/// Connections of what watches over the venue: one keeps the alerts and one looks for revocations,
/// and both also for the acts of desk and head; the others ask for devices that are not known. None
/// of them waits for a free one.
inline constexpr postgres::PoolLimits watch_pool{
    2 + WorkQueue::threads_of(Lane::writes) + auth::DeviceRegister::most_lookups,
    std::chrono::milliseconds{5000}};

static_assert(WorkQueue::threads_of_all() + 2 <= postgres::most_connections,
              "each thread of the lanes, that of the audit and that which opens matches finds a "
              "free connection");

/// What stands before the tournament is known: only the database.
struct Foundation {
    explicit Foundation(const std::string& dsn)
        : database{dsn},
          matches{database},
          path_database{dsn, path_pool},
          path{path_database},
          watch_database{dsn, watch_pool} {}
    /// Of the lanes of work, of the audit and of the opener of matches.
    postgres::Database database;
    postgres::PgMatchStore matches;
    postgres::Database path_database;
    postgres::PgMatchStore path;
    /// Of alerts, revocations and devices that are not known: whoever holds all connections of the
    /// others holds up none of them.
    postgres::Database watch_database;
};

/// Of one tournament.
class PgStores {
  public:
    /// `foundation` outlives it.
    PgStores(Foundation& foundation, TournamentId tournament);

    [[nodiscard]] Stores stores();

  private:
    Foundation& foundation_;
    std::unique_ptr<audit::AuditStore> audit_;
    std::unique_ptr<auth::EnrolmentStore> enrolments_;
    std::unique_ptr<auth::EnrolmentStore> watched_enrolments_;
    std::unique_ptr<alerts::AlertStore> alerts_;
    std::unique_ptr<desk::FormerTableStore> former_;
    tournament::PgFactStore facts_;
    venue::PgRefusalStore refused_;
    venue::PgHeardStore heard_;
};

}  // namespace courthand::server
