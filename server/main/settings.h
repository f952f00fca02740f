// What the command line says.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

#include "server/auth/caller.h"
#include "server/main/log.h"

namespace courthand::server {

struct Settings {
    std::string listen = "127.0.0.1:7443";
    std::string database;  ///< DSN; may come from DATABASE_URL
    std::filesystem::path data = "courthand-data";
    LogSettings log;
    bool reflection = false;
    bool demo = false;
    // of `code`
    std::string seat = "table";
    std::uint32_t court = 0;
    std::uint32_t minutes = 15;
};

/// Exit codes, as scripts see them.
inline constexpr int exit_failed = 1;
inline constexpr int exit_bad_usage = 2;
inline constexpr int exit_schema_newer = 3;

/// Each runs one subcommand and answers its exit code.
[[nodiscard]] int serve(const Settings& settings);
[[nodiscard]] int migrate_database(const Settings& settings);
[[nodiscard]] int print_code(const Settings& settings);

/// The folder with the venue authority.
[[nodiscard]] inline std::filesystem::path authority_folder(const Settings& settings) {
    return settings.data / "authority";
}

}  // namespace courthand::server
