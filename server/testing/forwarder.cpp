#include "server/testing/forwarder.h"

#include <arpa/inet.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <stdexcept>
#include <utility>

namespace courthand::server::testing {
namespace {

/// How soon an end is noticed.
constexpr int poll_ms = 20;

sockaddr_in loopback(const char* host, std::uint16_t port) {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(port);
    inet_pton(AF_INET, host, &address.sin_addr);
    return address;
}

bool write_all(int socket, const char* bytes, std::size_t count) {
    while (count > 0) {
        const ssize_t written = ::send(socket, bytes, count, MSG_NOSIGNAL);
        if (written <= 0) return false;
        bytes += written;
        count -= static_cast<std::size_t>(written);
    }
    return true;
}

void fail(const char* what) {
    throw std::runtime_error{std::string{what} + ": " + std::strerror(errno)};
}

}  // namespace

Forwarder::Forwarder(std::string from, std::uint16_t port, Pass pass)
    : from_{std::move(from)}, port_{port}, pass_{std::move(pass)} {
    listen();
    accepting_ = std::thread{[this] { accept_until_stopped(); }};
}

Forwarder::~Forwarder() {
    stop_ = true;
    accepting_.join();
    for (std::thread& carrier : carriers_) carrier.join();
    ::close(listener_);
}

std::string Forwarder::address() const {
    return "127.0.0.1:" + std::to_string(own_port_);
}

void Forwarder::listen() {
    listener_ = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    sockaddr_in own = loopback("127.0.0.1", 0);
    socklen_t size = sizeof own;
    auto* const generic = reinterpret_cast<sockaddr*>(&own);
    if (::bind(listener_, generic, size) != 0 || ::listen(listener_, 16) != 0 ||
        ::getsockname(listener_, generic, &size) != 0)
        fail("the forwarder cannot listen");
    own_port_ = ntohs(own.sin_port);
}

void Forwarder::accept_until_stopped() {
    while (!stop_) {
        pollfd waiting{listener_, POLLIN, 0};
        if (::poll(&waiting, 1, poll_ms) <= 0) continue;
        const int client = ::accept4(listener_, nullptr, nullptr, SOCK_CLOEXEC);
        if (client >= 0) carriers_.emplace_back([this, client] { carry(client); });
    }
}

int Forwarder::connect_to_server() const {
    const int server = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    const sockaddr_in own = loopback(from_.c_str(), 0);
    const sockaddr_in theirs = loopback("127.0.0.1", port_);
    if (::bind(server, reinterpret_cast<const sockaddr*>(&own), sizeof own) == 0 &&
        ::connect(server, reinterpret_cast<const sockaddr*>(&theirs), sizeof theirs) == 0)
        return server;
    ::close(server);
    return -1;
}

void Forwarder::carry(int client) {
    const int server = connect_to_server();
    std::array<char, 16384> bytes{};
    bool open = server >= 0;
    while (open && !stop_) {
        std::array<pollfd, 2> ends{{{client, POLLIN, 0}, {server, POLLIN, 0}}};
        if (::poll(ends.data(), ends.size(), poll_ms) <= 0) continue;
        for (const pollfd& end : ends) {
            if (!open || end.revents == 0) continue;
            const bool answer = end.fd == server;
            const ssize_t count = ::recv(end.fd, bytes.data(), bytes.size(), 0);
            const bool passed = count > 0 && (!answer || !pass_ || pass_());
            if (count > 0 && !passed) ++cuts_;
            open = passed && write_all(answer ? client : server, bytes.data(),
                                       static_cast<std::size_t>(count));
        }
    }
    ::close(client);
    if (server >= 0) ::close(server);
}

}  // namespace courthand::server::testing
