// courthand-server: command line only; everything else is a library.
#include <CLI/CLI.hpp>
#include <cstdlib>
#include <exception>

#include <fmt/format.h>

#include "courthand/event/limits.h"
#include "server/main/settings.h"
#include "server/main/version.h"
#include "wire/tls_floor.h"

namespace {

using courthand::server::Settings;

void add_database(CLI::App& app, Settings& settings) {
    app.add_option("--database", settings.database,
                   "the PostgreSQL database: postgresql://USER@HOST:PORT/NAME")
        ->envname("DATABASE_URL")
        ->required();
}

void add_data(CLI::App& app, Settings& settings) {
    app.add_option("--data", settings.data,
                   "folder in which the server keeps the keys of the venue")
        ->capture_default_str();
}

void add_serve(CLI::App& app, Settings& settings) {
    app.add_option("--listen", settings.listen, "address and port; port 0 takes a free one")
        ->capture_default_str();
    add_database(app, settings);
    add_data(app, settings);
    app.add_option("--log-level", settings.log.level, "how much is logged")
        ->check(CLI::IsMember({"trace", "debug", "info", "warn", "error", "off"}))
        ->capture_default_str();
    app.add_option("--log-file", settings.log.file, "log file (default: standard error)");
    app.add_option(
        "--publish", settings.publish,
        "address and port of the pages for everyone in the hall, without names of persons; "
        "without it there are none");
    app.add_option("--publish-folder", settings.publish_folder,
                   "folder in which these pages are written too, for another web server");
    app.add_flag("--reflection", settings.reflection, "offer gRPC reflection, for developers");
    app.add_option("--name-days", settings.name_days,
                   "names of persons are erased so many days after the last day of the event; 0: "
                   "they are kept until somebody erases them")
        ->check(CLI::Range(0U, 3650U))
        ->capture_default_str();
    app.add_option("--signed-after", settings.signed_after,
                   "where signatures confirm: seconds for which a signed record stands before its "
                   "result goes out, so that a signature touched by mistake can be undone")
        ->check(CLI::Range(0U, 600U))
        ->capture_default_str();
    app.add_option(
           "--event", settings.event,
           "event script (.event) that opens an empty tournament: courts, teams, draw, plan")
        ->check(CLI::ExistingFile);
}

void add_code(CLI::App& app, Settings& settings) {
    add_database(app, settings);
    add_data(app, settings);
    app.add_option("--seat", settings.seat, "table, desk or head")
        ->check(CLI::IsMember({"table", "desk", "head"}))
        ->capture_default_str();
    app.add_option("--court", settings.court, "court of a table")
        ->check(CLI::Range(0U, courthand::server::auth::most_courts));
    app.add_option("--minutes", settings.minutes, "how long the code is good")
        ->check(CLI::Range(1, 1440))
        ->capture_default_str();
}

void add_export(CLI::App& app, Settings& settings) {
    add_database(app, settings);
    app.add_option("--to", settings.to, "folder for the files; it must not be there yet")
        ->required();
    app.add_flag("--with-names", settings.names,
                 "also the names of persons, and the reasons and notes, which may name somebody");
}

void add_import(CLI::App& app, Settings& settings) {
    add_database(app, settings);
    app.add_option("file", settings.file, "the event file, event.jsonl of an export")->required();
}

void add_erase(CLI::App& app, Settings& settings) {
    add_database(app, settings);
    CLI::Option_group* const which = app.add_option_group("names", "whose names");
    which
        ->add_option("--names-before", settings.names_before,
                     "of all persons, if the last day of the event is more than so many days ago")
        ->check(CLI::Range(0U, 36500U));
    which->add_option("--person", settings.person, "of the person with this number")
        ->check(CLI::Range(1U, std::uint32_t{courthand::event::most_persons}));
    which->require_option(1);
}

}  // namespace

int main(int argc, char** argv) {
    courthand::wire::require_tls_1_3();
    Settings settings;
    CLI::App app{"The server of a Courthand venue: keeps the record of every match."};
    app.set_version_flag("--version",
                         std::string{"courthand-server "} + courthand::server::version);
    app.require_subcommand(1);
    CLI::App* const serve = app.add_subcommand("serve", "serves the venue until it is stopped");
    add_serve(*serve, settings);
    CLI::App* const migrate =
        app.add_subcommand("migrate", "prepares the database for this version (serve does so too)");
    add_database(*migrate, settings);
    CLI::App* const code = app.add_subcommand("code", "prints a one-use code that enrols a device");
    add_code(*code, settings);
    CLI::App* const exported = app.add_subcommand("export", "writes the whole event into a folder");
    add_export(*exported, settings);
    CLI::App* const imported =
        app.add_subcommand("import", "brings an exported event into an empty database");
    add_import(*imported, settings);
    CLI::App* const erased =
        app.add_subcommand("erase", "erases names of persons for good; the record still holds");
    add_erase(*erased, settings);
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        return app.exit(error) == 0 ? 0 : courthand::server::exit_bad_usage;
    }
    try {
        if (serve->parsed()) return courthand::server::serve(settings);
        if (migrate->parsed()) return courthand::server::migrate_database(settings);
        if (exported->parsed()) return courthand::server::export_to_folder(settings);
        if (imported->parsed()) return courthand::server::import_file(settings);
        if (erased->parsed()) return courthand::server::erase(settings);
        return courthand::server::print_code(settings);
    } catch (const std::exception& error) {
        fmt::print(stderr, "courthand-server: {}\n", error.what());
        return courthand::server::exit_failed;
    }
}
