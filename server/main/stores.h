// Where everything of one tournament is kept: what the server needs of a database, and no more.
// PostgreSQL fills it (main/pg_stores.h), and so do stores in memory (main/memory_stores.h), on
// which a whole venue runs in one process.
#pragma once

#include <functional>

#include "server/alerts/alert_store.h"
#include "server/audit/audit_store.h"
#include "server/auth/enrolment_store.h"
#include "server/desk/former_tables.h"
#include "server/store/match_store.h"
#include "server/tournament/fact_store.h"
#include "server/venue/heard_store.h"
#include "server/venue/refusal_store.h"

namespace courthand::server {

/// All of it outlives what works with it.
struct Stores {
    MatchStore& matches;  ///< of calls
    /// Of the path from table to board: it never waits for what calls wait for.
    MatchStore& path;
    auth::EnrolmentStore& enrolments;  ///< of calls
    /// Of what watches over the venue, likewise apart, and so are the next three.
    auth::EnrolmentStore& watched_enrolments;
    alerts::AlertStore& alerts;
    venue::RefusalStore& refused;
    venue::HeardStore& heard;
    audit::AuditStore& audit;
    tournament::FactStore& facts;
    /// Calls back after each commit that added to a feed, through whichever store; an empty one
    /// ends it.
    std::function<void(const MatchStore::Listener&)> listen;
    /// Where earlier programs kept what is in the record now; null: nowhere.
    desk::FormerTableStore* former = nullptr;
};

}  // namespace courthand::server
