#include "server/main/open_database.h"

#include "server/main/log.h"
#include "server/store/postgres/migrations.h"

namespace courthand::server {
namespace {

Result<Tournament> only_tournament(MatchStore& store, const std::string& name_of_first) {
    const auto all = store.tournaments();
    if (!all.ok()) return all.status();
    if (!all->empty()) return all->front();
    return store.create_tournament(TournamentId{new_uuid()}, name_of_first);
}

}  // namespace

Result<Tournament> open_tournament(postgres::Database& database, MatchStore& store,
                                   const std::string& name_of_first) {
    const auto migrated = postgres::migrate(database);
    if (!migrated.ok()) return migrated.status();
    if (migrated->applied > 0)
        log(LogLevel::info, "schema-migrated", "version", migrated->version, "applied",
            migrated->applied);
    return only_tournament(store, name_of_first);
}

Result<Tournament> wait_for_tournament(postgres::Database& database, MatchStore& store,
                                       const std::string& name_of_first, StopSignal& stop) {
    Backoff backoff;
    bool waited = false;
    while (true) {
        auto tournament = open_tournament(database, store, name_of_first);
        if (tournament.ok() || !tournament.status().passing()) {
            if (tournament.ok() && waited) log(LogLevel::info, "database-found");
            return tournament;
        }
        waited = true;
        log(LogLevel::warn, "waiting-for-database", "why", tournament.status().message);
        if (stop.within(backoff.next())) return tournament;
    }
}

}  // namespace courthand::server
