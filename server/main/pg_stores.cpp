#include "server/main/pg_stores.h"

#include "server/audit/postgres/pg_audit_store.h"
#include "server/auth/postgres/pg_enrolment_store.h"
#include "server/desk/postgres/pg_former_tables.h"
#include "server/venue/postgres/pg_alert_store.h"

namespace courthand::server {

PgStores::PgStores(Foundation& foundation, TournamentId tournament)
    : foundation_{foundation},
      audit_{audit::make_pg_audit_store(foundation.database, tournament)},
      enrolments_{auth::make_pg_enrolment_store(foundation.database, tournament)},
      watched_enrolments_{auth::make_pg_enrolment_store(foundation.watch_database, tournament)},
      alerts_{venue::make_pg_alert_store(foundation.watch_database, tournament)},
      former_{desk::make_pg_former_tables(foundation.database, tournament)},
      facts_{foundation.database, foundation.matches},
      refused_{foundation.watch_database, tournament},
      heard_{foundation.watch_database, tournament} {
    // An act leaves its row of the audit and its notice in its own transaction, also there.
    foundation.watch_database.add_statements(foundation.database.statements());
}

Stores PgStores::stores() {
    return {foundation_.matches,
            foundation_.path,
            *enrolments_,
            *watched_enrolments_,
            *alerts_,
            refused_,
            heard_,
            *audit_,
            facts_,
            [this](const MatchStore::Listener& listener) {
                foundation_.path.set_listener(listener);
                foundation_.matches.set_own_listener(listener);
            },
            former_.get()};
}

}  // namespace courthand::server
