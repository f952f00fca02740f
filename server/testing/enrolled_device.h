// An enrolled device for tests, made with the venue's authority and register directly.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

#include "server/auth/caller.h"

namespace courthand::server::testing {

struct EnrolledDevice {
    DeviceId id;
    std::string key_pem;
    std::string certificate_pem;
    std::string authority_pem;
};

/// `data` is the data folder of a server that was ready once. Throws std::runtime_error.
[[nodiscard]] EnrolledDevice enrol_device(const std::string& dsn, const std::filesystem::path& data,
                                          auth::Seat seat, auth::CourtNumber court = 0);

}  // namespace courthand::server::testing
