// courthand-tables: simulated tables that play matches, and a desk that confirms them, through the
// real client library.
#include <CLI/CLI.hpp>

#include <atomic>
#include <csignal>
#include <cstdio>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include <fmt/format.h>

#include "client/tables/simulated_desk.h"
#include "client/tables/simulated_table.h"
#include "wire/tls_floor.h"

namespace {

std::atomic<bool> stop_asked{false};
static_assert(std::atomic<bool>::is_always_lock_free, "set from a signal handler");

void ask_to_stop(int) {
    stop_asked = true;
}

struct Settings {
    std::string server;
    std::vector<std::string> folders;
    double pace = 2.0;
    std::uint64_t seed = 1;
    std::uint64_t rallies = 0;
    std::string profile = "international-2025";
    bool waits_for_desk = false;
    bool signs = false;
    std::string desk;
};

int run_tables(const Settings& settings) {
    std::mutex print_mutex;
    const std::function<void(const std::string&)> say = [&print_mutex](const std::string& line) {
        const std::scoped_lock lock{print_mutex};
        std::puts(line.c_str());
        std::fflush(stdout);
    };
    std::atomic<int> failed{0};
    std::vector<std::thread> tables;
    for (std::size_t i = 0; i < settings.folders.size(); ++i) {
        courthand::client::SimulatedTableOptions options;
        options.folder = settings.folders[i];
        options.server = settings.server;
        options.pace = settings.pace;
        options.seed = settings.seed + i;
        options.rallies = settings.rallies;
        options.profile = settings.profile;
        options.waits_for_desk = settings.waits_for_desk;
        options.signs = settings.signs;
        tables.emplace_back([options, &say, &failed] {
            const std::string wrong =
                courthand::client::run_simulated_table(options, stop_asked, say);
            if (wrong.empty()) return;
            ++failed;
            say(fmt::format("{}: {}", options.folder.string(), wrong));
        });
    }
    if (!settings.desk.empty()) {
        courthand::client::SimulatedDeskOptions options;
        options.folder = settings.desk;
        options.server = settings.server;
        options.seed = settings.seed;
        tables.emplace_back([options, &say, &failed] {
            const std::string wrong =
                courthand::client::run_simulated_desk(options, stop_asked, say);
            if (wrong.empty()) return;
            ++failed;
            say(fmt::format("{}: {}", options.folder.string(), wrong));
        });
    }
    for (std::thread& table : tables) table.join();
    return failed == 0 ? 0 : 1;
}

}  // namespace

int main(int argc, char** argv) {
    courthand::wire::require_tls_1_3();
    Settings settings;
    CLI::App app{"Simulated tables: each plays matches on its court as an enrolled device would."};
    app.add_option("--server", settings.server, "HOST:PORT; default: as at enrolment");
    app.add_option("--device-dir", settings.folders, "folder of an enrolled table, repeatable");
    app.add_option("--desk-dir", settings.desk,
                   "folder of an enrolled desk: confirms results, draws lots")
        ->check(CLI::ExistingDirectory);
    app.add_flag("--planned-only", settings.waits_for_desk,
                 "tables open no match by themselves: they wait for the desk's");
    app.add_flag("--sign", settings.signs, "captains and officials sign each result");
    app.add_option("--pace", settings.pace, "seconds a rally takes; 0: as fast as possible")
        ->check(CLI::Range(0.0, 3600.0))
        ->capture_default_str();
    app.add_option("--seed", settings.seed, "the same seed plays the same way")
        ->capture_default_str();
    app.add_option("--rallies", settings.rallies,
                   "stop after so many rallies a table, once all is sent; 0: go on")
        ->capture_default_str();
    app.add_option("--profile", settings.profile, "rule profile of matches a table opens itself")
        ->capture_default_str();
    app.set_version_flag("--version", std::string{"courthand-tables " COURTHAND_VERSION});
    CLI11_PARSE(app, argc, argv);
    if (settings.folders.empty() && settings.desk.empty()) {
        fmt::print(stderr,
                   "courthand-tables: no device is named; add --device-dir or --desk-dir\n");
        return 2;
    }
    std::signal(SIGINT, ask_to_stop);
    std::signal(SIGTERM, ask_to_stop);
    std::signal(SIGPIPE, SIG_IGN);
    return run_tables(settings);
}
