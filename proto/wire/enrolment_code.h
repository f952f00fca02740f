// The one-use code with which a device is let in: 24 symbols, shown as six groups of four, typed by
// a person or read from a QR code.
//
// Symbols are Crockford's base32: digits and capital letters without I, L, O and U. The first
// eight are the secret, 40 bits: too many to try out at the rate a server takes tries. The other
// sixteen are the first 80 bits of the SHA-256 of the authority's certificate, so that a device can
// tell the venue's server from another one before it sends the secret, and nobody can make a second
// authority that fits; after enrolment the device trusts the authority's certificate itself.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>

namespace courthand::wire {

inline constexpr std::size_t secret_symbols = 8;
inline constexpr std::size_t fingerprint_symbols = 16;
inline constexpr std::size_t code_symbols = secret_symbols + fingerprint_symbols;
/// How a code is grouped for the eye.
inline constexpr std::size_t group_symbols = 4;

class EnrolmentCode {
  public:
    /// A code for an authority. `secret` must be a secret (`is_code_secret`), `authority_der` its
    /// certificate.
    [[nodiscard]] static EnrolmentCode make(std::string_view secret,
                                            std::string_view authority_der);
    /// A code with a secret from the random source of the crypto library.
    [[nodiscard]] static EnrolmentCode make_random(std::string_view authority_der);
    /// From what a person typed or a camera read: small or capital letters, I and L for 1, O for 0,
    /// blanks and hyphens anywhere. The other alternative is a sentence with the place and the
    /// cure.
    [[nodiscard]] static std::variant<EnrolmentCode, std::string> parse(std::string_view text);

    [[nodiscard]] const std::string& secret() const noexcept { return secret_; }
    [[nodiscard]] const std::string& fingerprint() const noexcept { return fingerprint_; }
    /// "7K3M 9QXA 04ZT V8WB 5C1N HRJ6": also the text of the QR code, whose alphanumeric mode has
    /// all of it.
    [[nodiscard]] std::string to_text() const;
    /// True when the code was made for this authority. Check before sending the secret.
    [[nodiscard]] bool fits(std::string_view authority_der) const;

    friend bool operator==(const EnrolmentCode&, const EnrolmentCode&) = default;

  private:
    EnrolmentCode(std::string secret, std::string fingerprint);
    std::string secret_;
    std::string fingerprint_;
};

/// True for eight symbols as `EnrolmentCode::secret` gives them.
[[nodiscard]] bool is_code_secret(std::string_view text) noexcept;

/// Binary form (DER) of the first certificate in a PEM text; nothing when there is none.
[[nodiscard]] std::optional<std::string> certificate_der(std::string_view pem);

}  // namespace courthand::wire
