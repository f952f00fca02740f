// A new key of the device and the request to sign it. The key never leaves the device.
#pragma once

#include <optional>
#include <string>

namespace courthand::client {

struct SigningRequest {
    std::string key_pem;      ///< EC P-256, PKCS#8
    std::string request_pem;  ///< PKCS#10
};

/// With a new key. Nothing when the crypto library has no randomness to offer.
[[nodiscard]] std::optional<SigningRequest> make_signing_request();
/// With a key made before; nothing when the text is no such key.
[[nodiscard]] std::optional<SigningRequest> signing_request_of(std::string key_pem);

}  // namespace courthand::client
