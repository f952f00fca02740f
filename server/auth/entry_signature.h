// Signatures of entries by the key of the device that made them: ECDSA P-256 with SHA-256. Pure.
#pragma once

#include <string>
#include <string_view>

namespace courthand::server::auth {

/// The public key in a PEM certificate, as DER SubjectPublicKeyInfo; empty when it cannot be read.
[[nodiscard]] std::string public_key_of(std::string_view certificate_pem);

/// Is `signature` (DER) made over `bytes` by the private half of `public_key` (DER
/// SubjectPublicKeyInfo)? False also when one of them cannot be read.
[[nodiscard]] bool signed_by(std::string_view public_key, std::string_view bytes,
                             std::string_view signature);

/// A signature (DER) over `bytes` by a private key (PEM); empty when the key cannot be read.
[[nodiscard]] std::string signature_of(std::string_view private_key_pem, std::string_view bytes);

}  // namespace courthand::server::auth
