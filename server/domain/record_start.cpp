#include "server/domain/record_start.h"

#include "wire/sha256.h"

namespace courthand::server {

Hash hash_of(std::string_view bytes) {
    return wire::sha256(bytes);
}

Hash start_hash(MatchId match) {
    return hash_of(to_bytes(match.value));
}

}  // namespace courthand::server
