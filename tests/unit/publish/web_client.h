// A reader of the pages: plain HTTP/1.1 over a socket, so that a test says each byte it sends.
#pragma once

#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <chrono>
#include <cstdint>
#include <string>

#include "tests/testkit/eventually.h"

namespace courthand::server::publish::testing {

class WebClient {
  public:
    explicit WebClient(std::uint16_t port) : socket_{::socket(AF_INET, SOCK_STREAM, 0)} {
        sockaddr_in address{};
        address.sin_family = AF_INET;
        address.sin_port = htons(port);
        address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
        if (connect(socket_, reinterpret_cast<sockaddr*>(&address), sizeof address) != 0)
            ADD_FAILURE() << "no connection to port " << port;
    }
    ~WebClient() { close(socket_); }
    WebClient(const WebClient&) = delete;
    WebClient& operator=(const WebClient&) = delete;

    void send(const std::string& text) {
        EXPECT_EQ(::send(socket_, text.data(), text.size(), MSG_NOSIGNAL),
                  static_cast<ssize_t>(text.size()));
    }
    void ask(const std::string& path, const std::string& heads = "") {
        send("GET " + path + " HTTP/1.1\r\nHost: hall\r\n" + heads + "\r\n");
    }
    /// Everything until these words came, or the connection ended.
    std::string until(const std::string& words) {
        const auto end = std::chrono::steady_clock::now() + testkit::patience;
        while (got_.find(words) == std::string::npos && std::chrono::steady_clock::now() < end) {
            pollfd waiting{socket_, POLLIN, 0};
            if (poll(&waiting, 1, 100) == 0) continue;
            char buffer[4096];
            const ssize_t size = recv(socket_, buffer, sizeof buffer, 0);
            if (size <= 0) break;
            got_.append(buffer, static_cast<std::size_t>(size));
        }
        return got_;
    }
    std::string until_end() { return until("\xFF no page has this"); }

  private:
    int socket_;
    std::string got_;
};

/// The whole answer to one request.
inline std::string answer(std::uint16_t port, const std::string& path,
                          const std::string& heads = "") {
    WebClient client{port};
    client.ask(path, heads + "Connection: close\r\n");
    return client.until_end();
}

}  // namespace courthand::server::publish::testing
