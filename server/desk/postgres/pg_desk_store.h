// Teams, lists and courts in PostgreSQL.
#pragma once

#include <memory>

#include "server/desk/desk_store.h"
#include "server/store/postgres/database.h"

namespace courthand::server::desk {

/// `database` must outlive the store.
[[nodiscard]] std::unique_ptr<DeskStore> make_pg_desk_store(postgres::Database& database,
                                                            TournamentId tournament);

}  // namespace courthand::server::desk
