// The group commit: reads what the plan needs under locks, and writes what the plan says.
#pragma once

#include <span>
#include <vector>

#include "server/store/append_plan.h"
#include "server/store/postgres/database.h"

namespace courthand::server::postgres {

[[nodiscard]] Database::Statements append_statements();

/// The whole of one append inside `work`; the caller commits.
[[nodiscard]] std::vector<AppendResult> append_in(pqxx::work& work, TournamentId tournament,
                                                  std::span<const AppendItem> items);

}  // namespace courthand::server::postgres
