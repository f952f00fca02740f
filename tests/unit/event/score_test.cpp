// Scores that a match can end with.
#include <gtest/gtest.h>

#include "event/score_check.h"

namespace courthand::event {
namespace {

MatchFormat best_of(std::uint8_t sets) {
    MatchFormat format;
    format.sets = sets;
    return format;
}

TEST(Score, ASetEndsAtItsPointsWithTheLead) {
    const MatchFormat format = best_of(5);
    EXPECT_TRUE(set_can_end(format, 1, {25, 23}));
    EXPECT_TRUE(set_can_end(format, 1, {25, 0}));
    EXPECT_TRUE(set_can_end(format, 1, {31, 33}));
    EXPECT_FALSE(set_can_end(format, 1, {25, 24}));
    EXPECT_FALSE(set_can_end(format, 1, {26, 23}));
    EXPECT_FALSE(set_can_end(format, 1, {24, 20}));
    EXPECT_FALSE(set_can_end(format, 1, {25, 25}));
    EXPECT_TRUE(set_can_end(format, 5, {15, 13}));
    EXPECT_FALSE(set_can_end(format, 5, {25, 13}));
}

TEST(Score, ACapEndsASetWhateverTheLead) {
    MatchFormat format = best_of(3);
    format.cap = 27;
    EXPECT_TRUE(set_can_end(format, 1, {27, 26}));
    EXPECT_TRUE(set_can_end(format, 1, {27, 25}));
    EXPECT_FALSE(set_can_end(format, 1, {27, 24}));
    EXPECT_FALSE(set_can_end(format, 1, {28, 26}));
    EXPECT_FALSE(set_can_end(format, 1, {28, 27}));
    EXPECT_FALSE(set_can_end(format, 1, {30, 28}));
    format.cap = 25;
    EXPECT_TRUE(set_can_end(format, 1, {25, 24}));
    EXPECT_FALSE(set_can_end(format, 1, {26, 25}));
}

TEST(Score, WithALeadOfOneNobodyPassesThePointsOfTheSet) {
    MatchFormat format = best_of(3);
    format.lead = 1;
    EXPECT_TRUE(set_can_end(format, 1, {25, 24}));
    EXPECT_FALSE(set_can_end(format, 1, {26, 25}));
    EXPECT_TRUE(set_can_end(format, 3, {14, 15}));
    EXPECT_FALSE(set_can_end(format, 3, {16, 15}));
}

TEST(Score, ASetBegunAtAScoreCannotEndBelowIt) {
    MatchFormat format = best_of(3);
    format.start_score = 4;
    EXPECT_TRUE(set_can_end(format, 1, {25, 4}));
    EXPECT_FALSE(set_can_end(format, 1, {25, 3}));
}

TEST(Score, AMatchEndsWithItsDecidingWin) {
    const MatchFormat format = best_of(3);
    EXPECT_EQ(impossible(format, {{25, 20}, {25, 20}}), "");
    EXPECT_EQ(impossible(format, {{25, 20}, {20, 25}, {15, 9}}), "");
    EXPECT_EQ(impossible(format, {{25, 20}}), "the match is not over after 1 sets");
    EXPECT_EQ(impossible(format, {{25, 20}, {25, 20}, {15, 9}}), "the match is over before set 3");
    EXPECT_EQ(impossible(format, {{25, 20}, {25, 24}}), "set 2 cannot end 25-24");
}

TEST(Score, AFixedNumberOfSetsIsPlayedToTheLast) {
    MatchFormat format;
    format.sets = 2;
    format.all_sets_played = 1;
    EXPECT_EQ(impossible(format, {{25, 20}, {20, 25}}), "");
    EXPECT_NE(impossible(format, {{25, 20}}), "");
}

/// FIVB Official Volleyball Rules 2021-2024, rules 6.4.1 and 6.4.3.
TEST(Score, ALostMatchIsCompletedForTheOtherTeam) {
    const MatchFormat format = best_of(5);
    EXPECT_EQ(lost_outright(format, true), (std::vector<SetScore>{{0, 25}, {0, 25}, {0, 25}}));
    EXPECT_EQ(completed(format, {{25, 20}, {10, 12}}, true),
              (std::vector<SetScore>{{25, 20}, {10, 25}, {0, 25}, {0, 25}}));
    EXPECT_EQ(completed(format, {{24, 23}}, true),
              (std::vector<SetScore>{{24, 26}, {0, 25}, {0, 25}}));
    EXPECT_EQ(completed(format, {{20, 25}, {25, 20}, {20, 25}, {25, 20}, {3, 9}}, false),
              (std::vector<SetScore>{{20, 25}, {25, 20}, {20, 25}, {25, 20}, {15, 9}}));
}

}  // namespace
}  // namespace courthand::event
