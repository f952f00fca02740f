// A TCP forwarder on the loopback network: calls a server from an address of one's choice, and may
// stop passing its answers on.
#pragma once

#include <atomic>
#include <cstdint>
#include <functional>
#include <string>
#include <thread>
#include <vector>

namespace courthand::server::testing {

class Forwarder {
  public:
    /// Asked before bytes of the server are passed on; false: the connection is cut instead.
    using Pass = std::function<bool()>;

    /// Listens on 127.0.0.1; connects to `port` there, as if from `from` ("127.0.0.2"). Throws
    /// std::runtime_error when the machine does not let it.
    Forwarder(std::string from, std::uint16_t port, Pass pass = {});
    /// Cuts all connections.
    ~Forwarder();
    Forwarder(const Forwarder&) = delete;
    Forwarder& operator=(const Forwarder&) = delete;

    [[nodiscard]] std::string address() const;
    [[nodiscard]] unsigned cuts() const noexcept { return cuts_; }

  private:
    void listen();
    void accept_until_stopped();
    int connect_to_server() const;
    void carry(int client);

    std::string from_;
    std::uint16_t port_;
    Pass pass_;
    int listener_ = -1;
    std::uint16_t own_port_ = 0;
    std::atomic<bool> stop_{false};
    std::atomic<unsigned> cuts_{0};
    std::vector<std::thread> carriers_;  // touched by the accepting thread, then by the destructor
    std::thread accepting_;
};

}  // namespace courthand::server::testing
