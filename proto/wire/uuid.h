// Ids: UUID version 7 (RFC 9562), which sort by the moment they were made.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace courthand::wire {

/// 16 bytes; all zero means "none".
class Uuid {
  public:
    static constexpr std::size_t size = 16;

    constexpr Uuid() noexcept = default;
    constexpr explicit Uuid(const std::array<std::uint8_t, size>& bytes) noexcept : bytes_{bytes} {}

    /// From the bytes of a message field; nothing when there are not exactly 16.
    [[nodiscard]] static std::optional<Uuid> from_bytes(std::string_view bytes) noexcept;
    /// From "0190a5f0-…", 36 characters, upper or lower case.
    [[nodiscard]] static std::optional<Uuid> from_text(std::string_view text) noexcept;

    [[nodiscard]] std::string to_bytes() const;
    [[nodiscard]] std::string to_text() const;
    [[nodiscard]] constexpr bool none() const noexcept { return *this == Uuid{}; }
    [[nodiscard]] constexpr const std::array<std::uint8_t, size>& bytes() const noexcept {
        return bytes_;
    }
    /// Milliseconds since 1970 in the first 48 bits. Only meaningful for version 7.
    [[nodiscard]] std::uint64_t milliseconds() const noexcept;

    friend constexpr bool operator==(const Uuid&, const Uuid&) = default;
    friend constexpr auto operator<=>(const Uuid&, const Uuid&) = default;

  private:
    std::array<std::uint8_t, size> bytes_{};
};

/// Makes ids of version 7. Each is greater than the one before, even when the clock stands still or
/// goes back. Not thread-safe: one maker for each thread, or a lock around it.
class UuidMaker {
  public:
    /// Milliseconds since 1970-01-01 UTC.
    using Clock = std::function<std::uint64_t()>;
    /// Fills the span with unpredictable bytes.
    using Random = std::function<void(std::span<std::uint8_t>)>;

    UuidMaker(Clock clock, Random random);
    /// A maker on the system clock and the random source of the crypto library.
    [[nodiscard]] static UuidMaker of_system();

    [[nodiscard]] Uuid next();

  private:
    Clock clock_;
    Random random_;
    std::uint64_t last_ms_ = 0;
    std::uint64_t tail_ = 0;    ///< the 62 random bits of the last id
    std::uint16_t middle_ = 0;  ///< its 12 random bits after the version
    bool made_any_ = false;
};

/// Hash of an id for unordered containers.
struct UuidHash {
    [[nodiscard]] std::size_t operator()(const Uuid& id) const noexcept;
};

}  // namespace courthand::wire
