// Looks at the certificates a server shows, without trusting or telling it anything.
#pragma once

#include <string>
#include <variant>
#include <vector>

namespace courthand::client {

struct ShownCertificate {
    std::string der;
    std::string pem;
};

/// Connects, takes the certificate chain of the TLS handshake and hangs up; at most about five
/// seconds. The other alternative is a sentence: no such host, nobody listens, no TLS.
[[nodiscard]] std::variant<std::vector<ShownCertificate>, std::string> server_chain(
    const std::string& server);

}  // namespace courthand::client
