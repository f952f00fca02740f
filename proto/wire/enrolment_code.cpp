#include "wire/enrolment_code.h"

#include <fmt/format.h>
#include <openssl/bio.h>
#include <openssl/pem.h>
#include <openssl/rand.h>
#include <openssl/x509.h>

#include <algorithm>
#include <cassert>
#include <cstdint>
#include <cstdlib>
#include <memory>
#include <utility>

#include "wire/entry_bytes.h"

namespace courthand::wire {
namespace {

constexpr std::size_t group_digits = 4;
constexpr std::uint64_t fingerprint_range = 100'000'000'000'000;  // 10^14: fourteen digits
constexpr std::uint32_t secret_range = 1'000'000;

bool is_digit(char c) noexcept {
    return c >= '0' && c <= '9';
}

std::string fingerprint_of(std::string_view authority_der) {
    const Hash hash = Hasher{}.of(authority_der);
    std::uint64_t first = 0;
    for (std::size_t i = 0; i < 8; ++i) first = first << 8 | hash[i];
    return fmt::format("{:014}", first % fingerprint_range);
}

std::string random_secret() {
    // Values past the last whole multiple are drawn again, so that every secret is as likely.
    constexpr std::uint32_t whole = UINT32_MAX / secret_range * secret_range;
    std::uint32_t value = 0;
    do {
        if (RAND_bytes(reinterpret_cast<unsigned char*>(&value), sizeof value) != 1) std::abort();
    } while (value >= whole);
    return fmt::format("{:06}", value % secret_range);
}

}  // namespace

EnrolmentCode::EnrolmentCode(std::string secret, std::string fingerprint)
    : secret_{std::move(secret)}, fingerprint_{std::move(fingerprint)} {}

EnrolmentCode EnrolmentCode::make(std::string_view secret, std::string_view authority_der) {
    assert(secret.size() == secret_digits && std::all_of(secret.begin(), secret.end(), is_digit));
    return {std::string{secret}, fingerprint_of(authority_der)};
}

EnrolmentCode EnrolmentCode::make_random(std::string_view authority_der) {
    return make(random_secret(), authority_der);
}

std::variant<EnrolmentCode, std::string> EnrolmentCode::parse(std::string_view text) {
    std::string digits;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (c == ' ' || c == '-' || c == '\t' || c == '\n' || c == '\r') continue;
        if (!is_digit(c))
            return fmt::format(
                "Character {} of the code is not a digit. A code has {} digits and "
                "nothing else.",
                i + 1, code_digits);
        if (digits.size() == code_digits)
            return fmt::format("The code has more than {} digits. Type it again.", code_digits);
        digits += c;
    }
    if (digits.empty())
        return fmt::format("No code was given. Ask the desk for one: it has {} digits.",
                           code_digits);
    if (digits.size() < code_digits)
        return fmt::format("The code has {} digits; {} are needed. Type all five groups of four.",
                           digits.size(), code_digits);
    return EnrolmentCode{digits.substr(0, secret_digits), digits.substr(secret_digits)};
}

std::string EnrolmentCode::to_text() const {
    const std::string digits = secret_ + fingerprint_;
    std::string text;
    for (std::size_t i = 0; i < digits.size(); ++i) {
        if (i != 0 && i % group_digits == 0) text += ' ';
        text += digits[i];
    }
    return text;
}

bool EnrolmentCode::fits(std::string_view authority_der) const {
    return fingerprint_ == fingerprint_of(authority_der);
}

std::optional<std::string> certificate_der(std::string_view pem) {
    const std::unique_ptr<BIO, decltype(&BIO_free)> source{
        BIO_new_mem_buf(pem.data(), static_cast<int>(pem.size())), BIO_free};
    if (!source) return std::nullopt;
    const std::unique_ptr<X509, decltype(&X509_free)> certificate{
        PEM_read_bio_X509(source.get(), nullptr, nullptr, nullptr), X509_free};
    if (!certificate) return std::nullopt;
    unsigned char* der = nullptr;
    const int length = i2d_X509(certificate.get(), &der);
    if (length <= 0) return std::nullopt;
    std::string bytes{reinterpret_cast<const char*>(der), static_cast<std::size_t>(length)};
    OPENSSL_free(der);
    return bytes;
}

}  // namespace courthand::wire
