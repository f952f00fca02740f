// A change tried before it is made, and what could be done against a slip.
#include "courthand/forecast/repair.h"

#include <gtest/gtest.h>

#include "day_kit.h"

namespace courthand::forecast {
namespace {

/// Two courts, three matches each at 100, 180 and 260; court 1 is an hour behind with its first,
/// and court 2 has room after its second.
Day slipping_day() {
    Day day = steady_day(16, 2);
    day.crews = 2;
    for (std::uint16_t round = 0; round < 3; ++round)
        for (std::uint16_t court = 0; court < 2; ++court) {
            if (round == 2 && court == 1) continue;
            const auto first = static_cast<std::uint16_t>(4 * round + 2 * court);
            add_match(day, court, 100 + 80 * round, team(first),
                      team(static_cast<std::uint16_t>(first + 1)),
                      round == 2 ? std::vector<Entrant>{} : std::vector{crew(court)});
        }
    day.now = 160;
    day.matches[0].state = Live{159, match_start(day.kinds[0].format, Team::A), {}, {}, 0};
    day.matches[1].state =
        Live{100, {{1, 1}, {10, 10, Team::A}, Team::A}, {55, 55}, {110, 3300}, 0};
    return day;
}

WhatIf tried(const Day& day, const DayChange& change) {
    Forecaster forecaster;
    return std::get<WhatIf>(what_if(forecaster, day, forecast_of(day), change, {}));
}

TEST(WhatIf, AMatchOnAnotherCourtBeginsAsThatCourtIsFree) {
    const Day day = slipping_day();
    const WhatIf result = tried(day, Move{4, 1, 2, 260});
    EXPECT_NEAR(result.after.matches[4].start.p50(), 260, .01);
    EXPECT_GT(result.late_before, 60);  // of the second and the third match of court 1
    EXPECT_GT(result.late_before - result.late_after, 20);
    EXPECT_EQ(result.people, 2U);  // both teams; nobody works it
}

TEST(WhatIf, AShorterMatchEndsEarlierAndNothingElseChanges) {
    const Day day = slipping_day();
    MatchFormat one_set = day.kinds[0].format;
    one_set.sets = 1;
    one_set.deciding_points = 25;
    const DayForecast before = forecast_of(day);
    const WhatIf result = tried(day, Shorten{2, one_set});
    EXPECT_EQ(result.after.matches[2].start, before.matches[2].start);
    EXPECT_LT(result.after.matches[2].end.p50(), before.matches[2].end.p50() - 25);
    EXPECT_LT(result.after.matches[4].start.p50(), before.matches[4].start.p50() - 20);
    EXPECT_EQ(result.after.matches[3], before.matches[3]);
}

TEST(WhatIf, AShorterMatchKeepsThePaceThatTheDayHasShown) {
    Day day = slipping_day();
    day.kinds[0].pace = {30, 0, 5, 1e-3, 1};
    day.matches[1].state = Over{100, 170, Winner::A, {100, 6000}};  // a minute a rally
    day.now = 171;
    MatchFormat same_length = day.kinds[0].format;
    same_length.cap = 99;  // never met
    const WhatIf result = tried(day, Shorten{2, same_length});
    const DayForecast before = forecast_of(day);
    EXPECT_NEAR(result.after.matches[2].end.p50() - result.after.matches[2].start.p50(),
                before.matches[2].end.p50() - before.matches[2].start.p50(), 1);
}

TEST(WhatIf, AMatchMayBeShortenedAgainAndAgain) {
    Day day = slipping_day();
    for (std::uint8_t points = 70; points > 25; --points) {
        MatchFormat shorter = day.kinds[0].format;
        shorter.points = points;
        auto after = changed(day, Shorten{2, shorter});
        ASSERT_TRUE(std::holds_alternative<Day>(after)) << int{points};
        day = std::get<Day>(std::move(after));
        ASSERT_FALSE(people_to_tell(slipping_day(), day).empty());
    }
    EXPECT_EQ(day.kinds.size(), 1U);
}

TEST(WhatIf, ASwapTakesPlaceAndTimeOfTheOther) {
    const Day day = slipping_day();
    const auto after = changed(day, Swap{2, 3});
    const Day& swapped = std::get<Day>(after);
    EXPECT_EQ(swapped.courts[0], (std::vector<MatchIndex>{0, 3, 4}));
    EXPECT_EQ(swapped.courts[1], (std::vector<MatchIndex>{1, 2}));
    EXPECT_EQ(people_to_tell(day, swapped), (std::vector<std::uint16_t>{4, 5, 6, 7, 16, 17}));
    EXPECT_TRUE(people_to_tell(day, day).empty());
}

TEST(WhatIf, WhatCannotBeChangedSaysWhy) {
    const Day day = slipping_day();
    struct Bad {
        DayChange change;
        const char* message;
    };
    for (const auto& [change, message] :
         {Bad{Move{0, 1, 2, 200}, "it has begun"},
          Bad{Move{9, 1, 2, 200}, "the match is not there"},
          Bad{Move{4, 2, 0, 200}, "the court is not there"},
          Bad{Move{4, 1, 3, 200}, "the court has fewer matches"},
          Bad{Move{4, 1, 0, 200}, "a match that has begun would come after it"},
          Bad{Swap{4, 1}, "it has begun"},
          Bad{Shorten{4, MatchFormat{0}}, "no set of this format can be played"}}) {
        const auto result = changed(day, change);
        const auto* faults = std::get_if<Faults>(&result);
        ASSERT_NE(faults, nullptr) << message;
        EXPECT_EQ(faults->front().message, message);
    }
}

TEST(Repair, TheBestOfASlipUseTheFreeCourt) {
    const Day day = slipping_day();
    MatchFormat one_set = day.kinds[0].format;
    one_set.sets = 1;
    Forecaster forecaster;
    RepairWish wish;
    wish.late = 4;
    wish.shorter = {one_set};
    const auto result = repairs(forecaster, day, wish);
    const auto& found = std::get<std::vector<Repair>>(result);
    ASSERT_FALSE(found.empty());
    ASSERT_LE(found.size(), repairs_told);
    EXPECT_TRUE(std::holds_alternative<Move>(found[0].change));
    for (std::size_t i = 0; i < found.size(); ++i) {
        const double worth = found[i].saved - 3.0 * static_cast<double>(found[i].people);
        EXPECT_GT(worth, 0);
        if (i > 0) {
            EXPECT_LE(worth, found[i - 1].saved - 3.0 * static_cast<double>(found[i - 1].people));
        }
        EXPECT_GT(found[i].people, 0U);
        // What was promised is what comes.
        const auto after = changed(day, found[i].change);
        const Day& then = std::get<Day>(after);
        EXPECT_NEAR(minutes_late(day, forecast_of(day, wish.sampling)) -
                        minutes_late(then, forecast_of(then, wish.sampling)),
                    found[i].saved, 1e-9);
    }
}

TEST(Repair, MinutesLostAreThoseOfOthers) {
    // A long match before a short one of the free court: they change places, and the long one
    // begins later than it would have. That is its own change and no loss to others.
    Day day = steady_day(12, 2);
    for (std::uint16_t court = 0; court < 2; ++court)
        for (std::uint16_t round = 0; round < 3; ++round) {
            const auto first = static_cast<std::uint16_t>(6 * court + 2 * round);
            add_match(day, court, 100 + 20 * court + 60 * round, team(first),
                      team(static_cast<std::uint16_t>(first + 1)));
        }
    day.matches[0].format = MatchFormat{5};
    MatchFormat one_set{1};
    one_set.deciding_points = 25;
    for (const std::size_t match : {3U, 4U, 5U}) day.matches[match].format = one_set;
    Forecaster forecaster;
    RepairWish wish;
    wish.late = 2;
    wish.minutes_each_person = 0;
    const auto result = repairs(forecaster, day, wish);
    const auto before = forecast_of(day, wish.sampling);
    bool later = false;
    for (const Repair& repair : std::get<std::vector<Repair>>(result)) {
        const auto* swap = std::get_if<Swap>(&repair.change);
        if (swap == nullptr) continue;
        const auto after = forecast_of(std::get<Day>(changed(day, repair.change)), wish.sampling);
        double lost = 0;
        for (MatchIndex m = 0; m < 6; ++m) {
            const double by = after.matches[m].start.p50() - before.matches[m].start.p50();
            if (m != swap->first && m != swap->second)
                lost += std::max(0.0, by);
            else if (by > 1)
                later = true;
        }
        EXPECT_NEAR(repair.lost, lost, 1e-9);
    }
    EXPECT_TRUE(later);
}

/// Sixty courts, each with a match until about 200 and one planned at 170; the last court has room.
constexpr std::uint16_t courts_of_full_hall = 60;
Day full_hall() {
    Day day = steady_day(4 * courts_of_full_hall, courts_of_full_hall);
    for (std::uint16_t court = 0; court < courts_of_full_hall; ++court) {
        const auto first = static_cast<std::uint16_t>(4 * court);
        const auto next = [&](int of) { return team(static_cast<std::uint16_t>(first + of)); };
        add_match(day, court, 60, next(0), next(1));
        day.matches.back().state =
            Live{60, {{1, 1}, {0, 0, Team::A}, Team::A}, {50, 50}, {100, 3000}, 0};
        if (court < courts_of_full_hall - 1) add_match(day, court, 170, next(2), next(3));
    }
    day.now = 150;
    std::get<Live>(day.matches[0].state).score = match_start(day.kinds[0].format, Team::A);
    return day;
}

TEST(Repair, TheMostPromisingAreTriedWhereverTheCourtIs) {
    Day day = full_hall();
    Forecaster forecaster;
    RepairWish wish;
    wish.late = 1;  // the second match of court 1
    wish.sampling.samples = 64;
    const auto result = repairs(forecaster, day, wish);
    const auto& found = std::get<std::vector<Repair>>(result);
    ASSERT_FALSE(found.empty());
    const auto* move = std::get_if<Move>(&found[0].change);
    ASSERT_NE(move, nullptr);
    EXPECT_EQ(move->court, courts_of_full_hall - 1);
}

TEST(Repair, ADayOnTimeNeedsNone) {
    Day day = slipping_day();
    day.now = 90;
    for (const std::size_t match : {0U, 1U}) day.matches[match].state = Waiting{};
    Forecaster forecaster;
    RepairWish wish;
    wish.late = 4;
    EXPECT_TRUE(std::get<std::vector<Repair>>(repairs(forecaster, day, wish)).empty());
    wish.late = 77;
    EXPECT_TRUE(std::holds_alternative<Faults>(repairs(forecaster, day, wish)));
}

}  // namespace
}  // namespace courthand::forecast
