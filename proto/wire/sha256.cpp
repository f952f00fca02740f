#include "wire/sha256.h"

#include <fmt/format.h>
#include <openssl/evp.h>

#include <cstdlib>
#include <cstring>

#include "wire/work_done.h"

namespace courthand::wire {

struct Hasher::Parts {
    EVP_MD* algorithm = nullptr;
    EVP_MD_CTX* context = nullptr;

    Parts() : algorithm{EVP_MD_fetch(nullptr, "SHA256", nullptr)}, context{EVP_MD_CTX_new()} {
        // A crypto library without SHA-256 cannot keep a record: there is nothing to fall back to.
        if (algorithm == nullptr || context == nullptr) std::abort();
    }
    ~Parts() {
        EVP_MD_CTX_free(context);
        EVP_MD_free(algorithm);
    }
    Parts(const Parts&) = delete;
    Parts& operator=(const Parts&) = delete;
};

Hasher::Hasher() : parts_{std::make_unique<Parts>()} {}
Hasher::~Hasher() = default;
Hasher::Hasher(Hasher&&) noexcept = default;
Hasher& Hasher::operator=(Hasher&&) noexcept = default;

Hash Hasher::of(std::string_view bytes) {
    count_hash();
    Hash hash{};
    const bool done = EVP_DigestInit_ex2(parts_->context, parts_->algorithm, nullptr) == 1 &&
                      EVP_DigestUpdate(parts_->context, bytes.data(), bytes.size()) == 1 &&
                      EVP_DigestFinal_ex(parts_->context, hash.data(), nullptr) == 1;
    if (!done) std::abort();  // a wrong hash would break the chain silently
    return hash;
}

std::string to_bytes(const Hash& hash) {
    return {reinterpret_cast<const char*>(hash.data()), hash.size()};
}

std::string to_hex(const Hash& hash) {
    std::string text;
    text.reserve(2 * hash_bytes);
    for (const std::uint8_t byte : hash) text += fmt::format("{:02x}", byte);
    return text;
}

std::optional<Hash> hash_from_bytes(std::string_view bytes) noexcept {
    if (bytes.size() != hash_bytes) return std::nullopt;
    Hash hash;
    std::memcpy(hash.data(), bytes.data(), hash_bytes);
    return hash;
}

Hash sha256(std::string_view bytes) {
    thread_local Hasher hasher;
    return hasher.of(bytes);
}

}  // namespace courthand::wire
