// The gRPC server: TLS, keepalive, health, limits. The only file of main/ that knows gRPC.
#pragma once

#include <memory>
#include <string>

#include "server/main/composition.h"
#include "server/main/settings.h"

namespace grpc {
class Server;
class Service;
}  // namespace grpc

namespace courthand::server {

class Network {
  public:
    /// Throws std::runtime_error with a plain text when it cannot listen.
    Network(const Settings& settings, const auth::ServerIdentity& identity, Composition& parts);
    ~Network();

    /// "127.0.0.1:7443", with the port that was really taken.
    [[nodiscard]] const std::string& address() const noexcept { return address_; }
    /// What the health service says.
    void set_serving(bool serving);
    /// Ends all streams and calls; returns when none is left, after a second at most by force.
    void stop();

  private:
    Composition& parts_;
    std::unique_ptr<grpc::Service> sync_;
    std::unique_ptr<grpc::Server> server_;
    std::string address_;
};

}  // namespace courthand::server
