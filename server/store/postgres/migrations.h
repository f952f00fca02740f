// Numbered changes of the schema, built into the program from server/migrations/.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include "server/store/postgres/database.h"
#include "server/store/status.h"

namespace courthand::server::postgres {

struct Migration {
    std::uint32_t number = 0;  ///< from the file's name, from 1
    std::string_view name;
    std::string_view sql;
};

/// All migrations of this program, ascending. Generated at build time.
[[nodiscard]] std::span<const Migration> migrations() noexcept;

struct Migrated {
    std::uint32_t applied = 0;  ///< how many were applied now
    std::uint32_t version = 0;  ///< the highest number that is in force
};

/// Brings the database to the newest schema: each change in a transaction of its own, under an
/// advisory lock, so that several servers may start at once. `schema_newer` when the database was
/// made by a newer program: nothing is touched then.
[[nodiscard]] Result<Migrated> migrate(Database& database);

}  // namespace courthand::server::postgres
