#include "server/domain/program_fingerprint.h"

#include <openssl/evp.h>

#include <array>
#include <fstream>
#include <memory>
#include <vector>

namespace courthand::server {
namespace {

std::string hex(const unsigned char* bytes, std::size_t count) {
    constexpr const char* digits = "0123456789abcdef";
    std::string text;
    for (std::size_t i = 0; i < count; ++i) {
        text.push_back(digits[bytes[i] >> 4U]);
        text.push_back(digits[bytes[i] & 15U]);
    }
    return text;
}

std::string hash_of_file(const char* path) {
    std::ifstream file{path, std::ios::binary};
    const std::unique_ptr<EVP_MD_CTX, decltype(&EVP_MD_CTX_free)> context{EVP_MD_CTX_new(),
                                                                          &EVP_MD_CTX_free};
    if (!file || !context || EVP_DigestInit_ex(context.get(), EVP_sha256(), nullptr) != 1)
        return {};
    std::vector<char> piece(std::size_t{1} << 20U);
    while (file) {
        file.read(piece.data(), static_cast<std::streamsize>(piece.size()));
        EVP_DigestUpdate(context.get(), piece.data(), static_cast<std::size_t>(file.gcount()));
    }
    if (!file.eof()) return {};
    std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
    unsigned int size = 0;
    if (EVP_DigestFinal_ex(context.get(), digest.data(), &size) != 1) return {};
    return hex(digest.data(), size);
}

}  // namespace

const std::string& program_fingerprint() {
    static const std::string fingerprint = hash_of_file("/proc/self/exe");
    return fingerprint;
}

}  // namespace courthand::server
