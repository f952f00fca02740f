// A gRPC status as a sentence for the person at the device.
#pragma once

#include <grpcpp/support/status.h>

#include <string>

#include "client/sync/courier.h"

namespace courthand::client {

[[nodiscard]] CallError call_error(const grpc::Status& status, const std::string& server);

}  // namespace courthand::client
