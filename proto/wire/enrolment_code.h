// The one-use code with which a device is let in: 20 digits, shown as five groups of four.
//
// The first six are the secret. The other fourteen are taken from the SHA-256 of the authority's
// certificate, so that a device can tell the venue's server from another one before it sends the
// secret. Six digits can be guessed by trying: the server must end a code after a few wrong tries.
// Fourteen digits (46 bits) hold for the minutes a code lives, not for ever; after enrolment the
// device trusts the authority's certificate itself.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>

namespace courthand::wire {

inline constexpr std::size_t secret_digits = 6;
inline constexpr std::size_t fingerprint_digits = 14;
inline constexpr std::size_t code_digits = secret_digits + fingerprint_digits;
/// Wrong tries after which a server ends a code. They count against the codes with the same first
/// digit, so one in 20,000 is the chance to guess a code.
inline constexpr unsigned most_code_tries = 5;

class EnrolmentCode {
  public:
    /// A code for an authority. `secret` must be six digits, `authority_der` its certificate.
    [[nodiscard]] static EnrolmentCode make(std::string_view secret,
                                            std::string_view authority_der);
    /// A code with a secret from the random source of the crypto library.
    [[nodiscard]] static EnrolmentCode make_random(std::string_view authority_der);
    /// From what a person typed or a camera read: digits with blanks or hyphens between them. The
    /// other alternative is a sentence that says what is wrong.
    [[nodiscard]] static std::variant<EnrolmentCode, std::string> parse(std::string_view text);

    [[nodiscard]] const std::string& secret() const noexcept { return secret_; }
    [[nodiscard]] const std::string& fingerprint() const noexcept { return fingerprint_; }
    /// "1234 5678 9012 3456 7890".
    [[nodiscard]] std::string to_text() const;
    /// True when the code was made for this authority. Check before sending the secret.
    [[nodiscard]] bool fits(std::string_view authority_der) const;

    friend bool operator==(const EnrolmentCode&, const EnrolmentCode&) = default;

  private:
    EnrolmentCode(std::string secret, std::string fingerprint);
    std::string secret_;
    std::string fingerprint_;
};

/// Binary form (DER) of the first certificate in a PEM text; nothing when there is none.
[[nodiscard]] std::optional<std::string> certificate_der(std::string_view pem);

}  // namespace courthand::wire
