// The hash by which one entry names the one before it: SHA-256 over the exact bytes.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace courthand::client {

inline constexpr std::size_t hash_bytes = 32;

[[nodiscard]] std::string chain_hash(std::string_view bytes);
/// What the first entry of a match follows: the hash of the match's id, 16 bytes.
[[nodiscard]] std::string first_hash(std::string_view match_id);

}  // namespace courthand::client
