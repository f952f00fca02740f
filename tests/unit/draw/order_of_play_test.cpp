// Orders of play with work duties: the printed ones, and what holds for every number of teams.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>

#include "courthand/draw/round_robin.h"

namespace courthand::draw {
namespace {

OrderOfPlay order(std::uint16_t teams, std::uint16_t courts = 1) {
    return std::get<OrderOfPlay>(order_of_play(teams, courts));
}

std::string in_words(const OrderOfPlay& o) {
    std::string all;
    for (const Fixture& f : o.fixtures)
        all += (all.empty() ? "" : ", ") + std::to_string(f.teams.first) + "-" +
               std::to_string(f.teams.second) + " w" + std::to_string(f.worker.value_or(0));
    return all;
}

// Published on a template of a tournament day; that of five has no team play twice running.
TEST(OrderOfPlay, PrintedOrdersOfOneCourt) {
    EXPECT_EQ(in_words(order(3)), "1-3 w2, 2-3 w1, 1-2 w3");
    EXPECT_EQ(in_words(order(4)), "1-3 w2, 2-4 w1, 1-4 w3, 2-3 w1, 3-4 w2, 1-2 w4");
    EXPECT_EQ(in_words(order(5)),
              "1-4 w2, 2-3 w1, 1-5 w2, 2-4 w1, 3-5 w4, 1-2 w3, 3-4 w5, 2-5 w4, 1-3 w5, 4-5 w3");
}

TEST(OrderOfPlay, SixPlayTheirPrintedRoundsOneAfterTheOther) {
    const auto rounds = std::get<std::vector<Round>>(circle(6));
    const OrderOfPlay o = order(6);
    for (std::size_t r = 0; r < rounds.size(); ++r)
        for (std::size_t i = 0; i < 3; ++i) {
            const Pairing p = o.fixtures[3 * r + i].teams;
            const auto& of_round = rounds[r].matches;
            EXPECT_NE(std::find(of_round.begin(), of_round.end(), p), of_round.end());
        }
}

struct Size {
    std::uint16_t teams;
    std::uint16_t courts;
};
void PrintTo(const Size& s, std::ostream* out) {
    *out << s.teams << "on" << s.courts;
}

std::vector<Size> sizes() {
    std::vector<Size> all;
    for (std::uint16_t n = 2; n <= 16; ++n)
        for (std::uint16_t c = 1; c <= 9; ++c) all.push_back({n, c});
    return all;
}

class EveryOrder : public testing::TestWithParam<Size> {};

TEST_P(EveryOrder, EveryPairMeetsOnceInAsFewSlotsAsThereCanBe) {
    const auto [n, c] = GetParam();
    const OrderOfPlay o = order(n, c);
    std::set<std::pair<int, int>> met;
    for (const Fixture& f : o.fixtures) {
        EXPECT_TRUE(met.insert(std::minmax<int>(f.teams.first, f.teams.second)).second);
        EXPECT_LT(f.court, c);
        EXPECT_LT(f.slot, o.slots);
    }
    const unsigned matches = n * (n - 1U) / 2;
    EXPECT_EQ(met.size(), matches);
    const unsigned at_once = std::min<unsigned>(c, n / 2U);
    EXPECT_EQ(o.slots, (matches + at_once - 1) / at_once);
}

TEST_P(EveryOrder, NobodyPlaysOrWorksTwiceInASlot) {
    const auto [n, c] = GetParam();
    const OrderOfPlay o = order(n, c);
    std::set<std::pair<int, int>> busy;
    std::set<std::pair<int, int>> courts;
    for (const Fixture& f : o.fixtures) {
        EXPECT_TRUE(courts.insert({f.slot, f.court}).second);
        EXPECT_TRUE(busy.insert({f.slot, f.teams.first}).second);
        EXPECT_TRUE(busy.insert({f.slot, f.teams.second}).second);
        if (f.worker) {
            EXPECT_TRUE(busy.insert({f.slot, *f.worker}).second);
        }
    }
}

TEST_P(EveryOrder, EveryMatchIsWorkedThatCanBeAndTheOthersAreNoted) {
    const auto [n, c] = GetParam();
    const OrderOfPlay o = order(n, c);
    unsigned unworked = 0;
    for (std::uint16_t slot = 0; slot < o.slots; ++slot) {
        unsigned matches = 0;
        unsigned worked = 0;
        for (const Fixture& f : o.fixtures) {
            matches += f.slot == slot ? 1 : 0;
            worked += f.slot == slot && f.worker ? 1 : 0;
        }
        EXPECT_EQ(worked, std::min(matches, n - 2 * matches));
        unworked += matches - worked;
    }
    EXPECT_EQ(o.from_elsewhere, unworked);
    EXPECT_EQ(o.note.empty(), unworked == 0);
}

TEST_P(EveryOrder, DutiesDifferByOneAtMost) {
    const auto [n, c] = GetParam();
    const Demands d = demands_of(order(n, c), n);
    EXPECT_LE(d.most_duties - d.fewest_duties, 1);
}

INSTANTIATE_TEST_SUITE_P(ToSixteen, EveryOrder, testing::ValuesIn(sizes()));

TEST(OrderOfPlay, FromFiveTeamsOnNobodyPlaysTwiceRunningOnOneCourt) {
    for (std::uint16_t n = 5; n <= 16; ++n)
        EXPECT_EQ(demands_of(order(n), n).most_in_a_row, 1) << n;
    EXPECT_EQ(demands_of(order(3), 3).most_in_a_row, 2);
    EXPECT_EQ(demands_of(order(4), 4).most_in_a_row, 2);
}

TEST(OrderOfPlay, OnSeveralCourtsRunsOfMatchesStayShortWhereTeamsAreIdle) {
    // No published limit: these hold what the search for an order finds. It is not exhaustive, so
    // shorter runs may exist (13 teams on 4 courts and 15 on 5 have runs of four).
    for (const Size s : sizes()) {
        if (s.courts == 1 || 3 * s.courts > s.teams) continue;
        const bool half_idle = 4 * s.courts <= s.teams;
        EXPECT_LE(demands_of(order(s.teams, s.courts), s.teams).most_in_a_row, half_idle ? 2 : 4)
            << s.teams << " teams on " << s.courts << " courts";
    }
}

TEST(OrderOfPlay, ASecondCourtOfFiveTeamsNeedsWorkersFromElsewhere) {
    const OrderOfPlay o = order(5, 2);
    EXPECT_EQ(o.slots, 5);
    EXPECT_EQ(o.from_elsewhere, 5);
    EXPECT_EQ(
        o.note,
        "5 of 10 matches need workers from elsewhere: too few teams of the pool are idle then");
    EXPECT_TRUE(order(5).note.empty());
    EXPECT_TRUE(order(6, 2).note.empty());
}

TEST(OrderOfPlay, SaysInWordsWhatItHoldsAndWhatItLacks) {
    using Lines = std::vector<std::string>;
    EXPECT_EQ(order_in_words(3, false),
              (Lines{"a pool of 3: 3 matches, each pair once; at most 2 in a row for a team; "
                     "duties of each: 1"}));
    EXPECT_EQ(order_in_words(5, false),
              (Lines{"a pool of 5: 10 matches, each pair once; at most 1 in a row for a team; "
                     "duties of each: 2",
                     "a pool of 5 on two courts: 5 of 10 matches need workers from elsewhere: too "
                     "few teams of the pool are idle then"}));
    EXPECT_EQ(order_in_words(4, true)[0],
              "a pool of 4: 12 matches, each pair twice; at most 2 in a row for a team; "
              "duties of each: 2 to 4");
    EXPECT_EQ(order_in_words(6, false).size(), 1U) << "six teams work two courts";
    EXPECT_EQ(order_in_words(17, false), Lines{}) << "there is no order of play";
    EXPECT_EQ(order_in_words(0, false), Lines{});
}

TEST(OrderOfPlay, TheSecondLegTurnsTheSidesAndKeepsTheDuties) {
    EXPECT_EQ(in_words(with_second_leg(order(3))),
              "1-3 w2, 2-3 w1, 1-2 w3, 3-1 w2, 3-2 w1, 2-1 w3");
    const OrderOfPlay two_courts = with_second_leg(order(5, 2));
    EXPECT_EQ(two_courts.slots, 10);
    EXPECT_EQ(two_courts.from_elsewhere, 10);
    EXPECT_EQ(
        two_courts.note,
        "10 of 20 matches need workers from elsewhere: too few teams of the pool are idle then");
    EXPECT_TRUE(with_second_leg(order(8)).note.empty());
}

TEST_P(EveryOrder, OfTwoLegsKeepsEachPairApartEquallyLong) {
    const Size s = GetParam();
    const OrderOfPlay once = order(s.teams, s.courts);
    const OrderOfPlay twice = with_second_leg(once);
    ASSERT_EQ(twice.fixtures.size(), 2 * once.fixtures.size());
    for (const Fixture& first : once.fixtures) {
        const auto again = [&](const Fixture& f) {
            return f.teams == Pairing{first.teams.second, first.teams.first} &&
                   f.slot == first.slot + once.slots && f.worker == first.worker;
        };
        EXPECT_EQ(std::count_if(twice.fixtures.begin(), twice.fixtures.end(), again), 1);
    }
}

TEST(OrderOfPlay, WrongInputIsTold) {
    EXPECT_EQ(std::get<Faults>(order_of_play(1, 1))[0].message,
              "a round robin of one team has no match");
    EXPECT_EQ(std::get<Faults>(order_of_play(4, 0))[0].message, "no court to play on");
}

}  // namespace
}  // namespace courthand::draw
