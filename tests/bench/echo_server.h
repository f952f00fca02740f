// The bare limit of the network: a process that answers each message on a bidirectional stream over
// TLS at once, with a message of the same kind and does nothing else.
#pragma once

#include <sys/types.h>

#include <string>

namespace courthand::bench {

class EchoServer {
  public:
    /// Must be made before anything of gRPC is used in this process: it forks.
    EchoServer();
    ~EchoServer();
    EchoServer(const EchoServer&) = delete;
    EchoServer& operator=(const EchoServer&) = delete;

    [[nodiscard]] const std::string& address() const noexcept { return address_; }
    [[nodiscard]] const std::string& authority_pem() const noexcept { return authority_pem_; }

  private:
    pid_t pid_ = -1;
    std::string address_;
    std::string authority_pem_;
};

}  // namespace courthand::bench
