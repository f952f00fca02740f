// Hash and serialized form of entries. An entry is serialized once, here; from then on its bytes
// are what is stored, sent and hashed.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <variant>

#include "courthand/v1/entry.pb.h"
#include "wire/message_limits.h"
#include "wire/uuid.h"

namespace courthand::wire {

inline constexpr std::size_t hash_bytes = 32;
/// SHA-256.
using Hash = std::array<std::uint8_t, hash_bytes>;

[[nodiscard]] std::string to_bytes(const Hash& hash);
/// 64 lower-case hexadecimal digits.
[[nodiscard]] std::string to_hex(const Hash& hash);
/// From the bytes of a message field; nothing when there are not exactly 32.
[[nodiscard]] std::optional<Hash> hash_from_bytes(std::string_view bytes) noexcept;

/// SHA-256 with the algorithm fetched once and the context used again: half the cost of a one-shot
/// call on entries of this size. Not thread-safe: one for each thread.
class Hasher {
  public:
    Hasher();
    ~Hasher();
    Hasher(Hasher&&) noexcept;
    Hasher& operator=(Hasher&&) noexcept;

    [[nodiscard]] Hash of(std::string_view bytes);

  private:
    struct Parts;
    std::unique_ptr<Parts> parts_;
};

/// The last entry of a record: what the next one builds on.
struct Head {
    std::uint32_t seq = 0;  ///< 0: the record is empty
    Hash hash{};            ///< of the last entry's bytes; of an empty record, of the match id
    friend bool operator==(const Head&, const Head&) = default;
};

/// Head of a record without entries.
[[nodiscard]] Head genesis(const Uuid& match_id, Hasher& hasher);

/// An entry in its final bytes.
struct SealedEntry {
    std::string bytes;
    Head head;  ///< of the record that ends with this entry
};

/// Gives `entry` its number and prev_hash and serializes it. Everything else must be set; what is
/// missing or out of bounds comes back as an error and nothing has happened.
[[nodiscard]] std::variant<SealedEntry, Unreadable> seal(v1::Entry entry, const Head& head,
                                                         Hasher& hasher);

}  // namespace courthand::wire
