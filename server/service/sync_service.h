// The service of tables: push, watch, writer grants, matches. Handlers only check, call and map.
#pragma once

#include <memory>

#include "server/service/sync_parts.h"

namespace grpc {
class Service;
}

namespace courthand::server::service {

[[nodiscard]] std::unique_ptr<grpc::Service> make_sync_service(SyncParts parts);

}  // namespace courthand::server::service
