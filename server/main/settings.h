// What the command line says.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>

#include "server/auth/caller.h"
#include "server/main/log.h"
#include "server/tournament/name_retention.h"
#include "server/tournament/result_closer.h"

namespace courthand::server {

struct Settings {
    std::string listen = "127.0.0.1:7443";
    std::string database;  ///< DSN; may come from DATABASE_URL
    std::filesystem::path data = "courthand-data";
    LogSettings log;
    bool reflection = false;
    std::string publish;                   ///< where pages for everyone are served; empty: nowhere
    std::filesystem::path publish_folder;  ///< where they are written too; empty: nowhere
    /// Days after the event for which names of persons are kept; 0: until somebody erases them.
    std::uint32_t name_days = tournament::usual_name_days;
    /// Seconds for which a signed record stands before its result goes out.
    std::uint32_t signed_after = tournament::ResultCloser::usual_stand.count();
    std::filesystem::path event;  ///< script that opens an empty tournament; empty: none
    // of `code`
    std::string seat = "table";
    std::uint32_t court = 0;
    std::uint32_t minutes = 15;
    // of `export` and `import`
    std::filesystem::path to;
    bool names = false;
    std::filesystem::path file;
    // of `erase`
    std::optional<std::uint32_t> names_before;
    std::optional<std::uint16_t> person;
};

/// Exit codes, as scripts see them.
inline constexpr int exit_failed = 1;
inline constexpr int exit_bad_usage = 2;
inline constexpr int exit_schema_newer = 3;

/// Each runs one subcommand and answers its exit code.
[[nodiscard]] int serve(const Settings& settings);
[[nodiscard]] int migrate_database(const Settings& settings);
[[nodiscard]] int print_code(const Settings& settings);
[[nodiscard]] int export_to_folder(const Settings& settings);
[[nodiscard]] int import_file(const Settings& settings);
[[nodiscard]] int erase(const Settings& settings);

/// The folder with the venue authority.
[[nodiscard]] inline std::filesystem::path authority_folder(const Settings& settings) {
    return settings.data / "authority";
}

}  // namespace courthand::server
