// What a team does to put an armed fault right, and what only looks like it.
#include "desk.h"

namespace courthand {
namespace {

using testing::no;
using testing::one_pair;
using PuttingRight = testing::Desk;

constexpr Slot V = Slot::V;

TEST_F(PuttingRight, AnotherLiberoForTheWrongReturnerIsAReplacementOfItsOwn) {
    say(LiberoReplacement{Team::A, no(21), no(5)});
    say(RallyWon{Team::A});
    EXPECT_TRUE(raises(LiberoReplacement{Team::A, no(11), no(21)}, Reason::libero_wrong_returner));
    EXPECT_TRUE(
        raises(LiberoReplacement{Team::A, no(22), no(11)}, Reason::libero_no_completed_rally));
    EXPECT_TRUE(stands(Reason::libero_wrong_returner));
    EXPECT_EQ(in_slot(V), no(22));
}

TEST_F(PuttingRight, NobodyComesBackWhileHeStandsInAnotherPlace) {
    say(LiberoReplacement{Team::A, no(21), no(5)});
    say(LiberoReplacement{Team::A, no(22), no(21)});
    say(LiberoReplacement{Team::A, no(21), no(6)});
    EXPECT_TRUE(raises(LiberoReplacement{Team::A, no(21), no(22)}, Reason::libero_out_of_place));
    EXPECT_TRUE(stands(Reason::libero_no_completed_rally));
    EXPECT_EQ(in_slot(V), no(22));
    EXPECT_EQ(in_slot(Slot::VI), no(21));
}

TEST_F(PuttingRight, NoSubstitutionBringsBackWhoStandsInAnotherPlace) {
    EXPECT_TRUE(raises(one_pair(Team::A, no(99), no(1)), Reason::sub_not_on_roster));
    say(one_pair(Team::A, no(1), no(2)));
    EXPECT_TRUE(raises(one_pair(Team::A, no(1), no(99)), Reason::sub_player_on_court));
    EXPECT_TRUE(stands(Reason::sub_not_on_roster));
    EXPECT_EQ(in_slot(Slot::I), no(99));
    EXPECT_EQ(in_slot(Slot::II), no(1));
}

// A player named as his own replacement changes nothing; least of all is he a registered one then.
TEST_F(PuttingRight, APlayerForHimselfPutsNothingRight) {
    LineUp sheet{Team::A, {no(1), no(2), no(3), no(4), no(5), no(99)}, {}, no(3)};
    sheet.liberos = {LiberoBox{LiberoBox::Mark::number, no(21)}, {LiberoBox::Mark::none, {}}};
    say(sheet);
    say(Whistle{});
    EXPECT_TRUE(stands(Reason::player_unregistered));
    EXPECT_TRUE(raises(LiberoReplacement{Team::A, no(99), no(99)}, Reason::libero_out_of_place));
    EXPECT_TRUE(stands(Reason::player_unregistered));
}

TEST_F(PuttingRight, ALiberoInTheFrontRowIsNotSubstituted) {
    say(LiberoReplacement{Team::A, no(21), no(5)});
    say(RallyWon{Team::B});
    say(RallyWon{Team::A});
    say(Whistle{});
    EXPECT_TRUE(stands(Reason::libero_front_row));
    EXPECT_TRUE(raises(one_pair(Team::A, no(5), no(21)), Reason::libero_in_substitution));
    EXPECT_TRUE(stands(Reason::improper_request));
}

TEST_F(PuttingRight, ARefusedRequestIsNotUndoneWithTheReplacement) {
    say(LiberoReplacement{Team::A, no(21), no(5)});
    say(LiberoReplacement{Team::A, no(22), no(21)});
    say(one_pair(Team::A, no(11), no(1)));
    EXPECT_TRUE(raises(one_pair(Team::A, no(2), no(22)), Reason::sub_second_request));
    say(LiberoReplacement{Team::A, no(21), no(22)});
    EXPECT_FALSE(stands(Reason::libero_no_completed_rally));
    EXPECT_TRUE(stands(Reason::sub_second_request));
}

// The exception for a libero who cannot go on is for him alone.
TEST_F(PuttingRight, AStrangerIsNoLiberoWhoCannotGoOn) {
    say(ExceptionalSubstitution{Team::A, no(99), no(6), Cause::injury});
    say(LiberoReplacement{Team::A, no(21), no(5)});
    say(Misconduct{Team::A, no(21), Sanction::expulsion});
    EXPECT_TRUE(
        raises(LiberoReplacement{Team::A, no(22), no(99)}, Reason::libero_no_completed_rally));
}

TEST_F(PuttingRight, ALiberoWhoIsExpelledLeavesAtOnce) {
    say(LiberoReplacement{Team::A, no(21), no(5)});
    say(Misconduct{Team::A, no(21), Sanction::expulsion});
    EXPECT_TRUE(say(LiberoReplacement{Team::A, no(22), no(21)}).empty());
}

}  // namespace
}  // namespace courthand
