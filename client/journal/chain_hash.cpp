#include "client/journal/chain_hash.h"

#include "wire/sha256.h"

namespace courthand::client {

std::string chain_hash(std::string_view bytes) {
    return wire::to_bytes(wire::sha256(bytes));
}

std::string first_hash(std::string_view match_id) {
    std::string raw;
    unsigned pending = 0;
    bool half = false;
    for (const char c : match_id) {
        if (c == '-') continue;
        const auto digit = static_cast<unsigned>(c <= '9' ? c - '0' : (c | 0x20) - 'a' + 10) & 15U;
        if (half) raw.push_back(static_cast<char>(pending << 4U | digit));
        pending = digit;
        half = !half;
    }
    return chain_hash(raw);
}

}  // namespace courthand::client
