// The short form of the trial of forecasts: few days, and bounds as wide as so few days need. The
// long one is forecast_days.
#include "tests/bench/calibration.h"

#include <gtest/gtest.h>

namespace courthand::forecast {
namespace {

TEST(SimulatedDay, IsADayThatCanBeForecastAtAnyMinute) {
    const SimulatedDay truth = simulated_day(3, {});
    ASSERT_EQ(truth.plan.matches.size(), 62U);
    std::size_t over = 0;
    for (Minute now = day_begins - 30; now < day_begins + 900; now += 7) {
        const Day seen = truth.seen_at(now);
        ASSERT_TRUE(faults_of(seen).empty()) << faults_of(seen).front().message;
        std::size_t count = 0;
        for (const DayMatch& match : seen.matches)
            if (std::holds_alternative<Over>(match.state)) ++count;
        EXPECT_GE(count, over);
        over = count;
    }
    EXPECT_EQ(over, truth.matches.size());
}

TEST(SimulatedDay, ATableTellsWhatWasPlayed) {
    const SimulatedDay truth = simulated_day(4, {});
    const Day end = truth.seen_at(day_begins + 1400);
    for (std::size_t m = 0; m < truth.matches.size(); ++m) {
        const auto& over = std::get<Over>(end.matches[m].state);
        EXPECT_EQ(over.played.rallies, static_cast<double>(truth.matches[m].rallies.size()));
        // Rallies and intervals together are the match; an interval is three minutes or a little
        // more.
        const double intervals = over.ended - over.began - over.played.seconds / 60;
        EXPECT_GE(intervals, 3 - 1e-6);
        EXPECT_LE(intervals, 6 + 1e-6);
    }
}

TEST(Calibration, SharesAreAsSaidAndErrorsSmallerThanOnPaper) {
    const Calibration result = calibrate({500, 40, 90, 256}, {});
    ASSERT_GT(result.all.forecasts, 2500U);
    // Forty days deviate by some three in a hundred: days are fast and slow as a whole.
    EXPECT_NEAR(result.all.share(4), .50, .06);
    EXPECT_NEAR(result.all.share(7), .80, .05);
    EXPECT_LT(result.all.off, result.all.mean_delay_off * 2 / 3);
    EXPECT_LT(result.all.off, result.all.court_delay_off);
    EXPECT_LT(result.by_horizon[0].mean_off(result.by_horizon[0].off),
              result.by_horizon[4].mean_off(result.by_horizon[4].off));
}

TEST(Calibration, AHallThatIsSlowIsRememberedTheNextDay) {
    Habits slow;
    slow.pace = 38;
    const Calibration anew = calibrate({900, 10, 360, 64, Hall::unknown}, slow);
    const Calibration after = calibrate({900, 10, 360, 64}, slow);
    EXPECT_GT(after.all.share(4), anew.all.share(4) + .1);
    EXPECT_LT(after.all.off, anew.all.off);
}

TEST(Calibration, ASlowDayIsLearned) {
    Habits slow;
    slow.pace = 38;
    slow.pace_of_days = .01;
    const Calibration result = calibrate({900, 12, 120, 256, Hall::unknown}, slow);
    // Two deviations above what is believed at first: half of the ends would lie far behind P80.
    EXPECT_GT(result.all.share(7), .55);
    EXPECT_LT(result.all.off, result.all.mean_delay_off);
}

}  // namespace
}  // namespace courthand::forecast
