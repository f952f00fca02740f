// How late a match begins though nothing that it waits for is missing: teams that dawdle, a crew
// that is looked for, a net to be mended.
//
// Minutes late are exponential with a mean that the day has, and that mean is inverse-gamma: what
// was seen adds up (conjugate update; memory). Exponential, because of a match that should have
// begun and has not nothing is known but that: the rest of its wait is as a whole one.
#pragma once

namespace courthand::forecast {

/// Judgement: four minutes, trusted like five starts that were seen.
struct PunctualityPrior {
    double mean_minutes = 4;
    double starts = 5;  ///< above 0
    friend constexpr bool operator==(const PunctualityPrior&, const PunctualityPrior&) = default;
};

/// What the day has shown.
struct Starts {
    double seen = 0;
    double minutes_late = 0;  ///< of those, and of those that should have begun and have not
};

/// The belief about the mean: one over a gamma variable of this shape, times `scale` minutes.
struct Lateness {
    double shape = 6;
    double scale = 20;
    [[nodiscard]] constexpr double mean() const noexcept { return scale / (shape - 1); }
};

[[nodiscard]] constexpr Lateness lateness_of_day(const PunctualityPrior& prior,
                                                 const Starts& starts) noexcept {
    return {prior.starts + 1 + starts.seen,
            prior.starts * prior.mean_minutes + starts.minutes_late};
}

}  // namespace courthand::forecast
