#include "server/tournament/derived_id.h"

#include <openssl/evp.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <string>

namespace courthand::server::tournament {

Uuid derived_id(const Uuid& space, std::string_view name) {
    std::string text = to_bytes(space);
    text.append(name);
    std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
    unsigned int size = 0;
    // The standard takes SHA-1; nothing is kept secret by it.
    if (EVP_Digest(text.data(), text.size(), digest.data(), &size, EVP_sha1(), nullptr) != 1)
        std::abort();
    Uuid id;
    std::copy_n(digest.begin(), id.bytes.size(), id.bytes.begin());
    constexpr std::uint8_t version = 0x50;
    constexpr std::uint8_t variant = 0x80;
    id.bytes[6] = static_cast<std::uint8_t>((id.bytes[6] & 0x0F) | version);
    id.bytes[8] = static_cast<std::uint8_t>((id.bytes[8] & 0x3F) | variant);
    return id;
}

}  // namespace courthand::server::tournament
