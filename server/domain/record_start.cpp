#include "server/domain/record_start.h"

#include <openssl/sha.h>

namespace courthand::server {

Hash hash_of(std::string_view bytes) {
    Hash hash{};
    SHA256(reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size(), hash.data());
    return hash;
}

Hash start_hash(MatchId match) {
    return hash_of(to_bytes(match.value));
}

}  // namespace courthand::server
