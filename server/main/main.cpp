// courthand-server: command line only; everything else is a library.
#include <CLI/CLI.hpp>
#include <cstdlib>
#include <exception>

#include <fmt/format.h>

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
    app.add_flag("--reflection", settings.reflection, "offer gRPC reflection, for developers");
    app.add_flag("--demo", settings.demo, "fill an empty tournament with the Harbour Cup");
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
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        return app.exit(error) == 0 ? 0 : courthand::server::exit_bad_usage;
    }
    try {
        if (serve->parsed()) return courthand::server::serve(settings);
        if (migrate->parsed()) return courthand::server::migrate_database(settings);
        return courthand::server::print_code(settings);
    } catch (const std::exception& error) {
        fmt::print(stderr, "courthand-server: {}\n", error.what());
        return courthand::server::exit_failed;
    }
}
