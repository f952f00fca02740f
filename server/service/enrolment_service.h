// The service that lets devices in; the only one open to a device without a certificate.
#pragma once

#include <memory>

#include "server/service/venue_parts.h"

namespace grpc {
class Service;
}

namespace courthand::server::service {

[[nodiscard]] std::unique_ptr<grpc::Service> make_enrolment_service(const VenueParts& parts);

}  // namespace courthand::server::service
