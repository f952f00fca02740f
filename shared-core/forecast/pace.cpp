#include "courthand/forecast/pace.h"

namespace courthand::forecast {
namespace {

constexpr double square(double x) {
    return x * x;
}

}  // namespace

Normal pace_of_day(const PacePrior& prior, const std::vector<Played>& matches) {
    Normal day{prior.mean, square(prior.day_deviation)};
    for (const Played& played : matches)
        if (played.rallies > 0)
            day = updated(
                day, played.seconds / played.rallies,
                square(prior.match_deviation) + square(prior.rally_deviation) / played.rallies);
    return day;
}

Normal pace_of_match(const PacePrior& prior, double day, const Played& played) {
    const Normal unseen{day, square(prior.match_deviation)};
    if (played.rallies <= 0) return unseen;
    return updated(unseen, played.seconds / played.rallies,
                   square(prior.rally_deviation) / played.rallies);
}

}  // namespace courthand::forecast
