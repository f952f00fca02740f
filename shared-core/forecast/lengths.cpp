#include "courthand/forecast/lengths.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace courthand::forecast {

double total(const Lengths& lengths) {
    return std::accumulate(lengths.begin(), lengths.end(), 0.0);
}

double mean(const Lengths& lengths) {
    double sum = 0;
    for (std::size_t n = 0; n < lengths.size(); ++n) sum += static_cast<double>(n) * lengths[n];
    return sum;
}

double deviation(const Lengths& lengths) {
    const double middle = mean(lengths);
    double sum = 0;
    for (std::size_t n = 0; n < lengths.size(); ++n)
        sum += (static_cast<double>(n) - middle) * (static_cast<double>(n) - middle) * lengths[n];
    return std::sqrt(sum);
}

std::size_t quantile(const Lengths& lengths, double chance) {
    double sum = 0;
    for (std::size_t n = 0; n < lengths.size(); ++n) {
        sum += lengths[n];
        if (sum >= chance) return n;
    }
    return lengths.empty() ? 0 : lengths.size() - 1;
}

void add(Lengths& into, const Lengths& part, double share) {
    if (into.size() < part.size()) into.resize(part.size(), 0.0);
    for (std::size_t n = 0; n < part.size(); ++n) into[n] += share * part[n];
}

void add_sum(Lengths& into, const Lengths& first, const Lengths& second) {
    if (first.empty() || second.empty()) return;
    into.resize(std::max(into.size(), first.size() + second.size() - 1), 0.0);
    for (std::size_t n = 0; n < first.size(); ++n) {
        if (first[n] == 0) continue;
        double* const row = into.data() + n;
        for (std::size_t m = 0; m < second.size(); ++m) row[m] += first[n] * second[m];
    }
}

}  // namespace courthand::forecast
