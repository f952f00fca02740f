#include "courthand/forecast/strength.h"

#include <algorithm>
#include <cmath>

namespace courthand::forecast {

std::array<double, strengths> strength_weights(const StrengthPrior& prior,
                                               PerTeam<int> rallies_won) {
    const double a = prior.p * prior.rallies + rallies_won.a - 1;
    const double b = (1 - prior.p) * prior.rallies + rallies_won.b - 1;
    std::array<double, strengths> weights{};
    for (std::size_t i = 0; i < strengths; ++i)
        weights[i] = a * std::log(strength_at(i)) + b * std::log(1 - strength_at(i));
    // By the largest, so that none overflows.
    const double largest = *std::max_element(weights.begin(), weights.end());
    double sum = 0;
    for (double& weight : weights) sum += weight = std::exp(weight - largest);
    for (double& weight : weights) weight /= sum;
    return weights;
}

}  // namespace courthand::forecast
