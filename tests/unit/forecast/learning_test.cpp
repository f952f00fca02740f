// What is believed of pace, lateness and strength, and how a day's own matches change it.
#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "courthand/forecast/day_forecast.h"
#include "courthand/forecast/expectation.h"
#include "courthand/forecast/pace.h"
#include "courthand/forecast/punctuality.h"
#include "courthand/forecast/strength.h"
#include "day_kit.h"
#include "printed.h"

namespace courthand::forecast {
namespace {

// Handbook arithmetic, memory: a match's own pace has the weight rallies / (rallies + 40).
TEST(Pace, OfOneMatchAloneHasTheWeightOfItsRallies) {
    PacePrior prior;
    prior.hall_deviation = 0;  // of a hall that is known
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

TEST(Pace, AHallIsKnownByItsDays) {
    const PacePrior prior;
    EXPECT_EQ(pace_of_hall(prior, {}), prior);
    EXPECT_EQ(pace_of_hall(prior, {EarlierDay{}}), prior);
    // One day of very many matches at 40 s: hall and day deviate by 4 and 3, so the hall is moved
    // by 16 / 25 of the way, and what is left of its variance is 16 * 9 / 25.
    const PacePrior one = pace_of_hall(prior, {{1e9, 1e11, 40e11}});
    EXPECT_NEAR(one.mean, 32 + 8 * .64, 1e-6);
    EXPECT_NEAR(one.hall_deviation, 2.4, 1e-6);
    EXPECT_NEAR(one.day_deviation, 3, 1e-6);
    // Days at 36 and 40 s without end: the hall is at 38, its days deviate by 2.
    std::vector<EarlierDay> days;
    for (int pair = 0; pair < 50; ++pair) {
        days.push_back({60, 6000, 6000 * 36.0});
        days.push_back({60, 6000, 6000 * 40.0});
    }
    const PacePrior known = pace_of_hall(prior, days);
    EXPECT_NEAR(known.mean, 38, .05);
    EXPECT_NEAR(known.day_deviation, 2, .1);
    EXPECT_LT(known.hall_deviation, .3);
}

TEST(Pace, ADayShowsThePaceOfRalliesAsWereExpected) {
    Day day = steady_day(4, 1);
    day.now = 400;
    add_match(day, 0, 60, team(0), team(1));
    add_match(day, 0, 160, team(2), team(3));
    add_match(day, 0, 260, team(0), team(2));
    day.matches[0].state = Over{60, 140, Winner::A, {120, 3600}};
    day.matches[1].state = Over{160, 240, Winner::A, {80, 3000}};
    // Even teams play 102.5 rallies in the mean; handbook arithmetic, memory.
    const EarlierDay shown = shown_by(day, 0);
    EXPECT_EQ(shown.matches, 2);
    EXPECT_NEAR(shown.rallies, 2 * 102.52, .05);
    EXPECT_EQ(shown.seconds, 6600);
}

TEST(Pace, NoRallyTellsNothing) {
    const PacePrior prior;
    EXPECT_EQ(pace_of_day(prior, {{}, {0, 900}}), (Normal{32, 16 + 9}));
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
    const Expectation expectation{format, 0};
    const StrengthPrior known{.5, 1e7, 0};
    EXPECT_EQ(printed(mean(expectation.fresh(known).rallies()), 1), "102.5");
    // Doubt about the strength makes matches shorter: one team may be much better.
    EXPECT_LT(mean(expectation.fresh({}).rallies()), 101);
    EXPECT_NEAR(expectation.fresh({}).win(Winner::A), .5, 1e-9);
}

TEST(Expectation, ServesThatWinSeldomKeepScoresClose) {
    MatchFormat format;
    format.sets = 3;
    const double plain = mean(Expectation{format, 0}.fresh({}).rallies());
    const double served = mean(Expectation{format, .1}.fresh({}).rallies());
    EXPECT_GT(served, plain + 2);
    EXPECT_LT(served, plain + 3);
}

TEST(Expectation, ATeamThatHasWonMoreIsExpectedToGoOnSo) {
    MatchFormat format;
    format.sets = 3;
    const Expectation expectation{format, 0};
    const MatchNow level{{}, {10, 10, Team::A}, Team::A};
    const MatchNow second{{1, 0}, {0, 0, Team::B}, Team::B};
    EXPECT_NEAR(expectation.live({}, level, {10, 10}).win(Winner::A), .5, 1e-9);
    EXPECT_GT(expectation.live({}, second, {25, 10}).win(Winner::A),
              expectation.live({}, second, {25, 23}).win(Winner::A) + .05);
}

}  // namespace
}  // namespace courthand::forecast
