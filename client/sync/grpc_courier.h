// The courier over gRPC: TLS with the device's certificate, the venue's authority pinned.
//
// The only header of the client's sync that leads to gRPC, and it shows none of it.
#pragma once

#include <cstdint>
#include <memory>
#include <string>

#include "client/sync/courier.h"
#include "wire/protocol_version.h"

namespace courthand::client {

/// Key and certificates of a device, PEM.
struct Credentials {
    std::string key;
    std::string certificate;
    std::string authority;
};

struct CourierOptions {
    std::string server;  ///< HOST:PORT
    Credentials credentials;
    /// Told to the server with each call; only tests send another one.
    std::uint32_t protocol = wire::protocol_version;
};

[[nodiscard]] std::unique_ptr<Courier> make_grpc_courier(const CourierOptions& options);

}  // namespace courthand::client
