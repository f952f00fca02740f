// The subcommands for a whole event: export, import, erase.
#include <cstdio>

#include <fmt/format.h>

#include "server/audit/postgres/pg_audit_store.h"
#include "server/export/event_export.h"
#include "server/export/folder_sink.h"
#include "server/export/postgres/event_import.h"
#include "server/main/database_words.h"
#include "server/main/name_keeper.h"
#include "server/main/settings.h"
#include "server/store/postgres/migrations.h"
#include "server/store/postgres/pg_match_store.h"
#include "server/tournament/postgres/pg_fact_store.h"

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

/// The one tournament of the database; it is not made here.
Result<Tournament> there(MatchStore& matches) {
    const auto all = matches.tournaments();
    if (!all.ok()) return all.status();
    if (!all->empty()) return all->front();
    return Status::failed(StatusCode::not_found, "there is no tournament in this database",
                          "name the one that the server uses");
}

/// Does the work on the database of the settings, once it has the schema of this program.
template <class Work>
int with_database(const Settings& settings, Work work) {
    if (const auto wrong = unreadable_database(settings.database, "--database or DATABASE_URL"))
        return fail(*wrong);
    postgres::Database database{settings.database};
    if (const auto migrated = postgres::migrate(database); !migrated.ok())
        return fail(migrated.status(), settings);
    return work(database);
}

/// The event that a database holds.
struct HeldEvent {
    postgres::Database& database;
    const Tournament& tournament;
    postgres::PgMatchStore& matches;
    tournament::PgFactStore& facts;
};

template <class Work>
int with_event(const Settings& settings, Work work) {
    return with_database(settings, [&](postgres::Database& database) {
        postgres::PgMatchStore matches{database};
        tournament::PgFactStore facts{database, matches};
        const auto tournament = there(matches);
        if (!tournament.ok()) return fail(tournament.status(), settings);
        return work(HeldEvent{database, *tournament, matches, facts});
    });
}

int export_from(const HeldEvent& event, const Settings& settings) {
    exports::FolderSink folder{settings.to};
    Status status = folder.open();
    if (status.ok())
        status = exports::export_event(event.tournament, event.matches, event.facts,
                                       {settings.names}, folder);
    if (status.ok()) status = folder.finish();
    if (!status.ok()) return fail(status, settings);
    fmt::print("\"{}\" is in {}\n", event.tournament.name, settings.to.string());
    return 0;
}

int import_into(postgres::Database& database, const Settings& settings) {
    std::vector<event_file::Fault> faults;
    const auto imported = exports::import_event(settings.file, database, faults);
    for (const event_file::Fault& fault : faults)
        fmt::print(stderr, "{}:{}: {}; {}\n", settings.file.string(), fault.line, fault.message,
                   fault.cure);
    if (!imported.ok()) return fail(imported.status(), settings);
    fmt::print("\"{}\": {} facts, {} matches with {} entries{}{}\n", imported->verdict.name,
               imported->verdict.head.seq, imported->verdict.matches, imported->verdict.entries,
               event_file::beside_words(imported->verdict),
               imported->had ? "; the database had them already" : "");
    return 0;
}

int erase_from(const HeldEvent& event, const Settings& settings) {
    const TournamentId id = event.tournament.id;
    const auto audit_store = audit::make_pg_audit_store(event.database, id);
    const auto now = std::chrono::system_clock::now();
    const std::string who =
        settings.person ? fmt::format("person {}", *settings.person) : "all persons";
    const auto row = audit_store->with_act(erased_row(now, who, "on the command line"));
    const auto erased = settings.person
                            ? tournament::erase_names(event.facts, id, {settings.person})
                            : tournament::erase_names_due(event.facts, id, day_of(now),
                                                          settings.names_before.value_or(0));
    if (!erased.ok()) return fail(erased.status(), settings);
    fmt::print("{} names erased\n", erased->count);
    return 0;
}

}  // namespace

int export_to_folder(const Settings& settings) {
    return with_event(settings,
                      [&](const HeldEvent& event) { return export_from(event, settings); });
}

int import_file(const Settings& settings) {
    return with_database(
        settings, [&](postgres::Database& database) { return import_into(database, settings); });
}

int erase(const Settings& settings) {
    return with_event(settings,
                      [&](const HeldEvent& event) { return erase_from(event, settings); });
}

}  // namespace courthand::server
