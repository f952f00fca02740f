// SHA-256, the one way to it of all our programs.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

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

/// Of one text, with a hasher of this thread.
[[nodiscard]] Hash sha256(std::string_view bytes);

}  // namespace courthand::wire
