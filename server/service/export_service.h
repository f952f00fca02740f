// The whole event as files, for the desk.
#pragma once

#include <memory>

#include "server/service/venue_parts.h"

namespace grpc {
class Service;
}

namespace courthand::server::service {

/// The parts outlive the service.
[[nodiscard]] std::unique_ptr<grpc::Service> make_export_service(const VenueParts& parts);

}  // namespace courthand::server::service
