// What the command line says about a seat.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

#include "client/session/device.h"

namespace courthand::client {

struct SeatOptions {
    Seat seat = Seat::table;
    std::filesystem::path folder;  ///< of the device
    std::string server;            ///< empty: as at enrolment
    std::uint16_t court = 0;       ///< 0: as at enrolment
    bool dark = false;
    bool text = false;  ///< the board as text, head seat only
};

/// Exit codes, as scripts see them.
inline constexpr int exit_fine = 0;
inline constexpr int exit_failed = 1;
inline constexpr int exit_bad_usage = 2;

}  // namespace courthand::client
