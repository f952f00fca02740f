// Rounds of the circle method: the printed ones, and what holds for every number of teams.
#include "courthand/draw/round_robin.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>

namespace courthand::draw {
namespace {

std::vector<Round> rounds_of(std::uint16_t teams) {
    return std::get<std::vector<Round>>(circle(teams));
}

/// "1-4 2-3" for each round; which of a pair is named first is of no account.
std::vector<std::string> in_words(std::uint16_t teams) {
    std::vector<std::string> all;
    for (const Round& round : rounds_of(teams)) {
        std::string line;
        for (const Pairing p : round.matches)
            line += (line.empty() ? "" : " ") + std::to_string(std::min(p.first, p.second)) + "-" +
                    std::to_string(std::max(p.first, p.second));
        if (round.idle) line += " idle " + std::to_string(*round.idle);
        all.push_back(line);
    }
    return all;
}

using Lines = std::vector<std::string>;

TEST(Circle, PrintedRoundsOfFourFiveAndSix) {
    EXPECT_EQ(in_words(4), (Lines{"1-4 2-3", "1-3 2-4", "1-2 3-4"}));
    EXPECT_EQ(in_words(5), (Lines{"2-5 3-4 idle 1", "1-5 2-3 idle 4", "1-4 3-5 idle 2",
                                  "1-3 2-4 idle 5", "1-2 4-5 idle 3"}));
    EXPECT_EQ(in_words(6),
              (Lines{"1-6 2-5 3-4", "1-5 4-6 2-3", "1-4 3-5 2-6", "1-3 2-4 5-6", "1-2 3-6 4-5"}));
}

TEST(Circle, FirstWeeksOfEightAsPublished) {
    const Lines eight = in_words(8);
    EXPECT_EQ(eight[0], "1-8 2-7 3-6 4-5");
    EXPECT_EQ(eight[1], "1-7 6-8 2-5 3-4");
}

class EveryRoundRobin : public testing::TestWithParam<std::uint16_t> {};

TEST_P(EveryRoundRobin, EveryPairMeetsOnceAndEachRoundIsAMatching) {
    const std::uint16_t n = GetParam();
    const auto rounds = rounds_of(n);
    EXPECT_EQ(rounds.size(), n % 2 == 0 ? n - 1U : n);
    std::set<std::pair<int, int>> met;
    for (const Round& round : rounds) {
        EXPECT_EQ(round.matches.size(), n / 2U);
        EXPECT_EQ(round.idle.has_value(), n % 2 != 0);
        std::set<int> busy;
        for (const Pairing p : round.matches) {
            EXPECT_TRUE(busy.insert(p.first).second);
            EXPECT_TRUE(busy.insert(p.second).second);
            EXPECT_TRUE(met.insert(std::minmax<int>(p.first, p.second)).second);
        }
        if (round.idle) {
            EXPECT_TRUE(busy.insert(*round.idle).second);
        }
        EXPECT_EQ(busy.size(), n);
    }
    EXPECT_EQ(met.size(), n * (n - 1U) / 2);
}

INSTANTIATE_TEST_SUITE_P(ToSixteen, EveryRoundRobin, testing::Range<std::uint16_t>(2, 17));

TEST(Circle, OneTeamAndSeventeenAreRefused) {
    EXPECT_EQ(std::get<Faults>(circle(1))[0].message, "a round robin of one team has no match");
    EXPECT_EQ(std::get<Faults>(circle(17))[0].message, "17 teams; a round robin has 16 at most");
}

}  // namespace
}  // namespace courthand::draw
