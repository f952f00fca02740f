#include "tests/integration/client/cable.h"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <netinet/tcp.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <stdexcept>
#include <vector>

namespace courthand::client {
namespace {

constexpr int look_ms = 20;

sockaddr_in loopback(std::uint16_t port) {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(port);
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    return address;
}

int connection_to(std::uint16_t port) {
    const int file = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    const sockaddr_in address = loopback(port);
    if (::connect(file, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0)
        return file;
    ::close(file);
    return -1;
}

bool readable(int file) {
    pollfd one{file, POLLIN, 0};
    return ::poll(&one, 1, 0) > 0;
}

}  // namespace

Cable::Cable(std::uint16_t to)
    : to_{to}, listener_{::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)} {
    sockaddr_in address = loopback(0);
    socklen_t size = sizeof address;
    if (::bind(listener_, reinterpret_cast<const sockaddr*>(&address), size) != 0 ||
        ::listen(listener_, SOMAXCONN) != 0 ||
        ::getsockname(listener_, reinterpret_cast<sockaddr*>(&address), &size) != 0)
        throw std::runtime_error{"no port for the cable"};
    port_ = ntohs(address.sin_port);
    thread_ = std::thread{[this] { run(); }};
}

Cable::~Cable() {
    stop_ = true;
    thread_.join();
    for (const Pair& pair : pairs_) {
        ::close(pair.client);
        ::close(pair.server);
    }
    ::close(listener_);
}

std::string Cable::address() const {
    return "127.0.0.1:" + std::to_string(port_);
}

void Cable::run() {
    while (!stop_) {
        std::vector<pollfd> files{{listener_, POLLIN, 0}};
        if (!cut_)
            for (const Pair& pair : pairs_)
                if (!pair.closed && pair.age == age_)
                    for (const int file : {pair.client, pair.server})
                        files.push_back({file, POLLIN, 0});
        ::poll(files.data(), files.size(), look_ms);
        if (readable(listener_)) take_connection();
        if (cut_) continue;
        for (Pair& pair : pairs_)
            if (!pair.closed && pair.age == age_) carry(pair);
    }
}

void Cable::take_connection() {
    Pair pair;
    pair.client = ::accept4(listener_, nullptr, nullptr, SOCK_CLOEXEC);
    pair.age = cut_ ? -1 : age_.load();
    if (!cut_) pair.server = connection_to(to_);
    const int at_once = 1;
    for (const int file : {pair.client, pair.server})
        ::setsockopt(file, IPPROTO_TCP, TCP_NODELAY, &at_once, sizeof at_once);
    // A server that is not there refuses.
    if (!cut_ && pair.server < 0) ::shutdown(pair.client, SHUT_RDWR);
    pairs_.push_back(pair);
}

void Cable::carry(Pair& pair) {
    if (carry(pair.client, pair.server) && carry(pair.server, pair.client)) return;
    pair.closed = true;
    ::shutdown(pair.client, SHUT_RDWR);
    ::shutdown(pair.server, SHUT_RDWR);
}

/// False when the connection has ended.
bool Cable::carry(int from, int to) {
    if (to < 0 || from < 0) return false;
    std::array<char, 65536> bytes{};
    while (readable(from)) {
        const ssize_t got = ::recv(from, bytes.data(), bytes.size(), MSG_DONTWAIT);
        if (got <= 0) return false;
        for (ssize_t sent = 0; sent < got;) {
            const ssize_t now =
                ::send(to, bytes.data() + sent, static_cast<std::size_t>(got - sent), MSG_NOSIGNAL);
            if (now <= 0) return false;
            sent += now;
        }
    }
    return true;
}

}  // namespace courthand::client
