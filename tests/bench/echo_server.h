// The bare limit of the network: a process that answers each push over TLS at once, with a result
// for each entry, and does nothing else.
#pragma once

#include <sys/types.h>

#include <string>

#include "server/testing/enrolled_device.h"

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
    /// Who calls it: it asks for no certificate.
    [[nodiscard]] server::testing::EnrolledDevice caller() const {
        server::testing::EnrolledDevice device;
        device.authority_pem = authority_pem_;
        return device;
    }

  private:
    pid_t pid_ = -1;
    std::string address_;
    std::string authority_pem_;
};

}  // namespace courthand::bench
