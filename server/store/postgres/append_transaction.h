// The group commit as a transaction: reads what the plan needs under locks, and writes what the
// plan says. Whatever was pushed finds its place here; what merely extends a known head is quicker
// by one guarded statement, see head_cache.h.
#pragma once

#include <span>
#include <unordered_map>
#include <vector>

#include "server/store/append_plan.h"
#include "server/store/postgres/database.h"

namespace courthand::server::postgres {

[[nodiscard]] Database::Statements append_statements();

struct AppendOutcome {
    std::vector<AppendResult> results;  ///< one for each item
    Uuid generation;                    ///< of the database, when it was appended
    /// As they are now, of the matches that the items name and the store knows.
    std::unordered_map<MatchId, MatchContext> matches;
};

/// The whole of one append inside `work`; the caller commits.
[[nodiscard]] AppendOutcome append_in(pqxx::work& work, TournamentId tournament,
                                      std::span<const AppendItem> items);

/// The holder of a tournament's row is its sequencer: positions of the feed are given and committed
/// in one order, whichever server appends.
struct Sequencer {
    FeedPosition head = 0;  ///< last position of the feed
    Uuid generation;
};
/// Waits for the row and keeps it until `work` ends. Throws `not_found` as StoreFailure.
[[nodiscard]] Sequencer hold_sequencer(pqxx::work& work, TournamentId tournament);

}  // namespace courthand::server::postgres
