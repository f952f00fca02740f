// The tables of earlier programs in PostgreSQL: team, roster, court.
#pragma once

#include <memory>

#include "server/desk/former_tables.h"
#include "server/store/postgres/database.h"

namespace courthand::server::desk {

/// `database` must outlive it.
[[nodiscard]] std::unique_ptr<FormerTableStore> make_pg_former_tables(postgres::Database& database,
                                                                      TournamentId tournament);

}  // namespace courthand::server::desk
