// The audit in PostgreSQL.
#pragma once

#include <memory>

#include "server/audit/audit_store.h"
#include "server/store/postgres/database.h"

namespace courthand::server::audit {

/// `database` must outlive the store.
[[nodiscard]] std::unique_ptr<AuditStore> make_pg_audit_store(postgres::Database& database,
                                                              TournamentId tournament);

}  // namespace courthand::server::audit
