// What hangs on a fact or a result is told before it is taken back.
#include "courthand/event/effects.h"

#include <algorithm>

#include "event_of.h"

namespace courthand::event {
namespace {

using testing::small_cup;
using testing::state_of;

/// Both pools played: A is Harbour Lights, Quayside, Ropewalk; B is Mill Lane, Saltmarsh, Lantern
/// Hill... by the snake: 1 4 5 and 2 3 6.
std::string played_pools() {
    std::string text = small_cup();
    for (const char* pool : {"A", "B"})
        for (int m = 1; m <= 3; ++m)
            text += std::string{"result "} + pool + std::to_string(m) + " paper 25-20 25-20\n";
    return text;
}

TEST(Effects, OfAFactThatNothingHangsOn) {
    const TournamentState state = state_of(small_cup() + "note words \"wet floor\"\n");
    EXPECT_TRUE(effects_of_taking_back(state, state.last()).none());
    EXPECT_TRUE(effects_of_taking_back(state, 0).none());
    EXPECT_TRUE(effects_of_taking_back(state, state.last() + 1).none());
}

TEST(Effects, OfTheDrawAreItsMatchesAndTheFactsAboutThem) {
    const TournamentState state = state_of(small_cup() + "result A1 paper 25-20 25-20\n");
    const Effects effects = effects_of_taking_back(state, 9);
    EXPECT_EQ(effects.facts, (std::vector<FactNumber>{10, 11}));
    EXPECT_EQ(effects.matches.size(), state.match_names.size());
}

TEST(Effects, OfAResultReachTheBracketOnceThePoolIsDecided) {
    const TournamentState open = state_of(small_cup() + "result A1 paper 25-20 25-20\n");
    EXPECT_EQ(effects_of_taking_back(open, open.last()).matches, (std::vector<std::string>{"A1"}));
    const TournamentState played = state_of(played_pools());
    const Effects effects = effects_of_reopening(played, *played.find_match("A1"));
    EXPECT_EQ(effects.matches.front(), "A1");
    EXPECT_GE(effects.matches.size(), 3u) << "both semifinals have a side from pool A";
    EXPECT_EQ(effects.places.size(), 3u) << "the places of pool A";
    EXPECT_TRUE(effects.facts.empty());
}

TEST(Effects, OfATeamThatMovesReachTheMatchItWorksByTheOrderOfPlay) {
    const TournamentState before = state_of(small_cup());
    TournamentState after = before;
    fold_in(after, TeamMoved{"Quayside", "B", "Mill Lane"});
    const auto matches = difference(before, after).matches;
    EXPECT_EQ(std::count(matches.begin(), matches.end(), "A1"), 1)
        << "its sides are as before, and another team works it";
}

TEST(Effects, AResultReopenedAndConfirmedAsItWasBringsTheLaterOnesBack) {
    const std::string text = played_pools() + "result M1 paper 25-20 25-20\n";
    const TournamentState before = state_of(text);
    const MatchRef semifinal = *before.find_match("M1");
    ASSERT_TRUE(before.match(semifinal).result_counts);
    TournamentState state = before;
    fold_in(state, ResultReopened{"A1"});
    EXPECT_TRUE(state.match(semifinal).result.has_value());
    EXPECT_FALSE(state.match(semifinal).result_counts);
    fold_in(state, ResultConfirmed{"A1", ResultFrom::paper, {{25, 20}, {25, 20}}, {}, {}});
    EXPECT_TRUE(state.match(semifinal).result_counts);
}

TEST(Effects, TakingBackATakingBackRestores) {
    const TournamentState before = state_of(played_pools());
    TournamentState state = before;
    fold_in(state, TakenBack{11});
    EXPECT_FALSE(state.counts[10]);
    EXPECT_FALSE(difference(before, state).none());
    fold_in(state, TakenBack{state.last()});
    EXPECT_TRUE(state.counts[10]);
    EXPECT_TRUE(difference(before, state).none());
}

TEST(Effects, TakingBackTwiceIsAFinding) {
    TournamentState state = state_of(played_pools());
    fold_in(state, TakenBack{11});
    const std::size_t findings = state.findings.size();
    fold_in(state, TakenBack{11});
    ASSERT_EQ(state.findings.size(), findings + 1);
    EXPECT_EQ(state.findings.back().problem, Problem::unknown_fact);
    EXPECT_EQ(state.findings.back().fact, state.last());
}

}  // namespace
}  // namespace courthand::event
