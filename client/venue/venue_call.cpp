#include "venue/venue_call.h"

#include <grpcpp/grpcpp.h>

#include "wire/protocol_version.h"

namespace courthand::venue {

bool reached(grpc::Channel& channel, std::chrono::milliseconds time,
             const std::function<bool()>& given_up) {
    // Short enough for a window that is being closed.
    constexpr std::chrono::milliseconds slice{250};
    const auto end = std::chrono::steady_clock::now() + time;
    while (!given_up() && std::chrono::steady_clock::now() < end) {
        if (channel.WaitForConnected(std::chrono::system_clock::now() + slice)) return true;
    }
    return false;
}

void sign_call(grpc::ClientContext& context) {
    context.AddMetadata(wire::protocol_metadata_key, std::to_string(wire::protocol_version));
}

std::string failure_words(const grpc::Status& status) {
    switch (static_cast<int>(status.error_code())) {
        case grpc::StatusCode::UNAVAILABLE:
        case grpc::StatusCode::DEADLINE_EXCEEDED:
            return "The server does not answer; try again in a moment.";
        case grpc::StatusCode::CANCELLED:
            return "The request was given up.";
        case grpc::StatusCode::UNIMPLEMENTED:
            return "The server is older than this program and does not know this request: "
                   "update the server.";
        default:
            break;
    }
    if (!status.error_message().empty()) return status.error_message();
    return "The server refused the request and did not say why; its log tells.";
}

std::string act_failure_words(const grpc::Status& status) {
    switch (static_cast<int>(status.error_code())) {
        case grpc::StatusCode::UNAVAILABLE:
        case grpc::StatusCode::DEADLINE_EXCEEDED:
        case grpc::StatusCode::CANCELLED:
            return "No answer came from the server: it may have been done all the same. Look "
                   "whether it was before you do it again.";
        default:
            return failure_words(status);
    }
}

bool final_refusal(const grpc::Status& status) {
    return status.error_code() == grpc::StatusCode::UNAUTHENTICATED ||
           status.error_code() == grpc::StatusCode::PERMISSION_DENIED ||
           status.error_code() == grpc::StatusCode::UNIMPLEMENTED;
}

}  // namespace courthand::venue
