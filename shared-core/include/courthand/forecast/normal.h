// A normal distribution as a value: what is believed of a number.
#pragma once

namespace courthand::forecast {

struct Normal {
    double mean = 0;
    double variance = 1;
    friend constexpr bool operator==(Normal, Normal) = default;
};

/// What is believed after one more measurement of the number, whose error has this variance: means
/// are weighted by one over variance (conjugate update; memory).
[[nodiscard]] constexpr Normal updated(Normal belief, double measured, double variance) noexcept {
    const double weight = belief.variance / (belief.variance + variance);
    return {belief.mean + weight * (measured - belief.mean), belief.variance * (1 - weight)};
}

}  // namespace courthand::forecast
