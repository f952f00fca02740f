// The composition root: makes every part of the server and holds them in the order in which they
// depend on each other. What is declared later is destroyed first.
#pragma once

#include "server/audit/audit_trail.h"
#include "server/auth/authority.h"
#include "server/auth/device_register.h"
#include "server/domain/ingest.h"
#include "server/domain/match_keeper.h"
#include "server/domain/presence.h"
#include "server/domain/refusals.h"
#include "server/domain/work_queue.h"
#include "server/feed/follower.h"
#include "server/feed/hub.h"
#include "server/main/event_log.h"
#include "server/main/server_identity.h"
#include "server/service/court_rights.h"
#include "server/service/response_stamp.h"
#include "server/service/stream_registry.h"
#include "server/service/sync_parts.h"
#include "server/service/venue_area.h"
#include "server/store/postgres/database.h"
#include "server/store/postgres/pg_match_store.h"

namespace courthand::server {

/// Threads that turn news into messages for the watchers; they never wait for the database.
inline constexpr std::size_t hub_threads = 2;

/// Connections of the path from table to board: one appends, one follows. Neither ever waits for a
/// free one, however many of the others ask and however long they hold theirs.
inline constexpr postgres::PoolLimits path_pool{2, std::chrono::milliseconds{5000}};

/// Connections of what watches over the venue: one keeps the alerts and one looks for revocations,
/// and both also for the acts of desk and head; the others ask for devices that are not known. None
/// of them waits for a free one.
inline constexpr postgres::PoolLimits watch_pool{
    2 + WorkQueue::threads_of(Lane::writes) + auth::DeviceRegister::most_lookups,
    std::chrono::milliseconds{5000}};

static_assert(WorkQueue::threads_of_all() + 1 <= postgres::most_connections,
              "each thread of the lanes, and the one of the audit, finds a free connection");

/// What stands before the tournament is known: only the database.
struct Foundation {
    explicit Foundation(const std::string& dsn)
        : database{dsn},
          matches{database},
          path_database{dsn, path_pool},
          path{path_database},
          watch_database{dsn, watch_pool} {}
    /// Of the lanes of work and of the audit.
    postgres::Database database;
    postgres::PgMatchStore matches;
    postgres::Database path_database;
    postgres::PgMatchStore path;
    postgres::Database watch_database;
};

/// Everything of one tournament.
class Composition {
  public:
    struct Basis {
        Foundation& foundation;
        Tournament tournament;
        ServerName name;
        const auth::Authority& authority;
    };
    /// `report`: the store cannot be read, or can be again.
    Composition(Basis basis_, Follower::Report report);
    ~Composition() { stop(); }
    Composition(const Composition&) = delete;
    Composition& operator=(const Composition&) = delete;

    /// Fills an empty tournament with the Harbour Cup.
    [[nodiscard]] Status fill_demo();
    /// Reads and folds everything that is stored, then follows. On failure it may be called again.
    [[nodiscard]] Status start();
    /// Ends the threads that serve; nothing may call any more.
    void stop();

    [[nodiscard]] service::SyncParts sync_parts();

    Basis basis;
    EventLog event_log;
    MatchKeeper keeper;
    Presence presence;
    Hub hub{hub_threads};
    service::ResponseStamp stamp;
    std::unique_ptr<audit::AuditStore> audit_store;
    audit::AuditTrail audit;
    service::CourtRights rights;
    Refusals refusals;
    service::StreamRegistry streams;
    service::VenueArea venue;
    Waking waking;
    Follower follower;
    Ingest ingest;
    WorkQueue work;

  private:
    bool venue_started_ = false;
};

}  // namespace courthand::server
