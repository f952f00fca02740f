// Forecasts beside what came: how often ends lay before P50 and P80, and how far off forecasts
// were, with what people do on paper beside them.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "courthand/forecast/day_forecast.h"
#include "tests/bench/simulated_day.h"

namespace courthand::forecast {

/// Forecasts of one sort, and what came of them.
struct Judged {
    std::size_t forecasts = 0;
    std::array<std::size_t, 9> before{};  ///< ends before each decile
    double off = 0;                       ///< sum of |P50 - end|, minutes
    double mean_delay_off = 0;            ///< of planned end plus the mean delay of ended matches
    double court_delay_off = 0;           ///< of planned end plus the last delay of its court

    [[nodiscard]] double share(std::size_t decile) const;
    [[nodiscard]] double mean_off(double sum) const;
    void add(const Judged& other);
};

struct Calibration {
    static constexpr std::size_t horizons = 6;
    Judged all;
    /// By hours until P50; the last holds all that were further ahead. By what came instead, the
    /// lucky would be sorted from the unlucky.
    std::array<Judged, horizons> by_horizon;
    /// Days of less than 30 seconds a rally, up to 35, and more: the extremes show what is learned
    /// too late.
    std::array<Judged, 3> by_pace;
};

/// What the model is told before a day; what it is not told it has from its own values.
struct Beliefs {
    StrengthPrior strength{};
    PacePrior pace{};
    PunctualityPrior punctuality{};
};

/// What is known of the hall on the morning of a day.
enum class Hall : std::uint8_t {
    unknown,     ///< the library's own values, each morning anew
    remembered,  ///< those, and what the days of the trial before this one have shown
};

struct Trial {
    std::uint64_t first_seed = 10'001;
    std::size_t days = 1000;
    double minutes_between = 30;  ///< between two looks at a day
    std::uint32_t samples = 1024;
    Hall hall = Hall::remembered;
};

/// Forecasts every match that is not over, at every look from half an hour before the day.
[[nodiscard]] Calibration calibrate(const Trial& trial, const Habits& habits,
                                    const Beliefs& beliefs = {});

}  // namespace courthand::forecast
