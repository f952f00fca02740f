// The lives of alerts in PostgreSQL.
#pragma once

#include <memory>

#include "server/alerts/alert_store.h"
#include "server/store/postgres/database.h"

namespace courthand::server::venue {

/// `database` must outlive the store and serve the store of matches too, whose feed it adds to.
[[nodiscard]] std::unique_ptr<alerts::AlertStore> make_pg_alert_store(postgres::Database& database,
                                                                      TournamentId tournament);

}  // namespace courthand::server::venue
