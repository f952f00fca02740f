#include "courthand/forecast/expectation.h"

namespace courthand::forecast {
namespace {

/// What a place weighs less than is not reckoned: it moves no quantile by a second.
constexpr double negligible_weight = 1e-6;

}  // namespace

Expectation::Expectation(const MatchFormat& format, double serve) : format_{format}, serve_{serve} {
    tables_.reserve(strengths);
    for (std::size_t i = 0; i < strengths; ++i)
        tables_.emplace_back(format, RallyOdds{strength_at(i) - serve, strength_at(i) + serve});
}

MatchCourse Expectation::fresh(const StrengthPrior& prior) const {
    return live(prior, match_start(format_, Team::A), {});
}

MatchCourse Expectation::live(const StrengthPrior& prior, const MatchNow& now,
                              PerTeam<int> rallies_won) const {
    auto weights = strength_weights(prior, rallies_won);
    double reckoned = 0;
    for (double& weight : weights) {
        if (weight < negligible_weight) weight = 0;
        reckoned += weight;
    }
    MatchCourse course;
    for (std::size_t i = 0; i < strengths; ++i)
        if (weights[i] > 0) course.add(tables_[i].course(now), weights[i] / reckoned);
    return course;
}

}  // namespace courthand::forecast
