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
    EXPECT_EQ(impossible(format, {{25, 20}, {25, 24}}),
              "set 2 cannot end 25-24: nobody has the lead of 2 that wins it");
}

struct Impossible {
    SetScore score;
    const char* why;
};

TEST(Score, AnImpossibleSetIsToldWithItsReason) {
    MatchFormat of_one = best_of(3);
    of_one.lead = 1;
    MatchFormat capped = best_of(3);
    capped.cap = 27;
    MatchFormat begun = best_of(3);
    begun.start_score = 4;
    const std::pair<MatchFormat, Impossible> all[] = {
        {of_one, {{26, 25}, "set 1 cannot end 26-25: it was over at 25-24"}},
        {of_one, {{25, 26}, "set 1 cannot end 25-26: it was over at 24-25"}},
        {of_one, {{25, 25}, "set 1 cannot end 25-25: it was over at 25-24"}},
        {of_one, {{24, 24}, "set 1 cannot end 24-24: nobody has won it"}},
        {of_one, {{24, 23}, "set 1 cannot end 24-23: nobody has the 25 points that win it"}},
        {best_of(3), {{30, 5}, "set 1 cannot end 30-5: it was over at 25-5"}},
        {best_of(3), {{24, 27}, "set 1 cannot end 24-27: it was over at 24-26"}},
        {best_of(3), {{26, 25}, "set 1 cannot end 26-25: nobody has the lead of 2 that wins it"}},
        {capped, {{28, 26}, "set 1 cannot end 28-26: it was over at 27-26"}},
        {capped, {{28, 27}, "set 1 cannot end 28-27: it was over at 27-26"}},
        {begun, {{25, 3}, "set 1 cannot end 25-3: both sides begin it with 4"}},
    };
    for (const auto& [format, impossible_set] : all)
        EXPECT_EQ(impossible(format, {impossible_set.score, {25, 20}}), impossible_set.why);
}

TEST(Score, AFormatOfWhichNoSetCanBePlayedIsTold) {
    MatchFormat format = best_of(3);
    EXPECT_EQ(unplayable(format), "");
    format.cap = 25;
    EXPECT_EQ(unplayable(format), "");
    format.cap = 24;
    EXPECT_EQ(unplayable(format), "the cap of a set, 24, is below its 25 points");
    format.cap = 0;
    format.deciding_cap = 10;
    EXPECT_EQ(unplayable(format), "the cap of the deciding set, 10, is below its 15 points");
    format.all_sets_played = 1;
    EXPECT_EQ(unplayable(format), "") << "no set decides";
    format.start_score = 25;
    EXPECT_EQ(unplayable(format), "a set begins at 25, and 25 points win it");
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
