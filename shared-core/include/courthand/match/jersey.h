// A jersey number as worn in one match, or none.
#pragma once

#include <cstdint>

namespace courthand {

/// Numbers 0 to 99; `Jersey::none()` marks an empty place. No conversion to or from plain integers.
class Jersey {
  public:
    static constexpr std::uint8_t largest = 99;

    constexpr Jersey() noexcept = default;
    constexpr explicit Jersey(std::uint8_t number) noexcept : number_{number} {}

    [[nodiscard]] static constexpr Jersey none() noexcept { return Jersey{}; }
    [[nodiscard]] constexpr bool worn() const noexcept { return number_ != empty; }
    /// The number itself; only meaningful when `worn()`.
    [[nodiscard]] constexpr std::uint8_t number() const noexcept { return number_; }

    friend constexpr bool operator==(Jersey, Jersey) = default;
    friend constexpr auto operator<=>(Jersey, Jersey) = default;

  private:
    static constexpr std::uint8_t empty = 255;
    std::uint8_t number_ = empty;
};

}  // namespace courthand
