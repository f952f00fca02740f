// Pools and brackets as facts make them.
#include <algorithm>

#include "courthand/event/advance.h"
#include "courthand/event/pool_table.h"
#include "event_of.h"

namespace courthand::event {
namespace {

using testing::small_cup;
using testing::state_of;

std::string teams(int count) {
    std::string text =
        "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
        "division U16 profile international-2021 chain international-2017 format best-of 3\n";
    for (int t = 1; t <= count; ++t) text += "team \"Team " + std::to_string(t) + "\" in U16\n";
    return text;
}

std::vector<std::string> pool_of(const TournamentState& state, std::size_t pool) {
    std::vector<std::string> names;
    for (const TeamIndex team : state.divisions[0].pools[pool].teams)
        names.push_back(state.teams[team].name);
    return names;
}

TEST(Structure, SeedsDecideWhoComesWhere) {
    const TournamentState state =
        state_of(teams(6) + "seeds U16 teams \"Team 6\" \"Team 5\"\ndraw U16 serpentine pools 2\n");
    EXPECT_EQ(pool_of(state, 0), (std::vector<std::string>{"Team 6", "Team 2", "Team 3"}));
    EXPECT_EQ(pool_of(state, 1), (std::vector<std::string>{"Team 5", "Team 1", "Team 4"}));
}

TEST(Structure, ASeedListGoesOnInAnotherFact) {
    const TournamentState state = state_of(
        teams(4) +
        "seeds U16 teams \"Team 3\" \"Team 4\" from 3\nseeds U16 teams \"Team 2\" \"Team 1\"\n");
    const auto& seeds = state.divisions[0].seeds;
    ASSERT_EQ(seeds.size(), 4u);
    EXPECT_EQ(state.teams[seeds[0]].name, "Team 2");
    EXPECT_EQ(state.teams[seeds[3]].name, "Team 4");
}

TEST(Structure, TheSameSeedNumberDrawsTheSame) {
    const auto draw = [](const char* number) {
        return state_of(teams(12) + "draw U16 rows pools 3 seed " + number + "\n");
    };
    EXPECT_EQ(pool_of(draw("7"), 1), pool_of(draw("7"), 1));
    bool differs = false;
    for (std::size_t p = 0; p < 3; ++p)
        differs = differs || pool_of(draw("7"), p) != pool_of(draw("8"), p);
    EXPECT_TRUE(differs);
}

TEST(Structure, AWithdrawnTeamIsNotDrawn) {
    const TournamentState state =
        state_of(teams(7) + "withdrawn \"Team 2\"\ndraw U16 serpentine pools 2\n");
    EXPECT_EQ(pool_of(state, 0).size(), 3u);
    EXPECT_EQ(pool_of(state, 1).size(), 3u);
}

TEST(Structure, PoolsAreFilledByHand) {
    std::string text = teams(6) + "draw U16 by-hand pools 2\n";
    for (int t = 1; t <= 6; ++t)
        text += "move-team \"Team " + std::to_string(t) + "\" to " + (t <= 3 ? "A" : "B") + "\n";
    const TournamentState state = state_of(text);
    EXPECT_TRUE(state.findings.empty());
    EXPECT_EQ(pool_of(state, 1), (std::vector<std::string>{"Team 4", "Team 5", "Team 6"}));
    EXPECT_EQ(state.match_names.size(), 6u);
}

TEST(Structure, ATeamChangesPoolsAndTheBracketFollows) {
    TournamentState state = state_of(small_cup());
    const auto matches = state.match_names.size();
    fold_in(state, TeamMoved{"Quayside", "B", "Mill Lane"});
    EXPECT_TRUE(state.findings.empty());
    EXPECT_EQ(state.match_names.size(), matches);
    EXPECT_EQ(pool_of(state, 0)[1], "Mill Lane");
    EXPECT_EQ(state.teams[*state.find_team("Quayside")].pool, PoolIndex{1});
    fold_in(state, TeamMoved{"Quayside", "A", ""});
    ASSERT_TRUE(state.findings.empty());
    EXPECT_EQ(pool_of(state, 0).size(), 4u);
    EXPECT_EQ(state.match_names.size(), matches + 1) << "six and one instead of three and three";
    EXPECT_EQ(source_words(state, 0, state.node(*state.find_match("M1")).sides[0]),
              "1st of pool A");
}

TEST(Structure, ATeamDoesNotChangePlacesWithOneOfAnotherDivision) {
    TournamentState state = state_of(
        small_cup() +
        "division U18 profile international-2021 chain international-2017 format best-of 3\n"
        "team \"Quay Hands\" in U18\nteam \"Tide Mill\" in U18\nteam \"Long Pier\" in U18\n"
        "draw U18 serpentine pools 1 prefix U\n");
    ASSERT_TRUE(state.findings.empty());
    const auto pool = pool_of(state, 0);
    fold_in(state, TeamMoved{"Mill Lane", "A", "Quay Hands"});
    ASSERT_EQ(state.findings.size(), 1u);
    EXPECT_EQ(state.findings[0].problem, Problem::other_division);
    EXPECT_EQ(pool_of(state, 0), pool);
    EXPECT_EQ(state.teams[*state.find_team("Mill Lane")].pool, PoolIndex{1});
}

TEST(Structure, WhatWasKnownOfAMatchStaysWhenAnotherPoolChanges) {
    TournamentState state =
        state_of(teams(9) +
                 "draw U16 serpentine pools 3\ncourt 1\nplace A1 court 1 at 2026-11-28T09:00\n"
                 "result A1 paper 25-20 25-20\nduty A2 workers loser A1\n");
    fold_in(state, TeamMoved{"Team 2", "C", "Team 3"});
    ASSERT_TRUE(state.findings.empty()) << state.findings.front().fault.message;
    const MatchState& first = state.match(*state.find_match("A1"));
    EXPECT_TRUE(first.result_counts);
    EXPECT_EQ(first.placement->court, 1);
    const MatchState& second = state.match(*state.find_match("A2"));
    ASSERT_TRUE(second.duty.source.has_value());
    EXPECT_TRUE(state.divisions[0].settled[*second.duty.source].is_team());
}

TEST(Structure, AFormatOfItsOwnIsThatOfTheMatches) {
    const TournamentState state =
        state_of(teams(6) +
                 "draw U16 serpentine pools 2 format sets 2 points 21\n"
                 "bracket U16 single prefix M to-place 1 format best-of 5\n");
    EXPECT_EQ(state.match(*state.find_match("A1")).format.sets, 2);
    EXPECT_EQ(state.match(*state.find_match("A1")).format.points, 21);
    EXPECT_EQ(state.match(*state.find_match("M1")).format.sets, 5);
    EXPECT_EQ(state.divisions[0].format.sets, 3);
}

TEST(Structure, ALaterSeedListDoesNotChangeABracketThatIsMade) {
    TournamentState state =
        state_of(teams(6) + "draw U16 by-hand pools 2\nbracket U16 single prefix M size 4\n");
    const auto side = [&] { return state.side(*state.find_match("M1"), 0).team; };
    const TeamIndex before = side();
    fold_in(state, SeedsGiven{"U16", 1, {"Team 6", "Team 5"}});
    fold_in(state, TeamMoved{"Team 1", "A", ""});
    EXPECT_TRUE(state.findings.empty());
    EXPECT_EQ(side(), before);
}

TEST(Structure, WhyASideIsOpenIsTold) {
    const TournamentState state = state_of(small_cup());
    const SourceIndex side = state.node(*state.find_match("M1")).sides[0];
    EXPECT_EQ(why_open(state, 0, side), "place 1 of pool A is not decided");
}

}  // namespace
}  // namespace courthand::event
