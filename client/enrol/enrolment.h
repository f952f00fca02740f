// Enrolling this device: a one-use code from the desk is exchanged for a certificate of its own.
//
// The server proves first that it belongs to the venue for which the code was made; only then does
// the secret part of the code leave the device.
#pragma once

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <string>
#include <variant>

#include "client/session/device.h"
#include "wire/protocol_version.h"

namespace courthand::client {

struct EnrolmentWish {
    std::string server;  ///< HOST:PORT
    std::string code;    ///< as typed; blanks and hyphens do not matter
    std::filesystem::path folder;
    std::string name;  ///< as the desk will list the device; empty: the host's name
    std::uint32_t protocol = wire::protocol_version;  ///< only tests send another one
    /// Only tests set another clock.
    std::chrono::system_clock::time_point clock = std::chrono::system_clock::now();
};

/// Stores key, certificate, authority and identity in the folder. Entries of an earlier life of the
/// device stay in its journal. The other alternative is a sentence with the cure. When the answer
/// was lost, the same code in the same folder goes on; when the program ended after it, the next
/// start does.
[[nodiscard]] std::variant<Device, std::string> enrol(const EnrolmentWish& wish);

}  // namespace courthand::client
