#include "client/sync/channel.h"

#include <grpcpp/create_channel.h>
#include <grpcpp/security/credentials.h>

#include <fmt/format.h>

#include "wire/answer_limit.h"

namespace courthand::client {
namespace {

/// A cut is noticed after the sum of these, in milliseconds; kept above what servers allow.
constexpr int keepalive_ms = 8'000;
constexpr int keepalive_timeout_ms = 4'000;
/// A watch can be idle for hours: it is probed for as long as it lasts, not only twice.
constexpr int any_number = 0;
/// Reconnecting: quick at first, since most cuts in a hall are short.
constexpr int first_reconnect_ms = 200;
constexpr int longest_reconnect_ms = 2'000;
/// The server's certificate always carries this name, whatever address it is reached by. It is
/// safe to ask for it only: the device trusts the venue's own authority and no other, and that
/// gives host names to servers alone.
constexpr const char* server_name = "localhost";

}  // namespace

std::shared_ptr<grpc::Channel> make_channel(const std::string& server,
                                            const Credentials& credentials) {
    grpc::SslCredentialsOptions tls;
    tls.pem_root_certs = credentials.authority;
    tls.pem_private_key = credentials.key;
    tls.pem_cert_chain = credentials.certificate;
    grpc::ChannelArguments arguments;
    arguments.SetSslTargetNameOverride(server_name);
    arguments.SetInt(GRPC_ARG_KEEPALIVE_TIME_MS, keepalive_ms);
    arguments.SetInt(GRPC_ARG_KEEPALIVE_TIMEOUT_MS, keepalive_timeout_ms);
    arguments.SetInt(GRPC_ARG_HTTP2_MAX_PINGS_WITHOUT_DATA, any_number);
    arguments.SetInt(GRPC_ARG_INITIAL_RECONNECT_BACKOFF_MS, first_reconnect_ms);
    arguments.SetInt(GRPC_ARG_MIN_RECONNECT_BACKOFF_MS, first_reconnect_ms);
    arguments.SetInt(GRPC_ARG_MAX_RECONNECT_BACKOFF_MS, longest_reconnect_ms);
    // As much as the server sends: it never depends on what gRPC takes by default.
    arguments.SetInt(GRPC_ARG_MAX_RECEIVE_MESSAGE_LENGTH,
                     static_cast<int>(wire::most_answer_bytes));
    // Each device has connections of its own, also when several live in one process.
    arguments.SetInt(GRPC_ARG_USE_LOCAL_SUBCHANNEL_POOL, 1);
    return grpc::CreateCustomChannel(server, grpc::SslCredentials(tls), arguments);
}

void prepare_context(grpc::ClientContext& context, std::uint32_t protocol) {
    context.AddMetadata(wire::protocol_metadata_key, fmt::format("{}", protocol));
}

}  // namespace courthand::client
