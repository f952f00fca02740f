#include "server/main/network.h"

#include <grpcpp/ext/proto_server_reflection_plugin.h>
#include <grpcpp/grpcpp.h>
#include <grpcpp/health_check_service_interface.h>
#include <grpcpp/impl/service_type.h>
#include <grpcpp/resource_quota.h>

#include <chrono>
#include <stdexcept>

#include "server/auth/call_gate.h"
#include "server/service/sync_service.h"
#include "wire/message_limits.h"

namespace courthand::server {
namespace {

/// A silent connection is probed, and counts as gone after the time-out: a cut is noticed within
/// ten seconds, and an idle table costs a few bytes.
constexpr int keepalive_ms = 7000;
constexpr int keepalive_timeout_ms = 3000;
/// Clients may probe this often, also without a call; less would end their connections.
constexpr int client_ping_ms = 500;
/// A connection without any call is ended after this, an unfinished handshake after that.
constexpr int idle_ms = 300'000;
constexpr int handshake_ms = 10'000;
/// A seat has three or four calls open at once; further ones wait in the client.
constexpr int most_calls_per_connection = 100;
/// A hall full of tables needs a few MiB.
constexpr std::size_t memory_bytes = 512UL * 1024 * 1024;
/// What is still open after this is cut.
constexpr std::chrono::milliseconds stop_within{1000};

void set_keepalive(grpc::ServerBuilder& builder) {
    builder.AddChannelArgument(GRPC_ARG_KEEPALIVE_TIME_MS, keepalive_ms);
    builder.AddChannelArgument(GRPC_ARG_KEEPALIVE_TIMEOUT_MS, keepalive_timeout_ms);
    builder.AddChannelArgument(GRPC_ARG_KEEPALIVE_PERMIT_WITHOUT_CALLS, 1);
    builder.AddChannelArgument(GRPC_ARG_HTTP2_MAX_PINGS_WITHOUT_DATA, 0);
    builder.AddChannelArgument(GRPC_ARG_HTTP2_MIN_RECV_PING_INTERVAL_WITHOUT_DATA_MS,
                               client_ping_ms);
    // Silent connections, of strangers too, do not stay; every seat has a stream open.
    builder.AddChannelArgument(GRPC_ARG_MAX_CONNECTION_IDLE_MS, idle_ms);
    builder.AddChannelArgument(GRPC_ARG_SERVER_HANDSHAKE_TIMEOUT_MS, handshake_ms);
    builder.AddChannelArgument(GRPC_ARG_MAX_CONCURRENT_STREAMS, most_calls_per_connection);
    // Two servers on one port would each get half of the tables.
    builder.AddChannelArgument(GRPC_ARG_ALLOW_REUSEPORT, 0);
}

/// A call that the gate turned away. Who has no certificate has no name either: they share one
/// count.
void keep_trace(Composition& parts, const std::optional<auth::Caller>& who, std::string_view method,
                const Status& why) {
    parts.audit.refused(who ? to_text(who->device) : "no certificate",
                        {0, {}, who, "call", std::string{method}, why.text(), true});
}

std::string host_of(const std::string& listen) {
    return listen.substr(0, listen.rfind(':'));
}

}  // namespace

Network::Network(const Settings& settings, const auth::ServerIdentity& identity, Composition& parts)
    : parts_{parts} {
    grpc::EnableDefaultHealthCheckService(true);
    if (settings.reflection) grpc::reflection::InitProtoReflectionServerBuilderPlugin();
    sync_ = service::make_sync_service(parts.sync_parts());
    grpc::ServerBuilder builder;
    set_keepalive(builder);
    builder.SetMaxReceiveMessageSize(wire::most_read_bytes);
    grpc::ResourceQuota quota{"courthand-server"};
    quota.Resize(memory_bytes);
    builder.SetResourceQuota(quota);
    int port = 0;
    builder.AddListeningPort(
        settings.listen,
        auth::server_credentials(
            identity, parts.venue.devices(),
            [&parts](const std::optional<auth::Caller>& who, std::string_view method,
                     const Status& why) { keep_trace(parts, who, method, why); }),
        &port);
    builder.RegisterService(sync_.get());
    for (grpc::Service* const service : parts.venue.services()) builder.RegisterService(service);
    server_ = builder.BuildAndStart();
    if (!server_ || port == 0)
        throw std::runtime_error{"cannot listen on " + settings.listen +
                                 "; is the port taken? choose another with --listen"};
    address_ = host_of(settings.listen) + ":" + std::to_string(port);
}

Network::~Network() = default;

void Network::set_serving(bool serving) {
    if (auto* const health = server_->GetHealthCheckService()) health->SetServingStatus(serving);
}

void Network::stop() {
    set_serving(false);
    parts_.streams.end_all();
    server_->Shutdown(std::chrono::system_clock::now() + stop_within);
    server_->Wait();
}

}  // namespace courthand::server
