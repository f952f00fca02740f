// Matches by the chance of a rally. The printed numbers: handbook arithmetic, memory.
#include "courthand/forecast/match_course.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "printed.h"

namespace courthand::forecast {
namespace {

MatchFormat best_of(std::uint8_t sets) {
    MatchFormat format;
    format.sets = sets;
    return format;
}

MatchCourse fresh(std::uint8_t sets, double p) {
    const MatchFormat format = best_of(sets);
    return MatchTable{format, RallyOdds::plain(p)}.course(match_start(format, Team::A));
}

struct Row {
    double p;
    const char* of_three;
    const char* third_set;
    const char* of_five;
};

class PrintedMatches : public testing::TestWithParam<Row> {};

TEST_P(PrintedMatches, ToTheLastDigit) {
    const Row& row = GetParam();
    const MatchCourse three = fresh(3, row.p);
    EXPECT_EQ(printed(three.win(Winner::A), 6), row.of_three);
    EXPECT_EQ(printed(three.sets_to_end(3), 6), row.third_set);
    EXPECT_EQ(printed(fresh(5, row.p).win(Winner::A), 6), row.of_five);
}

INSTANTIATE_TEST_SUITE_P(Odds, PrintedMatches,
                         testing::Values(Row{.50, "0.500000", "0.500000", "0.500000"},
                                         Row{.52, "0.655252", "0.474439", "0.696720"},
                                         Row{.55, "0.841018", "0.360486", "0.900909"},
                                         Row{.60, "0.977068", "0.136375", "0.994910"}));

TEST(MatchCourse, RalliesOfAnEvenBestOfThree) {
    const Lengths rallies = fresh(3, .5).rallies();
    EXPECT_EQ(printed(mean(rallies), 1), "102.5");
    EXPECT_EQ(printed(deviation(rallies), 1), "14.6");
    EXPECT_EQ(quantile(rallies, .50), 102U);
    EXPECT_EQ(quantile(rallies, .80), 117U);
    EXPECT_EQ(quantile(rallies, .90), 121U);
    EXPECT_EQ(quantile(rallies, .95), 124U);
}

TEST(MatchCourse, MinutesOfABestOfThreeAtThreePaces) {
    const double paces[] = {25, 30, 35};
    struct Minutes {
        double p;
        double above;
        const char* means[3];
        const char* chances[3];
    };
    // The handbook prints 52.5 for p = .55 and 30 seconds: 48.4 of rallies and 4.1 of intervals,
    // each rounded before they were added. It is 52.446.
    const Minutes table[] = {
        {.50, 50, {"47.2", "55.8", "64.3"}, {"0.466", "0.591", "0.967"}},
        {.50, 60, {"47.2", "55.8", "64.3"}, {"0.014", "0.427", "0.541"}},
        {.50, 70, {"47.2", "55.8", "64.3"}, {"0.000", "0.017", "0.408"}},
        {.55, 60, {"44.4", "52.4", "60.5"}, {"0.008", "0.294", "0.389"}},
        {.60, 60, {"39.2", "46.4", "53.5"}, {"0.001", "0.094", "0.146"}},
    };
    for (const Minutes& row : table) {
        const MatchCourse course = fresh(3, row.p);
        for (std::size_t i = 0; i < std::size(paces); ++i) {
            const SteadyPace pace{paces[i], 3};
            EXPECT_EQ(printed(mean_minutes(course, pace), 1), row.means[i]);
            EXPECT_EQ(printed(chance_longer(course, pace, row.above), 3), row.chances[i])
                << row.p << " above " << row.above << " at " << paces[i];
        }
    }
}

TEST(MatchCourse, WhatIsWonStaysWonAndTheNextSetIsServedByTheOther) {
    const MatchFormat format = best_of(3);
    const MatchTable table{format, {.42, .62}};
    const MatchNow now{{1, 0}, {20, 17, Team::B}, Team::A};
    const MatchCourse course = table.course(now);
    const double set = set_course(format, 2, now.set, {.42, .62}).win(Team::A);
    EXPECT_NEAR(course.sets_to_end(1), set, 1e-12);
    const double tie_break = (set_course(format, 3, {0, 0, Team::A}, {.42, .62}).win(Team::A) +
                              set_course(format, 3, {0, 0, Team::B}, {.42, .62}).win(Team::A)) /
                             2;
    EXPECT_NEAR(course.win(Winner::A), set + (1 - set) * tie_break, 1e-12);
    // A served first in the first set: B does in the second.
    EXPECT_NEAR(
        table.at_set_start({0, 0}, Team::A).win(Winner::A),
        [&] {
            const double first = set_course(format, 1, {0, 0, Team::A}, {.42, .62}).win(Team::A);
            return first * table.at_set_start({1, 0}, Team::B).win(Winner::A) +
                   (1 - first) * table.at_set_start({0, 1}, Team::B).win(Winner::A);
        }(),
        1e-12);
}

TEST(MatchCourse, AFixedNumberOfSetsMayEndLevel) {
    MatchFormat format = best_of(2);
    format.all_sets_played = 1;
    const MatchTable table{format, RallyOdds::plain(.5)};
    const MatchCourse course = table.course(match_start(format, Team::A));
    EXPECT_NEAR(course.win(Winner::A), .25, 1e-12);
    EXPECT_NEAR(course.win(Winner::nobody), .5, 1e-12);
    EXPECT_NEAR(course.sets_to_end(2), 1, 1e-12);
    EXPECT_EQ(printed(mean(course.rallies()), 4), "89.4599");  // twice a set
}

TEST(MatchCourse, AMatchThatIsOverTakesNoTime) {
    const MatchTable table{best_of(3), RallyOdds::plain(.5)};
    const MatchCourse course = table.course({{1, 2}, {}, Team::A});
    EXPECT_EQ(course.win(Winner::B), 1);
    EXPECT_EQ(mean_minutes(course, {}), 0);
}

// Slots of 60 minutes, ten of them between matches; a match deviates by 11 minutes with all that
// befalls it. The handbook reckons with the rounded mean.
TEST(MatchCourse, SlipOfMatchesInARow) {
    const double slot = std::stod(printed(mean_minutes(fresh(3, .5), {30, 3}) + 10, 1));
    EXPECT_EQ(printed(slot, 1), "65.8");
    struct Slip {
        int matches;
        const char* mean;
        const char* deviation;
    };
    for (const Slip& slip : {Slip{3, "17", "19"}, Slip{5, "29", "25"}, Slip{7, "41", "29"}}) {
        EXPECT_EQ(printed(slip.matches * (slot - 60), 0), slip.mean);
        EXPECT_EQ(printed(std::sqrt(slip.matches) * 11, 0), slip.deviation);
    }
}

}  // namespace
}  // namespace courthand::forecast
