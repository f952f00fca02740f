// Facts at the edge of a match: out of sequence, beyond every count, forfeits, unusual formats.
#include <gtest/gtest.h>

#include "desk.h"

namespace courthand {
namespace {

using testing::no;

class Edge : public testing::Desk {
  protected:
    void use(std::string_view profile) { rules = find_profile(profile)->rules; }
    /// Only the first facts of the opening.
    void start(std::size_t facts = 8) {
        const auto all = testing::opening();
        state = fold(rules, std::span<const Entry>{all}.first(facts));
    }
};

TEST_F(Edge, FactsThatCannotFollowAreKeptAndNamed) {
    for (const Fact& fact :
         {Fact{Whistle{}}, Fact{Serve{}}, Fact{RallyWon{Team::A}}, Fact{Replay{}},
          Fact{TimeOut{Team::A}}, Fact{Substitution{Team::A, 1, {}}}, Fact{LineUpChecked{Team::B}},
          Fact{LineUp{}}, Fact{Interval{}}, Fact{ScoreCorrection{}}, Fact{Incomplete{}},
          Fact{SetStarted{4}}, Fact{LiberoBoxSettled{}}}) {
        start(3);
        EXPECT_TRUE(raises(fact, Reason::out_of_sequence)) << fact.index();
    }
    start();
    for (const Fact& fact :
         {Fact{MatchOpened{}}, Fact{Roster{}}, Fact{SetStarted{1}}, Fact{SetStarted{2}},
          Fact{Interval{}}, Fact{LiberoBoxSettled{Team::A, 2, {}}},
          Fact{Ruling{Ruling::Decision::accept, Reason::wrong_server, Team::A}}})
        EXPECT_TRUE(raises(fact, Reason::out_of_sequence)) << fact.index();
    say(RallyWon{Team::A});
    EXPECT_TRUE(raises(Toss{Team::B, Team::B}, Reason::out_of_sequence));
    say(Whistle{});
    EXPECT_TRUE(raises(Whistle{}, Reason::out_of_sequence));
    say(Serve{});
    EXPECT_TRUE(raises(Serve{}, Reason::out_of_sequence));
    EXPECT_TRUE(raises(Whistle{}, Reason::out_of_sequence));
}

TEST_F(Edge, CountsStopAtTheirGreatestValue) {
    start();
    for (int i = 0; i < 300; ++i) {
        say(TimeOut{Team::A});
        say(Delay{Team::B, Sanction::warning});
    }
    EXPECT_EQ(state.set.team.a.time_outs, 255);
    EXPECT_EQ(state.team.b.delays, 255);
}

// FIVB Official Volleyball Rules 2021-2024, rules 6.4.1 and 6.4.2
TEST_F(Edge, ADefaultLosesEverySetWithoutAPoint) {
    start();
    for (int i = 0; i < 25; ++i) say(RallyWon{Team::A});
    say(Default{Team::A});
    EXPECT_EQ(state.set.stage, Stage::match_over);
    EXPECT_EQ(state.winner, Team::B);
    EXPECT_EQ(state.team.b.sets_won, 3);
    EXPECT_EQ(state.team.a.sets_won, 0);
    EXPECT_EQ(state.results[0].score, (Score{0, 25}));
    EXPECT_TRUE(raises(Default{Team::B}, Reason::out_of_sequence));
}

// FIVB Official Volleyball Rules 2021-2024, rule 6.4.3
TEST_F(Edge, AnIncompleteTeamKeepsItsPointsAndSets) {
    start();
    for (int i = 0; i < 25; ++i) say(RallyWon{Team::A});
    say(SetStarted{2});
    for (const std::size_t i : {4U, 5U, 6U, 7U}) say(testing::opening()[i].fact);
    say(ScoreCorrection{{24, 20}});
    say(Incomplete{Team::A, Incomplete::Scope::match});
    EXPECT_EQ(state.winner, Team::B);
    EXPECT_EQ(state.team.a.sets_won, 1);
    EXPECT_EQ(state.results[1].score, (Score{24, 26}));
    EXPECT_EQ(state.results[2].score, (Score{0, 25}));
}

TEST_F(Edge, ACapEndsTheSetWhateverTheLead) {
    rules.format.cap = 27;
    start();
    say(ScoreCorrection{{26, 26}});
    say(RallyWon{Team::A});
    EXPECT_EQ(state.set.stage, Stage::set_over);
    EXPECT_EQ(state.results[0].score, (Score{27, 26}));
    start();
    EXPECT_TRUE(raises(ScoreCorrection{{28, 26}}, Reason::score_impossible));
    start();
    say(ScoreCorrection{{0, 26}});
    start();
    say(ScoreCorrection{{26, 26}});
    say(Incomplete{Team::A, Incomplete::Scope::set});
    EXPECT_EQ(state.results[0].score, (Score{26, 27}));
}

TEST_F(Edge, NobodyHasWonAtTheCapWithoutALead) {
    rules.format.cap = 27;
    start();
    say(ScoreCorrection{{27, 27}});
    EXPECT_NE(state.set.stage, Stage::set_over);
    EXPECT_EQ(state.team.a.sets_won + state.team.b.sets_won, 0);
}

TEST_F(Edge, NoMoreSetsAreStartedThanResultsAreKept) {
    rules.format.all_sets_played = 1;
    rules.format.sets = MatchFormat::most_sets + 2;
    start();
    for (std::uint8_t set = 2; set <= MatchFormat::most_sets + 1; ++set) {
        say(Incomplete{Team::A, Incomplete::Scope::set});
        EXPECT_EQ(raises(SetStarted{set}, Reason::out_of_sequence), set > MatchFormat::most_sets);
    }
    EXPECT_EQ(state.set.number, MatchFormat::most_sets);
    EXPECT_EQ(state.team.b.sets_won, MatchFormat::most_sets);
}

// FIVB Official Volleyball Rules 2021-2024, rule 7.3.5.4, in a format without a winner by majority
TEST_F(Edge, ALostSetDoesNotEndTheLastOfAFixedNumber) {
    rules.format.all_sets_played = 1;
    rules.format.sets = 2;
    start();
    LineUp with_stranger{Team::A, {no(99), no(2), no(3), no(4), no(5), no(6)}, {}, no(3)};
    say(with_stranger);
    for (int i = 0; i < 25; ++i) say(RallyWon{Team::A});
    say(SetStarted{2});
    for (const std::size_t i : {4U, 5U, 6U, 7U}) say(testing::opening()[i].fact);
    say(RallyWon{Team::A});
    say(Ruling{Ruling::Decision::accept, Reason::player_unregistered, Team::A});
    EXPECT_EQ(state.team.b.sets_won, 1);
    EXPECT_EQ(state.set.stage, Stage::dead_ball);
}

TEST_F(Edge, ADefaultLosesAllOfAFixedNumberOfSets) {
    rules.format.all_sets_played = 1;
    rules.format.sets = MatchFormat::most_sets;
    start();
    say(Default{Team::A});
    EXPECT_EQ(state.set.stage, Stage::match_over);
    EXPECT_EQ(state.team.b.sets_won, MatchFormat::most_sets);
}

TEST_F(Edge, WhatIsOverruledAfterADefaultChangesNothing) {
    start();
    Substitution request{Team::A, 1, {}};
    request.pairs[0] = {no(99), no(1)};
    say(request);
    say(Serve{});
    say(Default{Team::A});
    ASSERT_GT(state.standing_count, 0);
    const SetState before = state.set;
    say(Ruling{Ruling::Decision::overrule, Reason::sub_not_on_roster, Team::A});
    EXPECT_EQ(state.set, before);
}

TEST_F(Edge, AScoreBeyondTheEndIsImpossible) {
    start();
    EXPECT_TRUE(raises(ScoreCorrection{{30, 10}}, Reason::score_impossible));
}

TEST_F(Edge, AFixedNumberOfSetsIsPlayedToTheEnd) {
    rules.format.all_sets_played = 1;
    rules.format.sets = 2;
    start();
    for (int i = 0; i < 25; ++i) say(RallyWon{Team::B});
    say(SetStarted{2});
    for (int i = 0; i < 25; ++i) say(RallyWon{Team::B});
    EXPECT_EQ(state.set.stage, Stage::match_over);
    EXPECT_EQ(state.winner, Team::B);
}

// FIVB Official Volleyball Rules 2021-2024, rule 21.5: a sanction between sets counts in the next
TEST_F(Edge, PenaltiesBetweenSetsOpenTheNextOne) {
    start();
    for (int i = 0; i < 25; ++i) say(RallyWon{Team::A});
    say(Misconduct{Team::A, no(5), Sanction::penalty});
    say(Misconduct{Team::B, no(35), Sanction::penalty});
    say(SetStarted{2});
    EXPECT_EQ(state.set.score, (Score{1, 1}));
    EXPECT_EQ(state.team.a.pending_penalties + state.team.b.pending_penalties, 0);
}

TEST_F(Edge, ARulingThatTakesTheLastPointReopensTheSet) {
    start();
    say(ScoreCorrection{{24, 10}});
    say(Serve{Team::A, no(4)});
    say(RallyWon{Team::A});
    EXPECT_EQ(state.set.stage, Stage::set_over);
    EXPECT_EQ(state.team.a.sets_won, 1);
    say(Ruling{Ruling::Decision::accept, Reason::wrong_server, Team::A});
    EXPECT_EQ(state.set.stage, Stage::dead_ball);
    EXPECT_EQ(state.team.a.sets_won, 0);
    EXPECT_EQ(state.set.score, (Score{24, 11}));
}

TEST_F(Edge, ADisqualifiedPlayerIsNotExpelledAsWell) {
    start();
    say(Misconduct{Team::A, no(4), Sanction::disqualification});
    EXPECT_TRUE(raises(Misconduct{Team::A, no(4), Sanction::expulsion}, Reason::misconduct_scale));
    EXPECT_EQ(find(state.team.a, no(4))->bar, Bar::disqualified);
    say(Misconduct{Team::A, no(99), Sanction::expulsion});
    say(Misconduct{Team::A, Jersey::none(), Sanction::warning});
    EXPECT_TRUE(
        raises(Misconduct{Team::A, Jersey::none(), Sanction::warning}, Reason::misconduct_scale));
}

TEST_F(Edge, RecoveryIsForThoseOnCourtWhomNobodyCanReplace) {
    start();
    EXPECT_TRUE(raises(Recovery{Team::A, no(1)}, Reason::recovery_not_open));
    EXPECT_TRUE(raises(Recovery{Team::A, no(77)}, Reason::recovery_not_open));
    say(Ruling{Ruling::Decision::accept, Reason::recovery_not_open, Team::A});
    EXPECT_EQ(state.team.a.redesignations, 0);
}

TEST_F(Edge, ARefusedRedesignationLeavesTheLiberosAsTheyWere) {
    start();
    const MatchState before = state;
    EXPECT_TRUE(raises(Redesignation{Team::A, no(21), no(5)}, Reason::redesignation_not_open));
    EXPECT_EQ(state.set.team.a.liberos[0], no(5));
    say(Ruling{Ruling::Decision::accept, Reason::redesignation_not_open, Team::A});
    EXPECT_EQ(state.set.team.a.liberos, before.set.team.a.liberos);
    EXPECT_EQ(find(state.team.a, no(5))->libero, LiberoRole::none);
    EXPECT_TRUE(raises(Redesignation{Team::A, no(88), no(99)}, Reason::redesignation_not_open));
}

TEST_F(Edge, AnOverruledSubstitutionIsHowItShouldBe) {
    start();
    Substitution request{Team::A, 1, {}};
    request.pairs[0] = {no(11), no(1)};
    say(request);
    say(RallyWon{Team::A});
    request.pairs[0] = {no(12), no(11)};
    EXPECT_TRUE(raises(request, Reason::sub_wrong_pair));
    say(Ruling{Ruling::Decision::overrule, Reason::sub_wrong_pair, Team::A});
    EXPECT_EQ(state.set.team.a.slots[0].regular, no(12));
    EXPECT_EQ(state.standing_count, 0);
}

TEST_F(Edge, WithoutMatchingNumbersNobodyMoves) {
    start();
    const Six before = on_court(state.set.team.a);
    EXPECT_TRUE(raises(LiberoReplacement{Team::A, no(21), no(77)}, Reason::libero_out_of_place));
    EXPECT_TRUE(raises(LiberoReplacement{Team::A, no(2), no(1)}, Reason::libero_out_of_place));
    EXPECT_TRUE(raises(LiberoUnable{Team::A, no(77), Cause::injury}, Reason::libero_out_of_place));
    EXPECT_TRUE(raises(GameCaptain{Team::A, no(77)}, Reason::captain_not_on_court));
    EXPECT_TRUE(raises(ExceptionalSubstitution{Team::A, no(11), no(77), Cause::injury},
                       Reason::sub_player_not_on_court));
    EXPECT_TRUE(raises(ExceptionalSubstitution{Team::A, no(2), no(1), Cause::injury},
                       Reason::sub_player_on_court));
    EXPECT_EQ(on_court(state.set.team.a), before);
    // A stranger who does come in stands there all the same: facts are never refused.
    EXPECT_TRUE(raises(ExceptionalSubstitution{Team::A, no(77), no(1), Cause::injury},
                       Reason::sub_not_on_roster));
    EXPECT_EQ(on_court(state.set.team.a)[0], no(77));
}

// The list of verdicts and the list of faults that stand are bounded: more are said, not lost
// silently.
TEST_F(Edge, MoreFaultsThanCanBeFollowedAreStillReported) {
    start();
    say(Serve{});
    for (int i = 0; i < 30; ++i) {
        EXPECT_FALSE(say(TimeOut{Team::A}).empty());
        EXPECT_LE(state.standing_count, most_standing);
    }
    VerdictList list;
    for (std::size_t i = 0; i <= VerdictList::capacity; ++i) list.add({});
    EXPECT_TRUE(list.overflow());
    EXPECT_EQ(list.size(), VerdictList::capacity);
}

}  // namespace
}  // namespace courthand
