// An exact quotient of two counts; standings never compare rounded numbers.
#pragma once

#include <compare>
#include <cstdint>
#include <string>

namespace courthand::standings {

/// `numerator / denominator`, the denominator never negative. Something won and nothing lost (n/0)
/// is above any finite value; nothing won and nothing lost (0/0) counts as nothing won.
struct Quotient {
    std::int64_t numerator = 0;
    std::int64_t denominator = 1;

    [[nodiscard]] constexpr bool infinite() const noexcept {
        return denominator == 0 && numerator > 0;
    }
    [[nodiscard]] constexpr std::int64_t divisor() const noexcept {
        return denominator == 0 ? 1 : denominator;
    }
    friend constexpr std::strong_ordering operator<=>(const Quotient& a,
                                                      const Quotient& b) noexcept {
        if (a.infinite() || b.infinite()) return a.infinite() <=> b.infinite();
        return a.numerator * b.divisor() <=> b.numerator * a.divisor();
    }
    friend constexpr bool operator==(const Quotient& a, const Quotient& b) noexcept {
        return (a <=> b) == 0;
    }
};

/// Rounded half up to `digits` decimals for people to read; "-" when nothing was lost, as published
/// tables print it. Of a quotient that is not negative.
[[nodiscard]] std::string decimal(const Quotient& quotient, int digits = 4);

}  // namespace courthand::standings
