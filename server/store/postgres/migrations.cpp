#include "server/store/postgres/migrations.h"

#include <set>

#include <fmt/format.h>

#include "server/store/postgres/store_failure.h"

namespace courthand::server::postgres {
namespace {

/// Any constant will do, as long as nothing else of ours locks it.
constexpr const char* lock_schema = "select pg_advisory_xact_lock(7205759403792801)";
constexpr const char* make_version_table =
    "create table if not exists schema_version ("
    "number integer primary key, name text not null, applied_at timestamptz not null default "
    "now())";

std::set<std::uint32_t> applied_numbers(pqxx::work& work) {
    work.exec(lock_schema);
    work.exec(make_version_table);
    std::set<std::uint32_t> numbers;
    for (const auto& row : work.exec("select number from schema_version"))
        numbers.insert(row[0].as<std::uint32_t>());
    return numbers;
}

void stop_when_newer(const std::set<std::uint32_t>& applied) {
    const std::uint32_t newest = migrations().empty() ? 0 : migrations().back().number;
    if (applied.empty() || *applied.rbegin() <= newest) return;
    throw StoreFailure{
        Status::failed(StatusCode::schema_newer,
                       fmt::format("the database has schema {}, this program knows {} at most",
                                   *applied.rbegin(), newest),
                       "install the newer courthand-server that made it, or use another database")};
}

}  // namespace

Result<Migrated> migrate(Database& database) {
    Migrated migrated;
    for (const Migration& migration : migrations()) {
        const Result<bool> done = database.perform("migrate", [&](pqxx::work& work) {
            const std::set<std::uint32_t> applied = applied_numbers(work);
            stop_when_newer(applied);
            if (applied.contains(migration.number)) return false;
            // A change of a large table takes as long as it takes.
            work.exec("set local statement_timeout = 0");
            work.exec(std::string{migration.sql});
            work.exec_params("insert into schema_version (number, name) values ($1, $2)",
                             migration.number, std::string{migration.name});
            return true;
        });
        if (!done.ok()) return done.status();
        if (*done) ++migrated.applied;
        migrated.version = migration.number;
    }
    return migrated;
}

}  // namespace courthand::server::postgres
