// The chain of a day: what each start waits for, when it is expected, and that chance falls the
// same way each time.
#include "courthand/forecast/day_forecast.h"

#include <gtest/gtest.h>

#include <cmath>

#include "day_kit.h"

namespace courthand::forecast {
namespace {

/// Over at this minute, after an hour; A won.
Over over_at(Minute ended) {
    return {ended - 60, ended, Winner::A, {100, 3000}};
}

TEST(DayForecast, OneMatchTakesItsRalliesAndIntervals) {
    Day day = steady_day(2, 1);
    add_match(day, 0, 100, team(0), team(1));
    const MatchForecast match = forecast_of(day).matches[0];
    EXPECT_NEAR(match.start.p50(), 100, .01);
    EXPECT_NEAR(match.start.p80(), 100, .01);
    // 102 and 117 rallies of 30 seconds are the handbook's P50 and P80. In between the matches of
    // two sets end and those of three begin, which have an interval more.
    EXPECT_NEAR(match.end.p80(), 100 + 117 * .5 + 6, .51);
    EXPECT_GT(match.end.p50(), 100 + 45 + 3);
    EXPECT_LT(match.end.p50(), 100 + 102 * .5 + 6);
    EXPECT_EQ(match.cause, Cause::not_before);
    EXPECT_EQ(match.share, 1);
}

/// What binds the match M2 and when it begins, where M1 ended at 200.
struct Binding {
    const char* what;
    Cause cause;
    Minute start;
    void (*change)(Day&);
};

class Binds : public testing::TestWithParam<Binding> {};

TEST_P(Binds, TheLastOfAllThatAStartWaitsFor) {
    Day day = steady_day(8, 2);
    day.now = 200;
    add_match(day, 0, 60, team(0), team(1), {team(2)});
    day.matches[0].state = over_at(200);
    GetParam().change(day);
    const MatchForecast match = forecast_of(day).matches[1];
    EXPECT_EQ(match.cause, GetParam().cause);
    EXPECT_NEAR(match.start.p50(), GetParam().start, .01);
    if (match.cause == Cause::not_before || match.cause == Cause::nothing) {
        EXPECT_FALSE(match.by);
    } else {
        EXPECT_EQ(match.by, MatchIndex{0});
    }
}

INSTANTIATE_TEST_SUITE_P(
    Causes, Binds,
    testing::Values(
        Binding{"the court", Cause::court, 210,
                [](Day& day) { add_match(day, 0, 120, team(4), team(5)); }},
        Binding{"a team plays, and its court comes free with it", Cause::rest, 230,
                [](Day& day) { add_match(day, 0, 120, team(0), team(5)); }},
        Binding{"a team plays", Cause::team, 230,
                [](Day& day) { add_match(day, 1, 120, team(4), team(1)); }},
        Binding{"a team rests beyond the planned time", Cause::rest, 230,
                [](Day& day) { add_match(day, 1, 215, team(4), team(1)); }},
        Binding{"no rest is asked for", Cause::team, 210,
                [](Day& day) {
                    day.kinds[0].rest = 0;
                    add_match(day, 1, 120, team(4), team(1));
                }},
        Binding{"a team of it has worked", Cause::duty, 210,
                [](Day& day) { add_match(day, 1, 120, team(4), team(2)); }},
        Binding{"its workers have played", Cause::duty, 210,
                [](Day& day) { add_match(day, 1, 120, team(4), team(5), {team(0)}); }},
        Binding{"the winner comes", Cause::team, 230,
                [](Day& day) { add_match(day, 1, 120, team(4), winner_of_match(0)); }},
        Binding{"the loser works", Cause::duty, 210,
                [](Day& day) { add_match(day, 1, 120, team(4), team(5), {loser_of_match(0)}); }},
        Binding{"a place of a pool", Cause::sides, 210,
                [](Day& day) {
                    day.kinds[0].rest = 0;
                    day.pools.push_back({{0, 1, 3}, {0}});
                    day.matches[0].state = over_at(200);
                    add_match(day, 1, 120, team(4), placed(0, 1));
                }},
        Binding{"its time", Cause::not_before, 300,
                [](Day& day) { add_match(day, 0, 300, team(0), team(5)); }},
        Binding{"nothing: all have been there for long", Cause::nothing, 200, [](Day& day) {
                    add_match(day, 1, 300, team(4), team(5));
                    day.matches[1].may_start_early = true;
                }}));

TEST(DayForecast, WhatWasWaitedForLongAgoIsNoCauseNow) {
    Day day = steady_day(8, 1);
    day.punctuality = {4, 5};
    add_match(day, 0, 60, team(0), team(1));
    day.matches[0].state = over_at(200);
    add_match(day, 0, 120, team(4), team(5));
    day.now = 209;  // the warm-up goes on
    EXPECT_EQ(forecast_of(day).matches[1].cause, Cause::court);
    day.now = 211;  // all is there, and nobody plays
    const MatchForecast match = forecast_of(day).matches[1];
    EXPECT_EQ(match.cause, Cause::nothing);
    EXPECT_FALSE(match.by);
    day.matches[1].planned = 215;
    EXPECT_EQ(forecast_of(day).matches[1].cause, Cause::not_before);
}

TEST(DayForecast, LatenessIsAsBelievedHoweverLittleIsBelieved) {
    Day day = steady_day(4, 1);
    add_match(day, 0, 100, team(0), team(1));
    for (const double starts : {.05, .5, 1.0, 2.0, 5.0}) {
        day.punctuality = {4, starts};
        // An exponential wait whose mean is inverse-gamma: its chance to last longer than t is
        // (scale / (scale + t))^shape.
        const Lateness late = lateness_of_day(day.punctuality, {});
        const Band start = forecast_of(day, {1, Sampling::most}).matches[0].start;
        EXPECT_GE(start.deciles[0], 100) << starts;
        for (std::size_t i = 0; i < start.deciles.size(); ++i) {
            const double waited = start.deciles[i] - 100;
            EXPECT_NEAR(std::pow(late.scale / (late.scale + waited), late.shape),
                        .9 - .1 * static_cast<double>(i), .01)
                << starts;
        }
    }
}

TEST(DayForecast, ALevelMatchIsWonByNobody) {
    // A pool of two teams that met twice: level, and won by team 1, so team 1 is its first, and it
    // still plays elsewhere.
    Day day = steady_day(4, 2);
    day.now = 200;
    day.kinds[0].format = {2, 1};
    add_match(day, 0, 60, team(0), team(1));
    add_match(day, 0, 120, team(0), team(1));
    day.matches[0].state = Over{60, 100, Winner::nobody, {}};
    day.matches[1].state = Over{120, 160, Winner::B, {}};
    day.pools.push_back({{0, 1}, {0, 1}});
    add_match(day, 1, 190, team(1), team(2));
    day.matches[2].state = Live{190, match_start({}, Team::A), {}, {}, 0};
    add_match(day, 0, 195, placed(0, 1), team(3));
    const MatchForecast match = forecast_of(day).matches[3];
    EXPECT_EQ(match.by, MatchIndex{2});
    EXPECT_EQ(match.share, 1);
}

TEST(DayForecast, OfALevelMatchNobodyGoesOn) {
    // A win of the first side would keep the last match waiting for its rest.
    Day day = steady_day(4, 2);
    day.now = 200;
    day.kinds[0].format = {2, 1};
    add_match(day, 0, 60, team(0), team(1));
    day.matches[0].state = Over{60, 190, Winner::nobody, {}};
    add_match(day, 1, 100, winner_of_match(0), team(3));
    EXPECT_NEAR(forecast_of(day).matches[1].start.p50(), 200, .01);
}

TEST(DayForecast, ACrewIsOnOneCourtAtATime) {
    Day day = steady_day(4, 2);
    add_match(day, 0, 100, team(0), team(1), {crew(0)});
    add_match(day, 1, 110, team(2), team(3), {crew(0)});
    day.crews = 1;
    const DayForecast forecast = forecast_of(day);
    EXPECT_EQ(forecast.matches[1].cause, Cause::duty);
    EXPECT_EQ(forecast.matches[1].by, MatchIndex{0});
    EXPECT_NEAR(forecast.matches[1].start.p80(), forecast.matches[0].end.p80() + 10, .01);
}

TEST(DayForecast, OneSlipRunsThroughACourtAndMeetsTheOthersInAFinal) {
    Day day = steady_day(8, 2);
    for (const Minute planned : {100.0, 160.0}) {
        add_match(day, 0, planned, team(0), team(1));
        add_match(day, 1, planned, team(2), team(3));
    }
    day.matches[2].sides = {team(4), team(5)};
    day.matches[3].sides = {team(6), team(7)};
    const MatchIndex final = add_match(day, 1, 240, winner_of_match(2), winner_of_match(3));
    day.now = 100;
    day.matches[0].state = Live{60, match_start(day.kinds[0].format, Team::A), {}, {}, 0};
    const DayForecast before = forecast_of(day);
    day.now = 140;  // and still nothing played on court 1
    day.matches[1].state = Live{100, {{1, 0}, {10, 10, Team::A}, Team::A}, {35, 30}, {65, 1950}, 0};
    const DayForecast after = forecast_of(day);
    EXPECT_NEAR(after.matches[2].start.p50(), before.matches[2].start.p50() + 40, .1);
    EXPECT_EQ(after.matches[2].cause, Cause::court);
    EXPECT_EQ(after.matches[final].cause, Cause::team);
    EXPECT_EQ(after.matches[final].by, MatchIndex{2});
    EXPECT_GT(after.matches[final].start.p50(), before.matches[final].start.p50() + 30);
}

/// Four courts with four matches each, everything doubtful.
Day doubtful_day() {
    Day day = steady_day(16, 4);
    day.kinds[0] = Kind{};
    day.kinds[0].format.sets = 3;
    day.punctuality = {};
    for (std::uint16_t round = 0; round < 4; ++round)
        for (std::uint16_t court = 0; court < 4; ++court) {
            const auto first = static_cast<std::uint16_t>(court * 4 + round % 4);
            const auto second = static_cast<std::uint16_t>(court * 4 + (round + 1) % 4);
            add_match(day, court, 60 + 70 * round, team(first), team(second));
        }
    return day;
}

TEST(DayForecast, IsTheSameEachTimeAndElsewhereWhenOneMatchGoesOn) {
    Day day = doubtful_day();
    const DayForecast first = forecast_of(day);
    EXPECT_EQ(first, forecast_of(day));
    // Longer matches of another kind on court 1 leave the other courts as they were.
    day.kinds.push_back(day.kinds[0]);
    day.kinds[1].format.sets = 5;
    for (const MatchIndex match : day.courts[0]) day.matches[match].kind = 1;
    const DayForecast then = forecast_of(day);
    for (std::size_t court = 0; court < day.courts.size(); ++court)
        for (const MatchIndex match : day.courts[court])
            EXPECT_EQ(first.matches[match] == then.matches[match], court != 0) << match;
    EXPECT_FALSE(first == forecast_of(day, {2, 1024}));
}

TEST(DayForecast, BandsAreInOrderAndWidenWithTheDistance) {
    const Day day = doubtful_day();
    const DayForecast forecast = forecast_of(day);
    double width = 0;
    for (const MatchIndex match : day.courts[2]) {
        const MatchForecast& of = forecast.matches[match];
        EXPECT_LT(of.start.p50(), of.start.p80());
        EXPECT_LT(of.start.p80(), of.end.p50());
        EXPECT_LT(of.end.p50(), of.end.p80());
        EXPECT_GT(of.end.p80() - of.end.p50(), width);
        width = of.end.p80() - of.end.p50();
    }
    EXPECT_GE(forecast.end.p50(), forecast.matches[15].end.p50());
}

TEST(DayForecast, MoreSamplesSayTheSame) {
    const Day day = doubtful_day();
    const DayForecast few = forecast_of(day);
    const DayForecast many = forecast_of(day, {77, Sampling::most});
    for (std::size_t m = 0; m < day.matches.size(); ++m) {
        EXPECT_NEAR(few.matches[m].end.p50(), many.matches[m].end.p50(), 3) << m;
        EXPECT_NEAR(few.matches[m].end.p80(), many.matches[m].end.p80(), 4) << m;
    }
}

TEST(DayForecast, ALiveMatchIsKnownBetterTheFurtherItIs) {
    Day day = doubtful_day();
    day.now = 100;
    const auto width_at = [&](MatchNow score, PerTeam<int> won) {
        const int rallies = won.a + won.b;
        day.matches[0].state = Live{60, score, won, {rallies * 1.0, rallies * 32.0}, 0};
        const Band end = forecast_of(day).matches[0].end;
        return end.p80() - end.p50();
    };
    EXPECT_GT(width_at({{0, 0}, {12, 10, Team::A}, Team::A}, {12, 10}),
              width_at({{1, 0}, {20, 12, Team::A}, Team::B}, {45, 32}));
    EXPECT_GT(width_at({{1, 1}, {2, 2, Team::A}, Team::B}, {47, 47}),
              width_at({{1, 1}, {13, 9, Team::A}, Team::B}, {58, 54}));
}

TEST(Learned, PaceOfItsKindAndMinutesLate) {
    Day day = doubtful_day();
    day.now = 180;
    day.punctuality = {4, 5};
    // Court 1 began six minutes late at 40 seconds a rally, court 2 on time; its next match could
    // have begun at 130, after court, rest and warm-up, and has not.
    day.matches[0].state = Over{66, 140, Winner::A, {100, 4000}};
    day.matches[1].state = Over{60, 100, Winner::A, {100, 2000}};
    day.matches[5].planned = 130;
    day.matches[2].state = Live{60, {{1, 1}, {3, 3, Team::A}, Team::A}, {50, 50}, {}, 0};
    day.matches[3].state = Live{60, {{1, 1}, {3, 3, Team::A}, Team::A}, {50, 50}, {}, 0};
    day.matches[4].state = Live{170, match_start({}, Team::A), {}, {}, 0};
    const Learned result = learned(day);
    EXPECT_NEAR(result.paces[0].mean,
                pace_of_day(day.kinds[0].pace, {{100, 4000}, {100, 2000}}).mean, 1e-9);
    // Late: 6, 0, 0, 0, and 0 of M5, whose team rested until 160; M6 is 50 minutes overdue.
    EXPECT_DOUBLE_EQ(result.lateness.mean(), (4 * 5 + 6 + 50) / (5.0 + 5));
}

}  // namespace
}  // namespace courthand::forecast
