// What is believed of pace, lateness and strength, and how a day's own matches change it.
#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "courthand/forecast/expectation.h"
#include "courthand/forecast/pace.h"
#include "courthand/forecast/punctuality.h"
#include "courthand/forecast/strength.h"
#include "printed.h"

namespace courthand::forecast {
namespace {

// Handbook arithmetic, memory: a match's own pace has the weight rallies / (rallies + 40).
TEST(Pace, OfOneMatchAloneHasTheWeightOfItsRallies) {
    const PacePrior prior;
    for (const double rallies : {1.0, 10.0, 40.0, 100.0}) {
        const Played played{rallies, rallies * 50};
        // Day and match together: what the match teaches of the day, and then of itself.
        const double day = pace_of_day(prior, {played}).mean;
        const Normal match = pace_of_match(prior, day, played);
        const double weight = rallies / (rallies + 40);
        EXPECT_NEAR(match.mean, 32 + weight * (50 - 32), 0.01) << rallies;
    }
}

TEST(Pace, ManyMatchesTellTheDayAndLeaveTheDeviationOfAMatch) {
    const PacePrior prior;
    const std::vector<Played> matches(200, Played{100, 3500});
    const Normal day = pace_of_day(prior, matches);
    EXPECT_NEAR(day.mean, 35, .1);
    EXPECT_LT(std::sqrt(day.variance), .3);
    EXPECT_NEAR(std::sqrt(pace_of_match(prior, day.mean, {}).variance), prior.match_deviation,
                1e-12);
}

TEST(Pace, NoRallyTellsNothing) {
    const PacePrior prior;
    EXPECT_EQ(pace_of_day(prior, {{}, {0, 900}}), (Normal{32, 9}));
    EXPECT_EQ(pace_of_match(prior, 30, {}).mean, 30);
}

TEST(Punctuality, StartsThatWereSeenWeighLikeThoseBelieved) {
    const PunctualityPrior prior{4, 5};
    EXPECT_DOUBLE_EQ(lateness_of_day(prior, {}).mean(), 4);
    EXPECT_DOUBLE_EQ(lateness_of_day(prior, {5, 50}).mean(), 7);
    // A match that has not begun adds its minutes and no start: the mean can only grow.
    EXPECT_DOUBLE_EQ(lateness_of_day(prior, {0, 10}).mean(), 6);
}

TEST(Strength, IsABetaVariableAtItsPlaces) {
    const auto moments = [](const StrengthPrior& prior, PerTeam<int> won) {
        const auto weights = strength_weights(prior, won);
        double sum = 0;
        double middle = 0;
        double square = 0;
        for (std::size_t i = 0; i < strengths; ++i) {
            sum += weights[i];
            middle += weights[i] * strength_at(i);
            square += weights[i] * strength_at(i) * strength_at(i);
        }
        EXPECT_NEAR(sum, 1, 1e-12);
        return std::pair{middle, std::sqrt(square - middle * middle)};
    };
    const auto [before, spread_before] = moments({}, {});
    EXPECT_NEAR(before, .5, 1e-12);
    EXPECT_NEAR(spread_before, std::sqrt(.25 / 101), 2e-4);
    // Beta(50 + 60, 50 + 40): mean 110/200.
    const auto [after, spread_after] = moments({}, {60, 40});
    EXPECT_NEAR(after, .55, 2e-4);
    EXPECT_NEAR(spread_after, std::sqrt(.55 * .45 / 201), 2e-4);
}

TEST(Expectation, KnownStrengthIsTheCourseUnderIt) {
    MatchFormat format;
    format.sets = 3;
    const Expectation expectation{format};
    const StrengthPrior known{.5, 1e7};
    EXPECT_EQ(printed(mean(expectation.fresh(known).rallies()), 1), "102.5");
    // Doubt about the strength makes matches shorter: one team may be much better.
    EXPECT_LT(mean(expectation.fresh({}).rallies()), 101);
    EXPECT_NEAR(expectation.fresh({}).win(Winner::A), .5, 1e-9);
}

TEST(Expectation, ATeamThatHasWonMoreIsExpectedToGoOnSo) {
    MatchFormat format;
    format.sets = 3;
    const Expectation expectation{format};
    const MatchNow level{{}, {10, 10, Team::A}, Team::A};
    const MatchNow second{{1, 0}, {0, 0, Team::B}, Team::B};
    EXPECT_NEAR(expectation.live({}, level, {10, 10}).win(Winner::A), .5, 1e-9);
    EXPECT_GT(expectation.live({}, second, {25, 10}).win(Winner::A),
              expectation.live({}, second, {25, 23}).win(Winner::A) + .05);
}

}  // namespace
}  // namespace courthand::forecast
