#include "venue/venue_channel.h"

#include <grpcpp/grpcpp.h>

#include "wire/protocol_version.h"

namespace courthand::venue {

namespace {

// A pulled cable is noticed within fifteen seconds, and the connection is back within two of its
// return. The server allows a ping every half second.
constexpr int keepalive_ms = 10'000;
constexpr int keepalive_timeout_ms = 5'000;
constexpr int first_backoff_ms = 200;
constexpr int longest_backoff_ms = 2'000;

}  // namespace

std::shared_ptr<grpc::Channel> venue_channel(const std::string& address, const DeviceKeys& keys) {
    grpc::SslCredentialsOptions options;
    options.pem_root_certs = keys.authority_pem;
    options.pem_cert_chain = keys.certificate_pem;
    options.pem_private_key = keys.key_pem;
    grpc::ChannelArguments arguments;
    arguments.SetInt(GRPC_ARG_KEEPALIVE_TIME_MS, keepalive_ms);
    arguments.SetInt(GRPC_ARG_KEEPALIVE_TIMEOUT_MS, keepalive_timeout_ms);
    arguments.SetInt(GRPC_ARG_INITIAL_RECONNECT_BACKOFF_MS, first_backoff_ms);
    arguments.SetInt(GRPC_ARG_MIN_RECONNECT_BACKOFF_MS, first_backoff_ms);
    arguments.SetInt(GRPC_ARG_MAX_RECONNECT_BACKOFF_MS, longest_backoff_ms);
    return grpc::CreateCustomChannel(address, grpc::SslCredentials(options), arguments);
}

void sign_call(grpc::ClientContext& context) {
    context.AddMetadata(wire::protocol_metadata_key, std::to_string(wire::protocol_version));
}

std::string failure_words(const grpc::Status& status) {
    switch (static_cast<int>(status.error_code())) {
        case grpc::StatusCode::UNAVAILABLE:
        case grpc::StatusCode::DEADLINE_EXCEEDED:
            return "The server does not answer. Nothing was changed; try again in a moment.";
        case grpc::StatusCode::CANCELLED: return "The request was given up; nothing was changed.";
        case grpc::StatusCode::UNIMPLEMENTED:
            return "The server is older than this program and does not know this request: "
                   "update the server.";
        default: break;
    }
    if (!status.error_message().empty()) return status.error_message();
    return "The server refused the request and did not say why; its log tells.";
}

bool final_refusal(const grpc::Status& status) {
    return status.error_code() == grpc::StatusCode::UNAUTHENTICATED ||
           status.error_code() == grpc::StatusCode::PERMISSION_DENIED ||
           status.error_code() == grpc::StatusCode::UNIMPLEMENTED;
}

}  // namespace courthand::venue
