// The subcommands that do one thing and end: migrate, code.
#include <cstdio>

#include <fmt/format.h>

#include "server/audit/postgres/pg_audit_store.h"
#include "server/auth/enrolment.h"
#include "server/auth/postgres/pg_enrolment_store.h"
#include "server/main/database_words.h"
#include "server/main/open_database.h"
#include "server/main/settings.h"
#include "server/store/postgres/migrations.h"
#include "server/store/postgres/pg_match_store.h"

namespace courthand::server {
namespace {

int fail(const std::string& why) {
    fmt::print(stderr, "courthand-server: {}\n", why);
    return exit_failed;
}

int fail(const Status& status, const Settings& settings) {
    fmt::print(stderr, "courthand-server: {}\n", words_of_failure(status, settings.database));
    return status.code == StatusCode::schema_newer ? exit_schema_newer : exit_failed;
}

}  // namespace

int migrate_database(const Settings& settings) {
    if (const auto wrong = unreadable_database(settings.database, "--database or DATABASE_URL"))
        return fail(*wrong);
    postgres::Database database{settings.database};
    const auto migrated = postgres::migrate(database);
    if (!migrated.ok()) return fail(migrated.status(), settings);
    fmt::print("schema {} ({} applied now)\n", migrated->version, migrated->applied);
    return 0;
}

int print_code(const Settings& settings) {
    if (const auto wrong = unreadable_database(settings.database, "--database or DATABASE_URL"))
        return fail(*wrong);
    const auto seat = auth::seat_of(settings.seat);
    if (!seat) return fail("--seat: must be table, desk or head");
    // A code of an authority that no server has is of no use: only the server makes one.
    if (!std::filesystem::exists(authority_folder(settings)))
        return fail(
            fmt::format("there is no venue in {}; name the folder that the server has as --data",
                        settings.data.string()));
    const auto now = std::chrono::system_clock::now();
    auto authority = auth::Authority::open(authority_folder(settings), now);
    if (!authority.ok()) return fail(authority.status(), settings);
    postgres::Database database{settings.database};
    postgres::PgMatchStore matches{database};
    const auto tournament = open_tournament(database, matches, "Tournament");
    if (!tournament.ok()) return fail(tournament.status(), settings);
    const auto store = auth::make_pg_enrolment_store(database, tournament->id);
    const auto audit_store = audit::make_pg_audit_store(database, tournament->id);
    auth::CodeWish wish;
    wish.seat = *seat;
    wish.court = settings.court;
    wish.lives = std::chrono::minutes{settings.minutes};
    const std::string court = wish.court == 0 ? "" : fmt::format("court {}, ", wish.court);
    // Whoever may call this program has no certificate; the row says where it was done.
    const auto row =
        audit_store->with_act({0, now, std::nullopt, "issue-code", std::string{auth::word(*seat)},
                               court + "on the command line", false});
    const auto code = auth::issue_code(*store, *authority, wish, now);
    if (!code.ok()) return fail(code.status(), settings);
    fmt::print("{}\n", code->text);
    return 0;
}

}  // namespace courthand::server
