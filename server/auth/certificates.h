// Making and reading EC P-256 keys and X.509 certificates. Internal to auth/.
#pragma once

#include <chrono>
#include <string>
#include <string_view>
#include <vector>

#include "server/auth/caller.h"
#include "server/auth/openssl_handles.h"

namespace courthand::server::auth {

/// Null on failure; `take_openssl_error` says why.
[[nodiscard]] KeyHandle new_key();
[[nodiscard]] KeyHandle read_key(std::string_view pem);
[[nodiscard]] CertificateHandle read_certificate(std::string_view pem);
/// PEM or DER.
[[nodiscard]] RequestHandle read_request(std::string_view bytes);

[[nodiscard]] std::string pem_of(const EVP_PKEY& key);
[[nodiscard]] std::string pem_of(const X509& certificate);

/// SubjectPublicKeyInfo; empty on failure.
[[nodiscard]] std::string public_key_der(const EVP_PKEY& key);

[[nodiscard]] bool is_p256(const EVP_PKEY& key);

/// One X.509 v3 extension in OpenSSL's configuration syntax.
struct ExtensionText {
    int id = 0;  ///< NID_…
    std::string value;
};

struct CertificateWish {
    std::string common_name;
    Instant from{};
    Instant until{};
    std::vector<ExtensionText> extensions;
    std::vector<std::string> alternative_uris;  ///< taken literally, never parsed as configuration
};

/// Signs a certificate for `subject_key`. `issuer` null: signed by itself.
[[nodiscard]] CertificateHandle sign_certificate(const CertificateWish& wish, EVP_PKEY& subject_key,
                                                 X509* issuer, EVP_PKEY& issuer_key);

}  // namespace courthand::server::auth
