#include "client/enrol/server_chain.h"

#include <netdb.h>
#include <openssl/bio.h>
#include <openssl/err.h>
#include <openssl/pem.h>
#include <openssl/ssl.h>
#include <poll.h>
#include <sys/socket.h>
#include <sys/time.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <memory>

#include <fmt/format.h>

namespace courthand::client {
namespace {

constexpr int wait_seconds = 5;
/// HTTP/2, as gRPC speaks it; servers hang up on anything else.
constexpr unsigned char protocols[] = {2, 'h', '2'};

struct Free {
    void operator()(SSL_CTX* context) const noexcept { SSL_CTX_free(context); }
    void operator()(SSL* tls) const noexcept { SSL_free(tls); }
    void operator()(addrinfo* list) const noexcept { freeaddrinfo(list); }
    void operator()(BIO* memory) const noexcept { BIO_free(memory); }
};

class Socket {
  public:
    explicit Socket(int handle) : handle_{handle} {}
    Socket(const Socket&) = delete;
    Socket& operator=(const Socket&) = delete;
    ~Socket() {
        if (handle_ >= 0) ::close(handle_);
    }
    [[nodiscard]] int handle() const { return handle_; }

  private:
    int handle_;
};

int connect_within_bounds(const addrinfo& address) {
    const int handle =
        ::socket(address.ai_family, address.ai_socktype | SOCK_CLOEXEC, address.ai_protocol);
    if (handle < 0) return -1;
    const timeval wait{wait_seconds, 0};
    setsockopt(handle, SOL_SOCKET, SO_SNDTIMEO, &wait, sizeof wait);
    setsockopt(handle, SOL_SOCKET, SO_RCVTIMEO, &wait, sizeof wait);
    if (::connect(handle, address.ai_addr, address.ai_addrlen) == 0) return handle;
    const int failed = errno;
    ::close(handle);
    errno = failed;
    return -1;
}

std::variant<int, std::string> connect_to(const std::string& server) {
    const std::size_t colon = server.rfind(':');
    if (colon == std::string::npos || colon == 0 || colon + 1 == server.size())
        return fmt::format(
            "\"{}\" is not a server address: write HOST:PORT, for example "
            "192.168.1.10:7443.",
            server);
    std::string host = server.substr(0, colon);
    if (host.front() == '[' && host.back() == ']') host = host.substr(1, host.size() - 2);
    const std::string port = server.substr(colon + 1);
    addrinfo wish{};
    wish.ai_socktype = SOCK_STREAM;
    addrinfo* raw = nullptr;
    const int unknown = getaddrinfo(host.c_str(), port.c_str(), &wish, &raw);
    const std::unique_ptr<addrinfo, Free> list{raw};
    if (unknown != 0)
        return fmt::format("The server {} is not known in this network ({}). Check the address.",
                           server, gai_strerror(unknown));
    for (const addrinfo* address = list.get(); address != nullptr; address = address->ai_next) {
        const int handle = connect_within_bounds(*address);
        if (handle >= 0) return handle;
    }
    return fmt::format(
        "The server {} cannot be reached ({}). Check the address, that the server "
        "runs, and that this device is in the venue's network.",
        server, std::strerror(errno));
}

bool is_version_alert(unsigned long error) {
    const int reason = ERR_GET_REASON(error);
    return reason == SSL_R_TLSV1_ALERT_PROTOCOL_VERSION || reason == SSL_R_UNSUPPORTED_PROTOCOL ||
           reason == SSL_R_WRONG_SSL_VERSION;
}

ShownCertificate certificate_of(X509* certificate) {
    ShownCertificate shown;
    unsigned char* der = nullptr;
    const int size = i2d_X509(certificate, &der);
    if (size > 0) shown.der.assign(reinterpret_cast<char*>(der), static_cast<std::size_t>(size));
    OPENSSL_free(der);
    const std::unique_ptr<BIO, Free> memory{BIO_new(BIO_s_mem())};
    PEM_write_bio_X509(memory.get(), certificate);
    char* text = nullptr;
    const long length = BIO_get_mem_data(memory.get(), &text);
    shown.pem.assign(text, static_cast<std::size_t>(length));
    return shown;
}

}  // namespace

std::variant<std::vector<ShownCertificate>, std::string> server_chain(const std::string& server) {
    const auto connected = connect_to(server);
    if (const auto* wrong = std::get_if<std::string>(&connected)) return *wrong;
    const Socket socket{std::get<int>(connected)};
    const std::unique_ptr<SSL_CTX, Free> context{SSL_CTX_new(TLS_client_method())};
    SSL_CTX_set_min_proto_version(context.get(), TLS1_3_VERSION);
    // Nothing is trusted here: the caller compares what is shown with the code.
    SSL_CTX_set_verify(context.get(), SSL_VERIFY_NONE, nullptr);
    const std::unique_ptr<SSL, Free> tls{SSL_new(context.get())};
    SSL_set_alpn_protos(tls.get(), protocols, sizeof protocols);
    SSL_set_tlsext_host_name(tls.get(), "localhost");
    SSL_set_fd(tls.get(), socket.handle());
    if (SSL_connect(tls.get()) != 1) {
        const bool old = is_version_alert(ERR_peek_error());
        ERR_clear_error();
        if (old)
            return fmt::format(
                "The server {} does not speak TLS 1.3, so it is none of this program's. Check the "
                "address and the port; if they are right, update the server.",
                server);
        return fmt::format(
            "Something answers at {}, but it is not a Courthand server (no TLS). "
            "Check the address and the port.",
            server);
    }
    std::vector<ShownCertificate> chain;
    STACK_OF(X509)* shown = SSL_get_peer_cert_chain(tls.get());
    for (int i = 0; i < sk_X509_num(shown); ++i)
        chain.push_back(certificate_of(sk_X509_value(shown, i)));
    return chain;
}

}  // namespace courthand::client
