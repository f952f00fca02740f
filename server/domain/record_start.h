// The hash a record starts from.
#pragma once

#include "server/domain/ids.h"

namespace courthand::server {

/// SHA-256 of the 16 bytes of the match id: what the first entry names as its predecessor.
[[nodiscard]] Hash start_hash(MatchId match);

/// SHA-256 of an entry's bytes as they arrived.
[[nodiscard]] Hash hash_of(std::string_view bytes);

}  // namespace courthand::server
