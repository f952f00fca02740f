// Who this server is over its restarts: an id and a count of its starts, kept in the data folder.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

namespace courthand::server {

struct ServerName {
    std::string id;
    std::uint64_t starts = 0;
};

/// Reads the file, counts this start and writes it back durably. Throws std::runtime_error with a
/// plain text when the folder cannot be written.
[[nodiscard]] ServerName count_start(const std::filesystem::path& data);

}  // namespace courthand::server
