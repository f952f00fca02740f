// The append of the store: in one statement when the heads are known, else in a transaction.
#include "server/store/postgres/append_transaction.h"
#include "server/store/postgres/pg_match_store.h"

namespace courthand::server::postgres {

Result<std::vector<AppendResult>> PgMatchStore::append(TournamentId tournament,
                                                       std::span<const AppendItem> items) {
    // The sequencer's row would make them wait for each other anyway.
    const std::scoped_lock lock{append_mutex_};
    bool doubt = false;
    auto results = append_quickly(tournament, items, doubt);
    if (!results) results = append_with_care(tournament, items);
    // The first attempt may be kept, whatever became of the second.
    if (doubt && !results->ok() && results->status().passing()) results = doubtful("append");
    if (results->ok()) tell(tournament);
    return *std::move(results);
}

std::optional<Result<std::vector<AppendResult>>> PgMatchStore::append_quickly(
    TournamentId tournament, std::span<const AppendItem> items, bool& doubt) {
    HeadCache& cache = known_heads_[tournament];
    const auto append = quick_append(cache, items);
    if (!append) return std::nullopt;
    std::vector<AppendResult> results;
    const Status status = database_.run_alone("append", [&](pqxx::nontransaction& session) {
        results = quick_append_in(session, tournament, *append, items);
    });
    if (status.ok()) {
        for (const QuickAppend::Moved& moved : append->matches)
            cache.move(moved.match, moved.after);
        return results;
    }
    // A transaction would wait for the standby as long once more.
    if (is_unconfirmed(status)) {
        cache.forget();
        return status;
    }
    if (status.code == StatusCode::unavailable || status.code == StatusCode::exhausted)
        return status;
    doubt = !status.definite();
    return std::nullopt;
}

Result<std::vector<AppendResult>> PgMatchStore::append_with_care(
    TournamentId tournament, std::span<const AppendItem> items) {
    HeadCache& cache = known_heads_[tournament];
    auto outcome = database_.perform(
        "append", [&](pqxx::work& work) { return append_in(work, tournament, items); });
    if (!outcome.ok()) {
        cache.forget();
        return outcome.status();
    }
    cache.learn(*outcome);
    return std::move(outcome->results);
}

}  // namespace courthand::server::postgres
