#include "forecast/chance.h"

#include <bit>
#include <cmath>
#include <numbers>

#include "courthand/draw/random.h"

namespace courthand::forecast {

double normal_quantile(double chance) {
    // Newton's method on the distribution function, from the middle of the half that it lies in;
    // the function is concave above it, so that no step goes too far.
    if (chance < 0.5) return -normal_quantile(1 - chance);
    double x = 0;
    for (int step = 0; step < 60; ++step) {
        const double below = 0.5 * std::erfc(-x / std::numbers::sqrt2);
        const double density =
            std::exp(-x * x / 2) / (std::numbers::sqrt2 / std::numbers::inv_sqrtpi);
        const double change = (chance - below) / density;
        x += change;
        if (std::abs(change) < 1e-13) break;
    }
    return x;
}

Chance::Chance(std::uint64_t seed, std::uint32_t samples)
    : seed_{seed},
      last_{samples - 1},
      half_way_{static_cast<std::uint32_t>(std::bit_width(samples)) / 2} {
    for (std::uint32_t part = 0; part < samples; ++part) {
        const double middle = (part + 0.5) / samples;
        normals_.push_back(normal_quantile(middle));
        exponentials_.push_back(-std::log1p(-middle));
    }
}

std::uint32_t Chance::part(std::uint64_t stream, std::uint32_t sample) const noexcept {
    // Odd factors and shifts to the right can be undone within so many bits, so no part falls
    // twice.
    draw::Random random{seed_ ^ (stream * 0x9e3779b97f4a7c15U)};
    std::uint32_t x = sample;
    for (int round = 0; round < 2; ++round) {
        const std::uint64_t key = random.next();
        x = (x * (static_cast<std::uint32_t>(key) | 1U) + static_cast<std::uint32_t>(key >> 32U)) &
            last_;
        x ^= x >> half_way_;
    }
    return x;
}

}  // namespace courthand::forecast
