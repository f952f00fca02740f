#include "wire/enrolment_code.h"

#include <fmt/format.h>
#include <openssl/bio.h>
#include <openssl/pem.h>
#include <openssl/rand.h>
#include <openssl/x509.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <cstdint>
#include <cstdlib>
#include <memory>
#include <utility>

#include "wire/sha256.h"

namespace courthand::wire {
namespace {

constexpr std::string_view symbols = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
constexpr unsigned symbol_bits = 5;

/// Five bits a symbol, the first bits first. Only whole symbols are written.
std::string base32(const std::uint8_t* bytes, std::size_t count) {
    std::string text;
    unsigned bits = 0;
    unsigned waiting = 0;
    for (std::size_t i = 0; i < count; ++i) {
        bits = (bits << 8U | bytes[i]) & 0xFFFFU;
        for (waiting += 8; waiting >= symbol_bits; waiting -= symbol_bits)
            text += symbols[bits >> (waiting - symbol_bits) & 31U];
    }
    return text;
}

constexpr std::size_t bytes_of(std::size_t symbol_count) {
    static_assert(secret_symbols * symbol_bits % 8 == 0 &&
                  fingerprint_symbols * symbol_bits % 8 == 0);
    return symbol_count * symbol_bits / 8;
}

std::string fingerprint_of(std::string_view authority_der) {
    return base32(sha256(authority_der).data(), bytes_of(fingerprint_symbols));
}

std::string random_secret() {
    std::array<std::uint8_t, bytes_of(secret_symbols)> bytes{};
    if (RAND_bytes(bytes.data(), static_cast<int>(bytes.size())) != 1) std::abort();
    return base32(bytes.data(), bytes.size());
}

/// The symbol that a typed character means; nothing when it means none.
std::optional<char> symbol_of(char typed) noexcept {
    const char c = typed >= 'a' && typed <= 'z' ? static_cast<char>(typed - 'a' + 'A') : typed;
    if (c == 'O') return '0';
    if (c == 'I' || c == 'L') return '1';
    if (symbols.find(c) == std::string_view::npos) return std::nullopt;
    return c;
}

bool between_symbols(char c) noexcept {
    return c == ' ' || c == '-' || c == '\t' || c == '\n' || c == '\r';
}

std::string not_a_symbol(std::size_t at, char typed) {
    const bool plain = typed > ' ' && typed <= '~';
    return fmt::format(
        "Character {} of group {}{} is used in no code: codes have digits and the letters A to Z "
        "without I, L, O and U. Compare this group with the code at the desk.",
        at % group_symbols + 1, at / group_symbols + 1,
        plain ? fmt::format(" (\"{}\")", typed) : std::string{});
}

std::string wrong_length(std::size_t typed) {
    if (typed == 0)
        return fmt::format("No code was given. Ask the desk for one: it has {} characters.",
                           code_symbols);
    return fmt::format("The code has {} characters; {} are needed. Type all {} groups of {}.",
                       typed, code_symbols, code_symbols / group_symbols, group_symbols);
}

}  // namespace

EnrolmentCode::EnrolmentCode(std::string secret, std::string fingerprint)
    : secret_{std::move(secret)}, fingerprint_{std::move(fingerprint)} {}

EnrolmentCode EnrolmentCode::make(std::string_view secret, std::string_view authority_der) {
    assert(is_code_secret(secret));
    return {std::string{secret}, fingerprint_of(authority_der)};
}

EnrolmentCode EnrolmentCode::make_random(std::string_view authority_der) {
    return make(random_secret(), authority_der);
}

std::variant<EnrolmentCode, std::string> EnrolmentCode::parse(std::string_view text) {
    std::string read;
    for (const char c : text) {
        if (between_symbols(c)) continue;
        if (read.size() == code_symbols)
            return fmt::format("The code has more than {} characters. Type it again.",
                               code_symbols);
        const auto symbol = symbol_of(c);
        if (!symbol) return not_a_symbol(read.size(), c);
        read += *symbol;
    }
    if (read.size() < code_symbols) return wrong_length(read.size());
    return EnrolmentCode{read.substr(0, secret_symbols), read.substr(secret_symbols)};
}

std::string EnrolmentCode::to_text() const {
    const std::string whole = secret_ + fingerprint_;
    std::string text;
    for (std::size_t i = 0; i < whole.size(); ++i) {
        if (i != 0 && i % group_symbols == 0) text += ' ';
        text += whole[i];
    }
    return text;
}

bool EnrolmentCode::fits(std::string_view authority_der) const {
    return fingerprint_ == fingerprint_of(authority_der);
}

bool is_code_secret(std::string_view text) noexcept {
    return text.size() == secret_symbols && std::all_of(text.begin(), text.end(), [](char c) {
               return symbols.find(c) != std::string_view::npos;
           });
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
