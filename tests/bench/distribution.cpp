#include "tests/bench/distribution.h"

#include <algorithm>
#include <bit>
#include <cmath>

namespace courthand::bench {
namespace {

/// Steps of each doubling: 64 make a step 1/64 of its value.
constexpr unsigned step_bits = 6;
constexpr std::uint64_t steps_of_doubling = 1U << step_bits;
/// Exact up to here.
constexpr std::uint64_t exact_below = steps_of_doubling * 2;
constexpr unsigned doublings = 30;
constexpr std::uint64_t longest_counted = (exact_below << doublings) - 1;

std::size_t step_of(std::uint64_t us) {
    us = std::min(us, longest_counted);
    if (us < exact_below) return us;
    const auto shift = static_cast<unsigned>(std::bit_width(us)) - (step_bits + 1);
    return exact_below + (shift - 1) * steps_of_doubling + (us >> shift) - steps_of_doubling;
}

/// The highest value that counts in the step.
std::uint64_t top_of(std::size_t step) {
    if (step < exact_below) return step;
    const std::size_t above = step - exact_below;
    const std::size_t shift = above / steps_of_doubling + 1;
    return ((above % steps_of_doubling + steps_of_doubling + 1) << shift) - 1;
}

}  // namespace

Distribution::Distribution() : steps_(exact_below + doublings * steps_of_doubling) {}

void Distribution::add(std::chrono::steady_clock::duration duration) {
    const auto us = std::chrono::duration_cast<std::chrono::microseconds>(duration).count();
    const auto counted = static_cast<std::uint64_t>(std::max<std::int64_t>(us, 0));
    ++steps_[step_of(counted)];
    ++count_;
    longest_us_ = std::max(longest_us_, counted);
}

void Distribution::add(const Distribution& other) {
    for (std::size_t i = 0; i < steps_.size(); ++i) steps_[i] += other.steps_[i];
    count_ += other.count_;
    longest_us_ = std::max(longest_us_, other.longest_us_);
}

double Distribution::quantile_us(double share) const {
    const auto wanted = static_cast<std::uint64_t>(std::ceil(share * static_cast<double>(count_)));
    std::uint64_t seen = 0;
    for (std::size_t i = 0; i < steps_.size(); ++i) {
        seen += steps_[i];
        if (seen >= wanted && seen > 0)
            return static_cast<double>(std::min(top_of(i), longest_us_));
    }
    return 0;
}

}  // namespace courthand::bench
