#include "forecast/chance.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <numbers>

#include "courthand/draw/random.h"

namespace courthand::forecast {
namespace {

/// The chance that a gamma variable of this shape lies below x: the series of the incomplete gamma
/// function, which has positive terms only; so far out that it takes too many, all lies below.
double gamma_below(double shape, double x) {
    if (x <= 0) return 0;
    double term = 1 / shape;
    double sum = term;
    constexpr int most_terms = 100'000;
    for (int n = 1; n < most_terms && term > sum * 1e-16; ++n) sum += term *= x / (shape + n);
    return std::min(1.0, sum * std::exp(shape * std::log(x) - x - std::lgamma(shape)));
}

}  // namespace

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

double gamma_quantile(double shape, double chance) {
    // Newton's method held between bounds, from Wilson and Hilferty's cube of a normal variable
    // (1931; memory). Of small shapes that cube is nonsense in the lower tail, where the power of
    // the density alone is nearly exact.
    double low = 0;
    double high = shape + 40 * std::sqrt(shape) + 40;
    const double root = 1 - 1 / (9 * shape) + normal_quantile(chance) / (3 * std::sqrt(shape));
    double x = root > .3 ? shape * root * root * root
                         : std::exp((std::log(chance) + std::lgamma(shape + 1)) / shape);
    for (int step = 0; step < 100; ++step) {
        const double off = gamma_below(shape, x) - chance;
        (off < 0 ? low : high) = x;
        const double density = std::exp((shape - 1) * std::log(x) - x - std::lgamma(shape));
        double next = x - off / density;
        if (!(next > low && next < high)) next = (low + high) / 2;
        const double change = std::abs(next - x);
        x = next;
        if (change <= 1e-13 * x) break;
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

Chance::Order Chance::order(std::uint64_t stream) const noexcept {
    // Seed and stream are mixed apart from each other: keys of neighbours would overlap.
    draw::Random random{draw::Random{seed_}.next() ^ draw::Random{~stream}.next()};
    Order order;
    for (std::size_t round = 0; round < rounds; ++round) {
        const std::uint64_t key = random.next();
        order.factors[round] = static_cast<std::uint32_t>(key) | 1U;
        order.shifts[round] = static_cast<std::uint32_t>(key >> 32U);
    }
    return order;
}

std::uint32_t Chance::part(const Order& order, std::uint32_t sample) const noexcept {
    std::uint32_t x = sample;
    for (std::size_t round = 0; round < rounds; ++round) {
        x = (x * order.factors[round] + order.shifts[round]) & last_;
        x ^= x >> half_way_;
    }
    return x;
}

}  // namespace courthand::forecast
