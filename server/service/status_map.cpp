#include "server/service/status_map.h"

namespace courthand::server::service {

grpc::StatusCode code_of(StatusCode code) noexcept {
    switch (code) {
        case StatusCode::ok:
            return grpc::StatusCode::OK;
        case StatusCode::not_found:
            return grpc::StatusCode::NOT_FOUND;
        case StatusCode::already_exists:
            return grpc::StatusCode::ALREADY_EXISTS;
        case StatusCode::conflict:
            return grpc::StatusCode::ABORTED;
        case StatusCode::not_allowed:
            return grpc::StatusCode::PERMISSION_DENIED;
        case StatusCode::invalid:
            return grpc::StatusCode::INVALID_ARGUMENT;
        case StatusCode::exhausted:
            return grpc::StatusCode::RESOURCE_EXHAUSTED;
        case StatusCode::unavailable:
        case StatusCode::in_doubt:
            return grpc::StatusCode::UNAVAILABLE;
        case StatusCode::schema_newer:
            return grpc::StatusCode::FAILED_PRECONDITION;
        case StatusCode::internal:
            return grpc::StatusCode::INTERNAL;
    }
    return grpc::StatusCode::INTERNAL;
}

grpc::Status to_grpc(const Status& status) {
    if (status.ok()) return grpc::Status::OK;
    return {code_of(status.code), status.text()};
}

Status own_fault() {
    return Status::failed(StatusCode::internal, "the server met a fault of its own",
                          "try again; tell whoever runs the server when it stays");
}

Status overloaded() {
    return Status::failed(StatusCode::exhausted, "the server has too much to do at the moment",
                          "send it again a little later; nothing is lost");
}

}  // namespace courthand::server::service
