// A distribution over whole numbers of rallies.
#pragma once

#include <cstddef>
#include <vector>

namespace courthand::forecast {

/// The chance of each number of rallies, from 0. Sums to 1, or to the chance of what it is a part
/// of: "A wins in three sets".
using Lengths = std::vector<double>;

[[nodiscard]] double total(const Lengths& lengths);
/// Of a distribution that sums to 1; in rallies.
[[nodiscard]] double mean(const Lengths& lengths);
[[nodiscard]] double deviation(const Lengths& lengths);  ///< standard deviation, in rallies
/// The fewest rallies that are enough with at least this chance (0 to 1).
[[nodiscard]] std::size_t quantile(const Lengths& lengths, double chance);

/// into += share * part
void add(Lengths& into, const Lengths& part, double share = 1);
/// into += the distribution of the sum of two independent numbers.
void add_sum(Lengths& into, const Lengths& first, const Lengths& second);

}  // namespace courthand::forecast
