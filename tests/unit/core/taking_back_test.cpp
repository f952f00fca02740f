// What a ruling takes back: the places of a request and everything that was counted for it.
#include "desk.h"

namespace courthand {
namespace {

using testing::no;
using testing::one_pair;

class TakingBack : public testing::Desk {
  protected:
    [[nodiscard]] const PlayerSetRecord& moves(std::uint8_t jersey) const {
        const TeamRecord& team = state.team.a;
        return state.set.team.a
            .players[static_cast<std::size_t>(find(team, no(jersey)) - team.players.data())];
    }
    /// A request that may be made, so that the next one is one too many.
    void first_request() { say(one_pair(Team::A, no(14), no(6))); }
};

TEST_F(TakingBack, ARefusedSubstituteMayStillComeIn) {
    first_request();
    EXPECT_TRUE(raises(one_pair(Team::A, no(11), no(1)), Reason::sub_second_request));
    accept(Reason::sub_second_request, Team::A);
    EXPECT_EQ(in_slot(Slot::I), no(1));
    EXPECT_EQ(moves(11), PlayerSetRecord{});
    say(RallyWon{Team::A});
    EXPECT_TRUE(say(one_pair(Team::A, no(12), no(1))).empty());
}

// FIVB Official Volleyball Rules 2021-2024, rules 15.3.2 and 15.6.1
TEST_F(TakingBack, ARefusedStarterMayStillReturn) {
    say(one_pair(Team::A, no(11), no(1)));
    say(RallyWon{Team::A});
    first_request();
    EXPECT_TRUE(raises(one_pair(Team::A, no(1), no(11)), Reason::sub_second_request));
    accept(Reason::sub_second_request, Team::A);
    EXPECT_EQ(in_slot(Slot::I), no(11));
    say(RallyWon{Team::A});
    EXPECT_TRUE(say(one_pair(Team::A, no(1), no(11))).empty());
}

// US national federation domestic rules, 2019-21, rule 15.6: entries within one place are free
TEST_F(TakingBack, TheFirstSubstituteOfAPlaceStaysSoWhenTheSecondIsRefused) {
    play_by(find_profile("us-domestic-2021")->rules);
    say(one_pair(Team::A, no(11), no(1)));
    say(RallyWon{Team::A});
    first_request();
    EXPECT_TRUE(raises(one_pair(Team::A, no(12), no(11)), Reason::sub_second_request));
    EXPECT_EQ(moves(12).bound, 1);
    accept(Reason::sub_second_request, Team::A);
    EXPECT_EQ(moves(12).bound, 0);
    EXPECT_EQ(state.set.team.a.slots[0].substitute, no(11));
}

TEST_F(TakingBack, ARefusedSecondEntryLeavesTheFirst) {
    play_by(find_profile("us-domestic-2021")->rules);
    for (const Substitution& request :
         {one_pair(Team::A, no(11), no(1)), one_pair(Team::A, no(1), no(11))}) {
        EXPECT_TRUE(say(request).empty());
        say(RallyWon{Team::A});
    }
    first_request();
    say(one_pair(Team::A, no(11), no(1)));
    EXPECT_EQ(moves(11).entered, 2);
    accept(Reason::sub_second_request, Team::A);
    EXPECT_EQ(moves(11).entered, 1);
    EXPECT_EQ(moves(11).bound, 1);
}

// The place has changed hands since by exception; whoever is in it now goes out again.
TEST_F(TakingBack, AnExceptionMadeInARefusedPlaceGoesWithIt) {
    for (const std::uint8_t jersey : {std::uint8_t{12}, std::uint8_t{99}}) {
        play_by(rules);
        first_request();
        say(one_pair(Team::A, no(11), no(1)));
        say(ExceptionalSubstitution{Team::A, no(jersey), no(11), Cause::injury});
        EXPECT_EQ(in_slot(Slot::I), no(jersey));
        accept(Reason::sub_second_request, Team::A);
        EXPECT_EQ(in_slot(Slot::I), no(1)) << int{jersey};
        EXPECT_EQ(moves(1).left, 0);
    }
}

// An illegal pair of a refused request was never counted for the player who went off.
TEST_F(TakingBack, WhatWasNotCountedIsNotUncounted) {
    first_request();
    EXPECT_TRUE(raises(one_pair(Team::A, no(6), no(1)), Reason::sub_wrong_pair));
    say(ExceptionalSubstitution{Team::A, no(12), no(6), Cause::injury});
    accept(Reason::sub_second_request, Team::A);
    EXPECT_EQ(in_slot(Slot::I), no(1));
    EXPECT_EQ(moves(1).left, 0);
    EXPECT_EQ(moves(12), PlayerSetRecord{});
}

TEST_F(TakingBack, AStrangerComesBackWhenHisSubstitutionIsRefused) {
    say(LineUp{Team::A, {no(99), no(2), no(3), no(4), no(5), no(6)}, {}, no(3)});
    first_request();
    say(one_pair(Team::A, no(11), no(99)));
    EXPECT_EQ(in_slot(Slot::I), no(11));
    accept(Reason::sub_second_request, Team::A);
    EXPECT_EQ(in_slot(Slot::I), no(99));
}

TEST_F(TakingBack, ARefusedRedesignationOfAStrangerLeavesEverybodyWhatHeWas) {
    for (const Redesignation& refused :
         {Redesignation{Team::A, no(21), no(99)}, Redesignation{Team::A, no(99), no(11)}}) {
        play_by(rules);
        const TeamRecord before = state.team.a;
        say(refused);
        EXPECT_NE(state.team.a, before);
        accept(raised.begin()->reason, Team::A);
        EXPECT_EQ(state.team.a, before);
    }
}

TEST_F(TakingBack, AStrangerWhomARefereeLetInGoesWithTheRequest) {
    first_request();
    say(one_pair(Team::A, no(99), no(1)));
    say(Ruling{Ruling::Decision::overrule, Reason::sub_not_on_roster, Team::A});
    EXPECT_EQ(in_slot(Slot::I), no(99));
    accept(Reason::sub_second_request, Team::A);
    EXPECT_EQ(in_slot(Slot::I), no(1));
}

// Who is taken out by an exception that was not allowed is what he was before it.
TEST_F(TakingBack, AnExceptionTakenBackLeavesTheExpelledExpelled) {
    say(Misconduct{Team::A, no(1), Sanction::expulsion});
    EXPECT_TRUE(raises(ExceptionalSubstitution{Team::A, no(21), no(1), Cause::expulsion},
                       Reason::libero_in_substitution));
    EXPECT_EQ(find(state.team.a, no(1))->bar, Bar::injured_out);
    accept(Reason::libero_in_substitution, Team::A);
    EXPECT_EQ(in_slot(Slot::I), no(1));
    EXPECT_EQ(find(state.team.a, no(1))->bar, Bar::expelled);
    EXPECT_EQ(state.set.team.a.exceptional, 0);
}

TEST_F(TakingBack, AnExceptionTakenBackLeavesTheDisqualifiedDisqualified) {
    say(Misconduct{Team::A, no(1), Sanction::disqualification});
    say(ExceptionalSubstitution{Team::A, no(21), no(1), Cause::disqualification});
    accept(Reason::libero_in_substitution, Team::A);
    EXPECT_EQ(in_slot(Slot::I), no(1));
    EXPECT_EQ(find(state.team.a, no(1))->bar, Bar::disqualified);
}

TEST_F(TakingBack, AnExceptionForAStrangerIsTakenBackToo) {
    say(LineUp{Team::A,
               {no(99), no(2), no(3), no(4), no(5), no(6)},
               {LiberoBox{LiberoBox::Mark::number, no(21)}, {}},
               no(3)});
    say(ExceptionalSubstitution{Team::A, no(21), no(99), Cause::injury});
    accept(Reason::libero_in_substitution, Team::A);
    EXPECT_EQ(in_slot(Slot::I), no(99));
    EXPECT_EQ(state.set.team.a.exceptional, 0);
}

// Two places of a request hang together: the starter of the one stands in the other.
TEST_F(TakingBack, PlacesThatHangTogetherAreAllPutBack) {
    first_request();
    Substitution request{Team::A, 2, {}};
    request.pairs[0] = {no(11), no(1)};
    request.pairs[1] = {no(12), no(2)};
    EXPECT_TRUE(raises(request, Reason::sub_second_request));
    say(ExceptionalSubstitution{Team::A, no(1), no(12), Cause::injury});
    EXPECT_EQ(in_slot(Slot::II), no(1));
    accept(Reason::sub_second_request, Team::A);
    EXPECT_EQ(in_slot(Slot::I), no(1));
    EXPECT_EQ(in_slot(Slot::II), no(2));
}

// Two faults of one kind, one of them without anybody to name: no time-out is given back for it.
TEST_F(TakingBack, ARequestThatNamesNobodyGivesNoTimeOutBack) {
    first_request();
    EXPECT_TRUE(
        raises(one_pair(Team::A, Jersey::none(), Jersey::none()), Reason::sub_second_request));
    accept(Reason::sub_second_request, Team::A);
    EXPECT_EQ(state.set.team.a.time_outs, 0);
}

TEST_F(TakingBack, ARequestCountsNoMorePairsThanItCanHold) {
    Substitution request = one_pair(Team::A, no(11), no(1));
    request.count = 200;
    say(request);
    EXPECT_EQ(state.set.team.a.substitutions, 1);
    EXPECT_EQ(in_slot(Slot::I), no(11));
}

}  // namespace
}  // namespace courthand
