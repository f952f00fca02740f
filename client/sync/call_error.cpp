#include "client/sync/call_error.h"

#include <fmt/format.h>

namespace courthand::client {

CallError call_error(const grpc::Status& status, const std::string& server) {
    using Kind = CallError::Kind;
    const std::string& words = status.error_message();
    switch (status.error_code()) {
        case grpc::StatusCode::UNAVAILABLE:
            if (words.find("andshake") != std::string::npos)
                return {Kind::unreachable,
                        fmt::format("The server {} is not the one this device was enrolled with, "
                                    "or does not accept it. Check the address; if the venue was "
                                    "set up anew, enrol this device again.",
                                    server)};
            return {Kind::unreachable, fmt::format("No connection to the server {}.", server)};
        case grpc::StatusCode::DEADLINE_EXCEEDED:
            return {Kind::unreachable, fmt::format("The server {} does not answer.", server)};
        case grpc::StatusCode::CANCELLED:
            return {Kind::cancelled, "stopped"};
        case grpc::StatusCode::RESOURCE_EXHAUSTED:
            return {Kind::busy, words};
        case grpc::StatusCode::FAILED_PRECONDITION:
        case grpc::StatusCode::PERMISSION_DENIED:
        case grpc::StatusCode::UNAUTHENTICATED:
            return {Kind::refused, words};
        case grpc::StatusCode::UNIMPLEMENTED:
            return {Kind::refused,
                    fmt::format("The server {} is older than this program and does not know what "
                                "it was asked: update the server.",
                                server)};
        case grpc::StatusCode::NOT_FOUND:
            return {Kind::not_known, words.empty() ? "The server does not know it." : words};
        case grpc::StatusCode::OK:
        case grpc::StatusCode::UNKNOWN:
        case grpc::StatusCode::INVALID_ARGUMENT:
        case grpc::StatusCode::ALREADY_EXISTS:
        case grpc::StatusCode::ABORTED:
        case grpc::StatusCode::OUT_OF_RANGE:
        case grpc::StatusCode::INTERNAL:
        case grpc::StatusCode::DATA_LOSS:
        case grpc::StatusCode::DO_NOT_USE:
        default:
            return {Kind::failed, words.empty() ? "The server could not answer." : words};
    }
}

}  // namespace courthand::client
