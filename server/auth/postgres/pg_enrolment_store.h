// Enrolment codes and devices in PostgreSQL.
#pragma once

#include <memory>

#include "server/auth/enrolment_store.h"
#include "server/store/postgres/database.h"

namespace courthand::server::auth {

/// `database` must outlive the store.
[[nodiscard]] std::unique_ptr<EnrolmentStore> make_pg_enrolment_store(postgres::Database& database,
                                                                      TournamentId tournament);

}  // namespace courthand::server::auth
