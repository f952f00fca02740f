// A few verdicts spelled out in code; the body of cases is in tests/cases.
#include <gtest/gtest.h>

#include "courthand/rules/judge.h"
#include "random_play.h"
#include "tests/testkit/jersey.h"

namespace courthand {
namespace {

using testing::no;

class Judge : public ::testing::Test {
  protected:
    explicit Judge(std::string_view profile = "international-2021")
        : rules{find_profile(profile)->rules}, state{fold(rules, testing::opening())} {}

    const VerdictList& say(const Fact& fact) {
        apply(rules, state, {++number, fact}, raised);
        return raised;
    }
    [[nodiscard]] bool stands(Reason reason, Phase phase) const {
        for (const Verdict& v : standing(rules, state))
            if (v.reason == reason && v.phase == phase) return true;
        return false;
    }

    const Rules rules;
    MatchState state;
    VerdictList raised;
    EntryNumber number = 100;
};

// FIVB Official Volleyball Rules 2021-2024, rules 19.3.2.1 and 19.3.2.9
TEST_F(Judge, NoCompletedRallyBetweenTwoReplacements) {
    say(LiberoReplacement{Team::A, no(21), no(5)});
    say(RallyWon{Team::A});
    EXPECT_TRUE(say(LiberoReplacement{Team::A, no(5), no(21)}).empty());
    say(LiberoReplacement{Team::A, no(22), no(6)});
    EXPECT_TRUE(stands(Reason::libero_no_completed_rally, Phase::armed));
    say(Serve{});
    EXPECT_TRUE(stands(Reason::libero_no_completed_rally, Phase::open));
    say(Ruling{Ruling::Decision::accept, Reason::libero_no_completed_rally, Team::A});
    EXPECT_EQ(state.set.score, (Score{1, 1}));
    EXPECT_EQ(state.set.serving, Team::B);
    EXPECT_EQ(on_court(state.set.team.a)[5], no(6));
}

// FIVB Official Volleyball Rules 2021-2024, rule 19.3.2.9: corrected before the service
TEST_F(Judge, ATeamThatPutsItRightInTimeHasNoFault) {
    say(LiberoReplacement{Team::A, no(21), no(5)});
    say(LiberoReplacement{Team::A, no(22), no(6)});
    EXPECT_TRUE(stands(Reason::libero_two_on_court, Phase::armed));
    say(LiberoReplacement{Team::A, no(6), no(22)});
    EXPECT_EQ(state.standing_count, 0);
    EXPECT_TRUE(say(Serve{}).empty());
}

// FIVB Official Volleyball Rules 2021-2024, rule 7.7.1.1: one point whatever the rally brought
TEST_F(Judge, AWrongServerCostsOnePointOnly) {
    say(Serve{Team::A, no(3)});
    EXPECT_TRUE(stands(Reason::wrong_server, Phase::open));
    say(RallyWon{Team::B});
    say(Ruling{Ruling::Decision::accept, Reason::wrong_server, Team::A});
    EXPECT_EQ(state.set.score, (Score{0, 1}));
}

// FIVB Official Volleyball Rules 2021-2024, rule 7.7.2: the points of the team at fault go
TEST_F(Judge, PointsWonSinceTheFaultAreCancelled) {
    for (int i = 0; i < 3; ++i) {
        say(Serve{Team::A, no(3)});
        say(RallyWon{Team::A});
    }
    say(Ruling{Ruling::Decision::accept, Reason::wrong_server, Team::A});
    EXPECT_EQ(state.set.score, (Score{0, 1}));
    EXPECT_EQ(state.set.serving, Team::B);
}

}  // namespace
}  // namespace courthand
