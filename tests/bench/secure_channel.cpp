#include "tests/bench/secure_channel.h"

namespace courthand::bench {
namespace {

// In milliseconds.
constexpr int keepalive = 10'000;
constexpr int keepalive_timeout = 5'000;
constexpr int first_reconnect = 200;
constexpr int longest_reconnect = 2'000;

}  // namespace

std::shared_ptr<grpc::Channel> secure_channel(const std::string& address,
                                              const server::testing::EnrolledDevice& device) {
    grpc::SslCredentialsOptions options;
    options.pem_root_certs = device.authority_pem;
    options.pem_private_key = device.key_pem;
    options.pem_cert_chain = device.certificate_pem;
    grpc::ChannelArguments arguments;
    arguments.SetInt(GRPC_ARG_USE_LOCAL_SUBCHANNEL_POOL, 1);
    arguments.SetInt(GRPC_ARG_KEEPALIVE_TIME_MS, keepalive);
    arguments.SetInt(GRPC_ARG_KEEPALIVE_TIMEOUT_MS, keepalive_timeout);
    arguments.SetInt(GRPC_ARG_INITIAL_RECONNECT_BACKOFF_MS, first_reconnect);
    arguments.SetInt(GRPC_ARG_MIN_RECONNECT_BACKOFF_MS, first_reconnect);
    arguments.SetInt(GRPC_ARG_MAX_RECONNECT_BACKOFF_MS, longest_reconnect);
    return grpc::CreateCustomChannel(address, grpc::SslCredentials(options), arguments);
}

void prepare(grpc::ClientContext& context) {
    context.AddMetadata("courthand-protocol", "1");
    context.set_wait_for_ready(true);
}

}  // namespace courthand::bench
