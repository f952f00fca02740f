// A gRPC channel to the venue's server for an enrolled device. Shared by all three seats.
#pragma once

#include <grpcpp/channel.h>
#include <grpcpp/client_context.h>

#include <cstdint>
#include <memory>
#include <string>

#include "client/sync/grpc_courier.h"

namespace courthand::client {

[[nodiscard]] std::shared_ptr<grpc::Channel> make_channel(const std::string& server,
                                                          const Credentials& credentials);
/// Adds what every call carries.
void prepare_context(grpc::ClientContext& context, std::uint32_t protocol);

}  // namespace courthand::client
