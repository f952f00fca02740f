// The service of the tournament's record: watch, act, erase words. Handlers only check, call and
// map.
#pragma once

#include <memory>

#include "server/service/venue_parts.h"

namespace grpc {
class Service;
}

namespace courthand::server::service {

[[nodiscard]] std::unique_ptr<grpc::Service> make_tournament_service(const VenueParts& parts);

}  // namespace courthand::server::service
