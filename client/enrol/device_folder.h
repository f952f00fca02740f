// Key and certificates of a device in its folder, readable by its owner alone.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <variant>

#include "client/sync/grpc_courier.h"

namespace courthand::client {

/// Writes the three files (mode 600), all of them durable before it returns. A sentence on failure.
[[nodiscard]] std::optional<std::string> save_credentials(const std::filesystem::path& folder,
                                                          const Credentials& credentials);
/// Reads them, or says that the device must be enrolled first.
[[nodiscard]] std::variant<Credentials, std::string> load_credentials(
    const std::filesystem::path& folder);

}  // namespace courthand::client
