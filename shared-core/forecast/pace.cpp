#include "courthand/forecast/pace.h"

#include <cmath>

namespace courthand::forecast {
namespace {

constexpr double square(double x) {
    return x * x;
}

/// The deviation of days that is believed weighs like so many days that were seen; judgement.
constexpr double days_believed = 4;

}  // namespace

PacePrior pace_of_hall(const PacePrior& prior, const std::vector<EarlierDay>& days) {
    std::vector<Normal> seen;  // the pace of each day, and how far that is off by its matches alone
    for (const EarlierDay& day : days)
        if (day.matches > 0 && day.rallies > 0)
            seen.push_back(
                {day.seconds / day.rallies, square(prior.match_deviation) / day.matches +
                                                square(prior.rally_deviation) / day.rallies});
    if (seen.empty()) return prior;
    double mean = 0;
    for (const Normal& day : seen) mean += day.mean / static_cast<double>(seen.size());
    double squares = days_believed * square(prior.day_deviation);
    for (const Normal& day : seen) squares += square(day.mean - mean);
    const double of_days = squares / (days_believed + static_cast<double>(seen.size()) - 1);
    Normal hall{prior.mean, square(prior.hall_deviation)};
    for (const Normal& day : seen) hall = updated(hall, day.mean, of_days + day.variance);
    PacePrior known = prior;
    known.mean = hall.mean;
    known.hall_deviation = std::sqrt(hall.variance);
    known.day_deviation = std::sqrt(of_days);
    return known;
}

Normal pace_of_day(const PacePrior& prior, const std::vector<Played>& matches) {
    Normal day{prior.mean, square(prior.hall_deviation) + square(prior.day_deviation)};
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
