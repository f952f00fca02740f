// A set of rallies of one set of a match, one bit each.
#pragma once

#include <array>
#include <bit>
#include <cstddef>
#include <cstdint>

namespace courthand {

/// Rallies 1 to 128; a later one shares the last bit. The longest set ever thinkable under the
/// formats of `MatchFormat` ends long before: a set to 25 takes 45 rallies on average.
class RallyBits {
  public:
    static constexpr std::uint16_t most_rallies = 128;

    constexpr void add(std::uint16_t rally) noexcept { words_[word(rally)] |= bit(rally); }
    [[nodiscard]] constexpr bool any() const noexcept {
        return (words_[0] | words_[1] | words_[2] | words_[3]) != 0;
    }
    [[nodiscard]] constexpr std::uint8_t count() const noexcept {
        int n = 0;
        for (const std::uint32_t w : words_) n += std::popcount(w);
        return static_cast<std::uint8_t>(n);
    }
    /// The latest rally in it; 0 when there is none.
    [[nodiscard]] constexpr std::uint16_t last() const noexcept {
        for (std::size_t w = words_.size(); w-- > 0;)
            if (words_[w] != 0)
                return static_cast<std::uint16_t>(
                    32 * w + 32 - static_cast<unsigned>(std::countl_zero(words_[w])));
        return 0;
    }
    /// Those from rally `first` on.
    [[nodiscard]] constexpr RallyBits from(std::uint16_t first) const noexcept {
        RallyBits r = *this;
        if (first <= 1) return r;
        for (std::size_t w = 0; w < word(first); ++w) r.words_[w] = 0;
        r.words_[word(first)] &= ~(bit(first) - 1U);
        return r;
    }
    [[nodiscard]] constexpr RallyBits without(const RallyBits& other) const noexcept {
        RallyBits r = *this;
        for (std::size_t w = 0; w < words_.size(); ++w) r.words_[w] &= ~other.words_[w];
        return r;
    }
    [[nodiscard]] constexpr RallyBits in_common(const RallyBits& other) const noexcept {
        RallyBits r = *this;
        for (std::size_t w = 0; w < words_.size(); ++w) r.words_[w] &= other.words_[w];
        return r;
    }
    constexpr void add_all(const RallyBits& other) noexcept {
        for (std::size_t w = 0; w < words_.size(); ++w) words_[w] |= other.words_[w];
    }
    friend constexpr bool operator==(const RallyBits&, const RallyBits&) = default;

  private:
    [[nodiscard]] static constexpr std::uint16_t place(std::uint16_t rally) noexcept {
        return static_cast<std::uint16_t>((rally > most_rallies ? most_rallies
                                           : rally == 0         ? 1
                                                                : rally) -
                                          1);
    }
    [[nodiscard]] static constexpr std::size_t word(std::uint16_t rally) noexcept {
        return place(rally) / 32U;
    }
    [[nodiscard]] static constexpr std::uint32_t bit(std::uint16_t rally) noexcept {
        return std::uint32_t{1} << (place(rally) % 32U);
    }

    std::array<std::uint32_t, 4> words_{};
};

}  // namespace courthand
