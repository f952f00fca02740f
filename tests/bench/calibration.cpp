#include "tests/bench/calibration.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>

namespace courthand::forecast {
namespace {

/// Delays at one look, in minutes, as somebody at the desk notes them down.
struct Delays {
    double mean = 0;
    std::vector<double> last;  ///< by court

    Delays(const SimulatedDay& truth, const Day& seen) : last(seen.courts.size(), 0) {
        double sum = 0;
        std::size_t count = 0;
        for (std::size_t c = 0; c < seen.courts.size(); ++c)
            for (const MatchIndex match : seen.courts[c])
                if (const auto* over = std::get_if<Over>(&seen.matches[match].state)) {
                    last[c] = over->ended - truth.planned_end[match];
                    sum += last[c];
                    ++count;
                }
        if (count > 0) mean = sum / static_cast<double>(count);
    }
};

void judge(Calibration& calibration, const SimulatedDay& truth, const Judged& one, Minute ahead) {
    calibration.all.add(one);
    const auto hour = static_cast<std::size_t>(ahead / 60);
    calibration.by_horizon[std::min(hour, Calibration::horizons - 1)].add(one);
    calibration.by_pace[truth.pace < 30 ? 0 : truth.pace <= 35 ? 1 : 2].add(one);
}

void look(Calibration& calibration, const SimulatedDay& truth, const Day& seen,
          const DayForecast& forecast) {
    const Delays delays{truth, seen};
    for (std::size_t c = 0; c < seen.courts.size(); ++c)
        for (const MatchIndex match : seen.courts[c]) {
            if (std::holds_alternative<Over>(seen.matches[match].state)) continue;
            const Minute ended = truth.matches[match].ended;
            const Band& end = forecast.matches[match].end;
            Judged one;
            one.forecasts = 1;
            for (std::size_t i = 0; i < end.deciles.size(); ++i)
                one.before[i] = ended < end.deciles[i] ? 1 : 0;
            const auto off = [&](Minute said) {
                return std::abs(std::max(said, seen.now) - ended);
            };
            one.off = off(end.p50());
            one.mean_delay_off = off(truth.planned_end[match] + delays.mean);
            one.court_delay_off = off(truth.planned_end[match] + delays.last[c]);
            judge(calibration, truth, one, end.p50() - seen.now);
        }
}

}  // namespace

double Judged::share(std::size_t decile) const {
    return forecasts == 0 ? 0
                          : static_cast<double>(before[decile]) / static_cast<double>(forecasts);
}

double Judged::mean_off(double sum) const {
    return forecasts == 0 ? 0 : sum / static_cast<double>(forecasts);
}

void Judged::add(const Judged& other) {
    forecasts += other.forecasts;
    for (std::size_t i = 0; i < before.size(); ++i) before[i] += other.before[i];
    off += other.off;
    mean_delay_off += other.mean_delay_off;
    court_delay_off += other.court_delay_off;
}

Calibration calibrate(const Trial& trial, const Habits& habits, const Beliefs& beliefs) {
    Calibration calibration;
    Forecaster forecaster;
    std::vector<EarlierDay> earlier;
    for (std::size_t d = 0; d < trial.days; ++d) {
        const SimulatedDay truth = simulated_day(trial.first_seed + d, habits);
        const Minute last = std::max_element(truth.matches.begin(), truth.matches.end(),
                                             [](const TrueMatch& x, const TrueMatch& y) {
                                                 return x.ended < y.ended;
                                             })
                                ->ended;
        const PacePrior pace = pace_of_hall(beliefs.pace, earlier);
        for (Minute now = day_begins - 30; now < last; now += trial.minutes_between) {
            Day seen = truth.seen_at(now);
            seen.kinds[0].strength = beliefs.strength;
            seen.kinds[0].pace = pace;
            seen.punctuality = beliefs.punctuality;
            const auto result = forecaster.forecast(seen, {trial.first_seed + d, trial.samples});
            if (const auto* faults = std::get_if<Faults>(&result))
                throw std::runtime_error{faults->front().message};
            look(calibration, truth, seen, std::get<DayForecast>(result));
        }
        if (trial.hall == Hall::remembered && earlier.size() < most_earlier_days)
            earlier.push_back(shown_by(truth.seen_at(last), 0));
    }
    return calibration;
}

}  // namespace courthand::forecast
