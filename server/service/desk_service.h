// The service of the tournament desk. Handlers only check, call and map.
#pragma once

#include <memory>

#include "server/service/venue_parts.h"

namespace grpc {
class Service;
}

namespace courthand::server::service {

[[nodiscard]] std::unique_ptr<grpc::Service> make_desk_service(const VenueParts& parts);

/// Tells the board which courts there are.
void renew_courts(const VenueParts& parts);

}  // namespace courthand::server::service
