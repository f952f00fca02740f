// Days that cannot be forecast say why, where, and what to do.
#include <gtest/gtest.h>

#include <limits>

#include "day_kit.h"

namespace courthand::forecast {
namespace {

struct Bad {
    const char* place;
    const char* message;
    void (*change)(Day&);
};

constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

Live live_at(const MatchNow& score) {
    return {60, score, {}, {}, 0};
}

class BadDay : public testing::TestWithParam<Bad> {};

TEST_P(BadDay, IsToldAndNotGuessedAt) {
    Day day = steady_day(4, 2);
    add_match(day, 0, 60, team(0), team(1));
    add_match(day, 1, 60, team(2), team(3));
    add_match(day, 0, 130, winner_of_match(0), winner_of_match(1), {loser_of_match(0)});
    ASSERT_TRUE(faults_of(day).empty());
    GetParam().change(day);
    Forecaster forecaster;
    const auto result = forecaster.forecast(day, {});
    const auto* faults = std::get_if<Faults>(&result);
    ASSERT_NE(faults, nullptr);
    ASSERT_EQ(faults->size(), 1U);
    EXPECT_EQ(faults->front().place, GetParam().place);
    EXPECT_EQ(faults->front().message, GetParam().message);
    EXPECT_FALSE(faults->front().cure.empty());
}

INSTANTIATE_TEST_SUITE_P(
    Each, BadDay,
    testing::Values(
        Bad{"match M2", "it has no court", [](Day& day) { day.courts[1].clear(); }},
        Bad{"match M2", "it is on a court twice", [](Day& day) { day.courts[0].push_back(1); }},
        Bad{"court 2", "a match of it is not there", [](Day& day) { day.courts[1].push_back(9); }},
        Bad{"match M1", "a side or a worker comes from nowhere",
            [](Day& day) { day.matches[0].sides[1] = team(4); }},
        Bad{"match M1", "a side or a worker comes from nowhere",
            [](Day& day) { day.matches[0].workers = {crew(0)}; }},
        Bad{"match M3", "a side or a worker comes from nowhere",
            [](Day& day) { day.matches[2].sides[1] = placed(0, 1); }},
        Bad{"match M1", "a crew does not play",
            [](Day& day) {
                day.crews = 1;
                day.matches[0].sides[1] = crew(0);
            }},
        Bad{"match M1", "its kind is not there", [](Day& day) { day.matches[0].kind = 1; }},
        Bad{"match M1", "it has no planned time",
            [](Day& day) { day.matches[0].planned = std::numeric_limits<double>::quiet_NaN(); }},
        Bad{"match M1", "more workers than a match has",
            [](Day& day) { day.matches[0].workers.assign(9, team(2)); }},
        Bad{"match M3", "it waits for itself",
            [](Day& day) { day.matches[2].sides[0] = winner_of_match(2); }},
        Bad{"match M3", "it waits for itself",
            [](Day& day) { day.matches[2].workers = {loser_of_match(2)}; }},
        Bad{"match M3", "it waits for itself",
            [](Day& day) {
                day.pools.push_back({{0, 1}, {0, 2}});
                day.matches[2].sides[0] = placed(0, 1);
            }},
        Bad{"match M1", "it is under way at a score at which it is over",
            [](Day& day) {
                day.matches[0].state = live_at({{2, 0}, {0, 0, Team::A}, Team::A});
            }},
        Bad{"match M1", "a set is under way at 25-3, which ends it",
            [](Day& day) {
                day.matches[0].state = live_at({{0, 0}, {25, 3, Team::A}, Team::A});
            }},
        Bad{"match M1", "a set is under way at -1-3",
            [](Day& day) {
                day.matches[0].state = live_at({{0, 0}, {-1, 3, Team::A}, Team::A});
            }},
        Bad{"match M1", "a set is under way at 1000-999",
            [](Day& day) {
                day.matches[0].state = live_at({{0, 0}, {1000, 999, Team::A}, Team::A});
            }},
        Bad{"match M1", "what was played of it is no number of 0 or more",
            [](Day& day) {
                Live live = live_at(match_start({}, Team::A));
                live.played.seconds = not_a_number;
                day.matches[0].state = live;
            }},
        Bad{"match M1", "what was played of it is no number of 0 or more",
            [](Day& day) {
                Live live = live_at(match_start({}, Team::A));
                live.rallies_won.b = -1;
                day.matches[0].state = live;
            }},
        Bad{"match M1", "what was played of it is no number of 0 or more",
            [](Day& day) {
                Live live = live_at(match_start({}, Team::A));
                live.interval_left = not_a_number;
                day.matches[0].state = live;
            }},
        Bad{"match M1", "it began at no time",
            [](Day& day) {
                Live live = live_at(match_start({}, Team::A));
                live.began = not_a_number;
                day.matches[0].state = live;
            }},
        Bad{"match M1", "it ended at no time, or before it began",
            [](Day& day) {
                day.matches[0].state = Over{60, 50, Winner::A, {}};
            }},
        Bad{"match M1", "it ended at no time, or before it began",
            [](Day& day) {
                day.matches[0].state = Over{60, not_a_number, Winner::A, {}};
            }},
        Bad{"kind 0", "pace and its deviations are above 0 seconds",
            [](Day& day) { day.kinds[0].pace.mean = std::numeric_limits<double>::infinity(); }},
        Bad{"day", "lateness is known by minutes and starts above 0",
            [](Day& day) { day.punctuality.mean_minutes = not_a_number; }},
        Bad{"kind 0", "no set of this format can be played",
            [](Day& day) { day.kinds[0].format.sets = 0; }},
        Bad{"kind 0", "interval, warm-up and rest are 0 minutes or more",
            [](Day& day) { day.kinds[0].rest = -1; }},
        Bad{"kind 0", "pace and its deviations are above 0 seconds",
            [](Day& day) { day.kinds[0].pace.mean = 0; }},
        Bad{"kind 0", "a chance lies between 0 and 1 and weighs two rallies or more",
            [](Day& day) { day.kinds[0].strength.p = 1; }},
        Bad{"pool 0", "a team or a match of it is not there",
            [](Day& day) {
                day.pools.push_back({{0, 9}, {}});
            }},
        Bad{"day", "lateness is known by minutes and starts above 0",
            [](Day& day) { day.punctuality.starts = 0; }},
        Bad{"day", "it has no time",
            [](Day& day) { day.now = std::numeric_limits<double>::infinity(); }},
        Bad{"day", "129 courts; a day has 128 at most", [](Day& day) { day.courts.resize(129); }},
        Bad{"day", "matches wait for each other in a circle", [](Day& day) {
                day.courts[0] = {2, 0};
            }}));

TEST(Sampling, IsAPowerOfTwo) {
    const Day day = steady_day(0, 0);
    Forecaster forecaster;
    for (const std::uint32_t samples : {0U, 32U, 1000U, 1U << 15U})
        EXPECT_TRUE(std::holds_alternative<Faults>(forecaster.forecast(day, {1, samples})));
    EXPECT_TRUE(std::holds_alternative<DayForecast>(forecaster.forecast(day, {1, 64})));
}

TEST(OrderOfWaiting, WhatIsPlayedComesBeforeAllThatWaits) {
    // Team 0 plays its second match first, on court 2.
    Day day = steady_day(4, 2);
    add_match(day, 0, 100, team(0), team(1));
    add_match(day, 1, 200, team(0), team(2));
    day.now = 90;
    day.matches[1].state = Live{80, match_start({}, Team::A), {}, {}, 0};
    EXPECT_EQ(order_of_waiting(day), (std::vector<MatchIndex>{1, 0}));
    const DayForecast forecast = forecast_of(day);
    EXPECT_EQ(forecast.matches[0].by, MatchIndex{1});
    EXPECT_GT(forecast.matches[0].start.p50(), forecast.matches[1].end.p50());
}

TEST(OrderOfWaiting, PeopleGiveWayToCourts) {
    // Team 0 is planned on court 1 first and stands there last, behind its later match.
    Day day = steady_day(4, 1);
    add_match(day, 0, 200, team(0), team(1));
    add_match(day, 0, 100, team(0), team(2));
    EXPECT_EQ(order_of_waiting(day), (std::vector<MatchIndex>{0, 1}));
}

}  // namespace
}  // namespace courthand::forecast
