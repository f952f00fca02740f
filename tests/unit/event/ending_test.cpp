// How far an event is from its end: places, who holds them and why, and when all is over.
#include "courthand/event/ending.h"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

#include "courthand/event/advance.h"
#include "event_of.h"
#include "played_event.h"

namespace courthand::event {
namespace {

using testing::facts_of;
using testing::small_cup;
using testing::state_of;
using State = PlaceHeld::State;

std::string result(const std::string& match) {
    return "result " + match + " paper 25-20 25-22\n";
}

std::string pools_played() {
    std::string script = small_cup();
    for (const char* match : {"A1", "A2", "A3", "B1", "B2", "B3"}) script += result(match);
    return script;
}

std::string all_played() {
    std::string script = pools_played();
    for (const char* match : {"M1", "M2", "M3", "M4"}) script += result(match);
    return script;
}

std::string name_of(const TournamentState& state, const PlaceHeld& place) {
    return place.team == no_team ? "" : state.teams[place.team].name;
}

bool any_has(const std::vector<std::string>& lines, const std::string& part) {
    return std::any_of(lines.begin(), lines.end(), [&](const std::string& line) {
        return line.find(part) != std::string::npos;
    });
}

TEST(Ending, APlaceIsOpenUntilItsMatchIsConfirmedAndSaysWhatItWaitsFor) {
    const TournamentState state = state_of(pools_played() + result("M1") + result("M2"));
    const DivisionEnd end = division_end(state, 0);
    EXPECT_EQ(end.matches, 10U);
    EXPECT_EQ(end.open.size(), 2U);
    EXPECT_FALSE(end.over());
    EXPECT_FALSE(event_over(state));
    ASSERT_EQ(end.places.size(), 6U);
    EXPECT_EQ(end.places[0].first, 1);
    EXPECT_EQ(end.places[0].state, State::open);
    const auto why = why_held(state, 0, end.places[0]);
    ASSERT_EQ(why.size(), 2U);
    EXPECT_EQ(why[0].rfind("it goes to the winner of M", 0), 0U) << why[0];
    EXPECT_NE(why[1].find("has no confirmed result"), std::string::npos) << why[1];
}

TEST(Ending, AllConfirmedThePlacesStandAndTheWayToThemIsTold) {
    const TournamentState state = state_of(all_played());
    const DivisionEnd end = division_end(state, 0);
    EXPECT_TRUE(end.over());
    EXPECT_TRUE(event_over(state));
    ASSERT_EQ(end.places.size(), 6U);
    for (std::size_t i = 0; i < 4; ++i) {
        EXPECT_EQ(end.places[i].first, i + 1);
        EXPECT_EQ(end.places[i].state, State::held);
        EXPECT_FALSE(end.places[i].pool);
    }
    EXPECT_EQ(name_of(state, end.places[0]), "Harbour Lights");
    const auto why = why_held(state, 0, end.places[0]);
    // Final, semifinal, the pool with the reasons of its chain.
    ASSERT_GE(why.size(), 4U);
    EXPECT_NE(why[0].find("Harbour Lights won against"), std::string::npos) << why[0];
    EXPECT_NE(why[0].find("25-20 25-22"), std::string::npos) << why[0];
    EXPECT_NE(why[1].find("Harbour Lights won against"), std::string::npos) << why[1];
    EXPECT_EQ(why[2], "place 1 of pool A");
    EXPECT_TRUE(any_has(why, "matches won"));
    // Who came second won the semifinal and lost the final.
    const std::string second = name_of(state, end.places[1]);
    const auto silver = why_held(state, 0, end.places[1]);
    EXPECT_NE(silver[0].find("won against " + second), std::string::npos) << silver[0];
    EXPECT_NE(silver[1].find(second + " won against"), std::string::npos) << silver[1];
    // Nobody goes on from the third places of the pools.
    for (std::size_t i = 4; i < 6; ++i) {
        ASSERT_TRUE(end.places[i].pool);
        EXPECT_EQ(end.places[i].first, 3);
        EXPECT_EQ(end.places[i].state, State::held);
    }
}

TEST(Ending, AReopenedResultOpensItAgain) {
    const TournamentState state = state_of(all_played() + "reopen A1\n");
    EXPECT_FALSE(division_end(state, 0).over());
    EXPECT_FALSE(event_over(state));
    EXPECT_TRUE(event_over(state_of(all_played() + "reopen A1\n" + result("A1"))));
}

TEST(Ending, OnePoolAloneGivesThePlacesOfTheDivision) {
    const std::string cup =
        "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
        "division U16 profile international-2021 chain international-2017 format best-of 3\n"
        "team \"Harbour Lights\" in U16\nteam \"Mill Lane\" in U16\nteam \"Saltmarsh\" in U16\n"
        "draw U16 serpentine pools 1\n";
    const TournamentState begun = state_of(cup + result("A1"));
    ASSERT_EQ(places_held(begun, 0).size(), 3U);
    EXPECT_EQ(why_held(begun, 0, places_held(begun, 0)[0]),
              std::vector<std::string>{"pool A: 2 matches are without a confirmed result"});
    const TournamentState played = state_of(cup + result("A1") + result("A2") + result("A3"));
    const auto places = places_held(played, 0);
    ASSERT_EQ(places.size(), 3U);
    EXPECT_EQ(places[0].state, State::held);
    EXPECT_FALSE(places[0].pool);
    EXPECT_TRUE(event_over(played));
    // A team that has left holds no place, and its matches are not waited for.
    const TournamentState left =
        state_of(cup + "withdrawn \"Saltmarsh\"\n" + result("A1") + result("A2") + result("A3"));
    const DivisionEnd end = division_end(left, 0);
    EXPECT_EQ(end.places.size(), 2U);
    ASSERT_EQ(end.left.size(), 1U);
    EXPECT_EQ(left.teams[end.left[0]].name, "Saltmarsh");
    EXPECT_TRUE(end.over());
}

TEST(Ending, APoolThatNeedsADecisionIsNotOver) {
    // Three matches, each won by the same scores: of the eight ways two are a circle.
    std::size_t circles = 0;
    for (unsigned way = 0; way < 8; ++way) {
        std::string script = small_cup();
        for (unsigned match = 0; match < 3; ++match)
            script += fmt::format("result A{} paper {}\n", match + 1,
                                  (way >> match & 1U) != 0 ? "25-20 25-20" : "20-25 20-25");
        const TournamentState state = state_of(script);
        const DivisionEnd end = division_end(state, 0);
        if (end.undecided.empty()) continue;
        ++circles;
        EXPECT_FALSE(end.over());
        const auto third = std::find_if(end.places.begin(), end.places.end(),
                                        [](const PlaceHeld& p) { return p.pool.has_value(); });
        ASSERT_NE(third, end.places.end());
        EXPECT_EQ(why_held(state, 0, *third), std::vector<std::string>{"pool A needs a decision"});
    }
    EXPECT_EQ(circles, 2U);
}

/// Of a final that both teams lost, the places are nobody's, and no person has to act.
TEST(Ending, AFinalLostByBothLeavesItsPlacesToNobody) {
    std::string cup = pools_played() + result("M1") + result("M2");
    for (const char* match : {"M3", "M4"}) {
        const TournamentState before = state_of(cup);
        const auto ref = before.find_match(match);
        ASSERT_TRUE(ref);
        const bool final = before.node(*ref).stage == tournament::Stage::main ||
                           before.node(*ref).stage == tournament::Stage::final;
        cup += final ? fmt::format("award {} double-default\n", match) : result(match);
    }
    const TournamentState state = state_of(cup);
    EXPECT_TRUE(state.findings.empty());
    const auto places = places_held(state, 0);
    EXPECT_EQ(places[0].state, State::nobody);
    EXPECT_EQ(places[1].state, State::nobody);
    EXPECT_EQ(places[2].state, State::held);
    EXPECT_TRUE(any_has(why_held(state, 0, places[0]), "was lost by both teams"));
    EXPECT_TRUE(waiting(state).empty());
    EXPECT_TRUE(event_over(state));
}

TEST(Ending, AnEventIsOverWhenEveryDivisionWithTeamsIs) {
    const std::string other =
        "division U18 profile international-2021 chain international-2017 format best-of 3\n";
    EXPECT_FALSE(event_over(TournamentState{}));
    EXPECT_TRUE(event_over(state_of(all_played() + other)));
    EXPECT_FALSE(event_over(state_of(all_played() + other + "team \"Quay Hands\" in U18\n")));
}

/// Only a double default needs nobody: a level score has to be put right.
TEST(Ending, AFinalThatEndsLevelWaitsForAPerson) {
    const std::string cup =
        "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
        "division U16 profile international-2021 chain international-2017 format sets 2\n"
        "team \"Harbour Lights\" in U16\nteam \"Mill Lane\" in U16\n";
    const std::string level = " paper 25-20 20-25\n";
    const std::string final = cup + "bracket U16 single prefix M\nresult M1" + level;
    const TournamentState state = state_of(final);
    ASSERT_TRUE(state.findings.empty());
    const auto waits = waiting(state);
    ASSERT_EQ(waits.size(), 1U);
    EXPECT_EQ(waits[0].place, "M1");
    EXPECT_EQ(waits[0].message, "it ended level, and a final place hangs on it");
    EXPECT_FALSE(event_over(state));
    const auto places = places_held(state, 0);
    ASSERT_EQ(places.size(), 2U);
    EXPECT_EQ(places[0].state, State::open);
    const auto why = why_held(state, 0, places[0]);
    EXPECT_TRUE(any_has(why, "M1 ended level"));
    EXPECT_FALSE(any_has(why, "lost by both"));
    // As the sentence says: reopened and awarded.
    EXPECT_TRUE(
        event_over(state_of(final + "reopen M1\naward M1 forfeit against \"Mill Lane\"\n")));
}

/// In a pool a level score is a result like another: the chain puts the teams in order, or says
/// that a person has to.
TEST(Ending, APoolMatchThatEndsLevelWaitsForNobodyOnceTheOrderStands) {
    const std::string cup =
        "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
        "division U16 profile international-2021 chain us-event-sheet format sets 2\n"
        "team \"Harbour Lights\" in U16\nteam \"Mill Lane\" in U16\n"
        "team \"Saltmarsh\" in U16\ndraw U16 serpentine pools 1\n";
    struct Case {
        const char* about;
        const char* results;  ///< of A1, A2 and A3
        const char* more;
        std::size_t waits;
        bool over;
    };
    const Case cases[] = {
        {"one level, the others won", "25-20 20-25|25-20 25-20|25-15 25-15", "", 0, true},
        {"one level by other points", "25-10 20-25|25-20 25-20|25-15 25-15", "", 0, true},
        {"all level by other points", "25-10 20-25|25-12 20-25|25-15 22-25", "", 0, true},
        {"nothing separates them", "25-20 20-25|25-20 20-25|25-20 20-25", "", 1, false},
        {"a person has decided", "25-20 20-25|25-20 20-25|25-20 20-25",
         "decision U16 pool A by lot teams \"Mill Lane\" \"Saltmarsh\" \"Harbour Lights\"\n", 0,
         true},
        {"a bracket goes on from it", "25-20 20-25|25-20 25-20|25-15 25-15",
         "bracket U16 single prefix M size 2 to-place 2\nresult M1 paper 25-20 25-20\n", 0, true},
    };
    for (const Case& one : cases) {
        SCOPED_TRACE(one.about);
        std::string script = cup;
        std::istringstream results{one.results};
        int number = 0;
        for (std::string sets; std::getline(results, sets, '|');)
            script += fmt::format("result A{} paper {}\n", ++number, sets);
        const TournamentState state = state_of(script + one.more);
        ASSERT_TRUE(state.findings.empty()) << state.findings.front().fault.message;
        const auto waits = waiting(state);
        EXPECT_EQ(waits.size(), one.waits)
            << (waits.empty() ? "" : waits[0].place + ": " + waits[0].message);
        EXPECT_EQ(event_over(state), one.over);
    }
}

std::string to_the_first_final() {
    std::string cup =
        "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
        "division U16 profile international-2021 chain international-2017 format best-of 3\n"
        "team \"Harbour Lights\" in U16\nteam \"Mill Lane\" in U16\n"
        "team \"Saltmarsh\" in U16\nteam \"Quayside\" in U16\n"
        "bracket U16 double prefix D second-final\n";
    for (const char* match : {"D1", "D2", "D3", "D4", "D5"}) cup += result(match);
    return cup;
}

TEST(Ending, AfterAFirstFinalLostByBothTheDirectorSaysWhoPlaysTheSecond) {
    const std::string lost = to_the_first_final() + "award D6 double-default\n";
    const TournamentState state = state_of(lost);
    ASSERT_EQ(waiting(state).size(), 1U);
    EXPECT_EQ(waiting(state)[0].place, "D6");
    EXPECT_FALSE(event_over(state));
    const auto places = places_held(state, 0);
    EXPECT_EQ(places[0].state, State::open);
    EXPECT_TRUE(any_has(why_held(state, 0, places[0]), "D6 was lost by both teams"));
    const TournamentState played =
        state_of(lost + "sides D7 first \"Mill Lane\" second \"Harbour Lights\"\n" + result("D7"));
    EXPECT_TRUE(played.findings.empty());
    EXPECT_EQ(name_of(played, places_held(played, 0)[0]), "Mill Lane");
    EXPECT_TRUE(event_over(played));
    // Or one of them is the first without a match, or both stay away again.
    const TournamentState alone = state_of(lost + "sides D7 first \"Harbour Lights\" second bye\n");
    EXPECT_EQ(name_of(alone, places_held(alone, 0)[0]), "Harbour Lights");
    EXPECT_EQ(places_held(alone, 0)[1].state, State::nobody);
    EXPECT_TRUE(event_over(alone));
    const TournamentState nobody =
        state_of(lost + "sides D7 first \"Mill Lane\" second \"Harbour Lights\"\n" +
                 "award D7 double-default\n");
    EXPECT_EQ(places_held(nobody, 0)[0].state, State::nobody);
    EXPECT_TRUE(event_over(nobody));
}

/// A chain of second matches has twice as many ways back with each of them.
TEST(Ending, WhyAPlaceIsOpenIsToldAfterALongChainOfMatches) {
    std::string cup = to_the_first_final() + "match F1 in U16 first winner D6 second loser D6\n";
    for (int n = 2; n <= 100; ++n)
        cup += fmt::format("match F{0} in U16 first winner F{1} second loser F{1}\n", n, n - 1);
    const auto why = [](const TournamentState& state) {
        return why_open(state, 0, state.node(*state.find_match("F100")).sides[1]);
    };
    const std::string open = why(state_of(cup));
    EXPECT_NE(open.find("F1 waits: D6 has no confirmed result"), std::string::npos) << open;
    const std::string lost = why(state_of(cup + "award D6 double-default\n"));
    EXPECT_NE(lost.find("F1 waits: D6 was lost by both teams"), std::string::npos) << lost;
}

TEST(Ending, ASecondFinalHangsOnTheFirstAsLongAsASideComesFromThere) {
    const std::string given = "sides D7 first \"Mill Lane\" second \"Harbour Lights\"\n";
    const std::string back = "sides D7 first winner D6 second loser D6\n";
    const std::string cup = to_the_first_final();
    const TournamentState own = state_of(cup + given + result("D6"));
    EXPECT_TRUE(waits_for_result(own, *own.find_match("D7")));
    for (const std::string& text : {cup + given + back + result("D6"),
                                    cup + given + result("D6") + back, cup + result("D6")}) {
        const TournamentState state = state_of(text);
        EXPECT_TRUE(state.findings.empty());
        EXPECT_FALSE(waits_for_result(state, *state.find_match("D7")));
        EXPECT_EQ(name_of(state, places_held(state, 0)[0]), "Harbour Lights");
        EXPECT_TRUE(event_over(state));
    }
}

TEST(Ending, OfADivisionThatAllTeamsHaveLeftNothingIsWaitedFor) {
    const std::string other =
        all_played() +
        "division U18 profile international-2021 chain international-2017 format best-of 3\n"
        "team \"Quay Hands\" in U18\nteam \"Tide Mill\" in U18\nteam \"Long Pier\" in U18\n";
    const std::string one = "withdrawn \"Quay Hands\"\nwithdrawn \"Long Pier\"\n";
    const std::string left = one + "withdrawn \"Tide Mill\"\n";
    const std::string draw = "draw U18 serpentine pools 1 prefix U\n";
    const std::string bracket =
        "bracket U18 single prefix V entrants \"Quay Hands\" \"Tide Mill\"\n";
    for (const std::string& made :
         {std::string{}, draw, draw + "bracket U18 single prefix V entrants 1 of A 2 of A\n",
          bracket}) {
        const TournamentState state = state_of(other + made + left);
        EXPECT_TRUE(state.findings.empty()) << made;
        EXPECT_EQ(division_end(state, 1).left.size(), 3U) << made;
        EXPECT_TRUE(waiting(state).empty()) << made;
        EXPECT_TRUE(event_over(state)) << made;
    }
    // One that stays alone has won its pool without a match; in a bracket it needs a default.
    EXPECT_FALSE(event_over(state_of(other + one)));
    EXPECT_TRUE(event_over(state_of(other + draw + one)));
    EXPECT_FALSE(event_over(state_of(other + bracket + one)));
    EXPECT_TRUE(
        event_over(state_of(other + bracket + one + "award V1 default against \"Quay Hands\"\n")));
}

TEST(Ending, PoolsThatAreBeingFilledByHandAreNotOver) {
    const std::string cup =
        "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
        "division U16 profile international-2021 chain international-2017 format best-of 3\n"
        "team \"Harbour Lights\" in U16\nteam \"Mill Lane\" in U16\n"
        "draw U16 by-hand pools 1\n";
    EXPECT_FALSE(event_over(state_of(cup)));
    EXPECT_FALSE(event_over(state_of(cup + "move-team \"Mill Lane\" to A\n")));
}

/// Whatever is said: the places that are held are those of `final_places` and of the pools, no team
/// holds two, and what is over waits for nothing.
TEST(Ending, AgreesWithTheStateOfAnyEvent) {
    std::size_t held = 0;
    for (unsigned seed = 161; seed <= 220; ++seed) {
        const TournamentState state = fold(testing::PlayedEvent{seed}.facts(150));
        for (DivisionIndex d = 0; d < state.division_count(); ++d) {
            const DivisionEnd end = division_end(state, d);
            std::size_t of_brackets = 0;
            for (const PlaceHeld& place : end.places) {
                ASSERT_EQ(place.state == State::held, place.team != no_team) << seed;
                if (place.source && place.team != no_team) ++of_brackets;
                EXPECT_FALSE(why_held(state, d, place).empty()) << seed;
                held += place.team != no_team ? 1U : 0U;
            }
            EXPECT_EQ(of_brackets, final_places(state, d).size()) << seed;
            if (!end.over()) continue;
            EXPECT_TRUE(waiting(state, d).empty());
            for (std::size_t m = 0; m < state.divisions[d].matches.size(); ++m)
                EXPECT_FALSE(waits_for_result(state, {d, static_cast<MatchIndex>(m)}));
        }
    }
    EXPECT_GT(held, 50U);
}

}  // namespace
}  // namespace courthand::event
