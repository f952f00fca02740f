// A connection as a device makes it: of its own, over TLS, with its certificate.
#pragma once

#include <grpcpp/grpcpp.h>

#include <memory>
#include <string>

#include "server/testing/enrolled_device.h"

namespace courthand::bench {

/// Without a certificate when the device has none. Keeps the connection alive and comes back after
/// a cut as a table does.
[[nodiscard]] std::shared_ptr<grpc::Channel> secure_channel(
    const std::string& address, const server::testing::EnrolledDevice& device);

/// Metadata that every call needs; the call waits for the connection.
void prepare(grpc::ClientContext& context);

}  // namespace courthand::bench
