// Who works a match, and what speaks against it; conflicts of interest, declared and taken back.
#include "courthand/event/duty.h"

#include <algorithm>

#include "event_of.h"

namespace courthand::event {
namespace {

using testing::state_of;
using Lines = std::vector<std::string>;

/// Six teams in three matches, three courts, an official of no team, one of Mill Lane, a coach.
std::string cup() {
    return "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
           "division U16 profile international-2021 chain international-2017 format best-of 3\n"
           "team \"Harbour Lights\" in U16 club \"Harbour\"\n"
           "team \"Mill Lane\" in U16 club \"Mill\"\n"
           "team \"Saltmarsh\" in U16\n"
           "team \"Quayside\" in U16\n"
           "team \"Ropewalk\" in U16\n"
           "team \"Lantern Hill\" in U16 club \"Mill\"\n"
           "match X1 in U16 first \"Harbour Lights\" second \"Quayside\"\n"
           "match X2 in U16 first \"Mill Lane\" second \"Saltmarsh\"\n"
           "match X3 in U16 first \"Ropewalk\" second \"Lantern Hill\"\n"
           "court 1\ncourt 2\ncourt 3\n"
           "person 1 official\n"
           "person 2 official team \"Mill Lane\"\n"
           "person 3 coach team \"Ropewalk\"\n"
           "conflict 1 with \"Quayside\"\n"
           "crew \"Blue\" persons 1 3\n";
}
std::string at_nine() {
    return "place X1 court 1 at 2026-11-28T09:00\nplace X2 court 2 at 2026-11-28T09:00\n"
           "place X3 court 3 at 2026-11-28T09:00\n";
}

Lines clashes_of(const std::string& script, const std::string& match) {
    const TournamentState state = state_of(script);
    EXPECT_TRUE(state.findings.empty()) << state.findings.front().fault.message;
    Lines lines;
    const auto ref = state.find_match(match);
    EXPECT_TRUE(ref);
    if (ref)
        for (const Clash& clash : clashes(state, *ref)) lines.push_back(in_words(state, clash));
    return lines;
}

struct Case {
    const char* about;
    std::string facts;
    Lines clashes;
};

TEST(Duty, WhatSpeaksAgainstItIsTold) {
    const Case cases[] = {
        {"nobody is named", "", {}},
        {"a team that is free", "duty X1 workers \"Mill Lane\"\n", {}},
        {"a team in its own match",
         "duty X1 workers \"Quayside\"\n",
         {"Quayside plays this match"}},
        {"a team that plays then",
         at_nine() + "duty X1 workers \"Mill Lane\"\n",
         {"Mill Lane plays X2 at this time"}},
        {"that match is over",
         at_nine() + "duty X1 workers \"Mill Lane\"\nresult X2 paper 25-20 25-20\n",
         {}},
        {"a team that works then",
         "place X1 court 1 at 2026-11-28T09:00\nplace X2 court 2 at 2026-11-28T09:00\n"
         "duty X1 workers \"Ropewalk\"\nduty X2 workers \"Ropewalk\"\n",
         {"Ropewalk works X2 at this time"}},
        {"a team that has left",
         "withdrawn \"Ropewalk\"\nduty X1 workers \"Ropewalk\"\n",
         {"Ropewalk has left"}},
        {"a conflict that was declared",
         "duty X1 first-referee 1\n",
         {"person 1 has a conflict of interest with Quayside"}},
        {"one that was taken back", "take-back 18\nduty X1 first-referee 1\n", {}},
        {"team and club of the referee",
         "duty X2 second-referee 2\n",
         {"person 2 belongs to Mill Lane"}},
        {"club of the referee",
         "duty X3 second-referee 2\n",
         {"person 2 belongs to the club of Lantern Hill"}},
        {"a coach whose team plays then",
         at_nine() + "duty X2 first-referee 3\n",
         {"person 3 is of Ropewalk, which plays X3 at this time"}},
        {"a crew is its persons",
         "duty X1 crew \"Blue\"\n",
         {"person 1 has a conflict of interest with Quayside"}},
        {"named twice", "duty X2 crew \"Blue\" first-referee 1\n", {"person 1 is named twice"}},
        {"a person who works then",
         "place X1 court 1 at 2026-11-28T09:00\nplace X2 court 2 at 2026-11-28T09:00\n"
         "duty X1 first-referee 3\nduty X2 crew \"Blue\"\n",
         {"person 3 works X2 at this time"}},
    };
    for (const Case& one : cases) {
        SCOPED_TRACE(one.about);
        const char* match = one.facts.find("duty X1") != std::string::npos   ? "X1"
                            : one.facts.find("duty X2") != std::string::npos ? "X2"
                                                                             : "X3";
        EXPECT_EQ(clashes_of(cup() + one.facts, match), one.clashes);
    }
}

/// Without a planned length a match lasts until the next one of its court begins.
TEST(Duty, MatchesMeetWhenOneBeginsBeforeTheOtherCanBeOver) {
    const std::string duty = "duty X1 workers \"Mill Lane\"\n";
    const auto times = [&](const std::string& x1, const std::string& x2, const std::string& x3) {
        return cup() + "place X1 court 1 at 2026-11-28T" + x1 +
               "\nplace X2 court 2 at 2026-11-28T" + x2 + "\nplace X3 court 1 at 2026-11-28T" + x3 +
               "\n" + duty;
    };
    EXPECT_EQ(clashes_of(times("09:00", "09:40", "10:00"), "X1").size(), 1U);
    EXPECT_EQ(clashes_of(times("09:00", "10:00", "10:00"), "X1").size(), 0U);
    EXPECT_EQ(clashes_of(times("09:00", "08:40", "10:00"), "X1").size(), 1U)
        << "X2 is the last of its court: two sets to 25 are not over in 20 minutes";
    EXPECT_EQ(clashes_of(times("09:00", "08:10", "10:00"), "X1").size(), 0U);
    EXPECT_EQ(clashes_of(cup() + duty, "X1").size(), 0U) << "without a time";
}

/// As the division plans it, a match lasts no longer and no shorter for what comes next.
TEST(Duty, APlannedLengthTellsHowLongAMatchLasts) {
    std::string planned = cup();
    planned.insert(planned.find(" format"), " lasts 45");
    const auto clash = [&](const std::string& x2, const std::string& x3) {
        return clashes_of(planned + "place X1 court 1 at 2026-11-28T09:00\nplace X2 court 2 at " +
                              "2026-11-28T" + x2 + "\nplace X3 court 1 at 2026-11-28T" + x3 +
                              "\nduty X1 workers \"Mill Lane\"\n",
                          "X1");
    };
    const Lines plays{"Mill Lane plays X2 at this time"};
    EXPECT_EQ(clash("09:44", "11:00"), plays);
    EXPECT_EQ(clash("09:45", "11:00"), Lines{}) << "the court is free, though nobody follows yet";
    EXPECT_EQ(clash("08:16", "11:00"), plays) << "the last match of its court has an end too";
    EXPECT_EQ(clash("08:15", "11:00"), Lines{});
}

/// What is said of somebody stands apart from who it is: a seat knows him by name.
TEST(Duty, WhatSpeaksAgainstItIsSaidWithoutTheName) {
    const TournamentState state = state_of(cup() + "duty X1 first-referee 1\n");
    const auto found = clashes(state, *state.find_match("X1"));
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(objection_words(state, found[0]), "has a conflict of interest with Quayside");
}

TEST(Duty, OfTheWholeEventOnlyMatchesWithoutAResultAreLookedAt) {
    const std::string duties = "duty X1 workers \"Quayside\"\nduty X2 first-referee 2\n";
    EXPECT_EQ(clashes(state_of(cup() + duties)).size(), 2U);
    const auto left = clashes(state_of(cup() + duties + "result X1 paper 25-20 25-20\n"));
    ASSERT_EQ(left.size(), 1U);
    EXPECT_EQ(left[0].clash.person, 2);
}

TEST(Interests, DeclaredGoesBeforeTeamAndClub) {
    const TournamentState state =
        state_of(cup() + "conflict 2 with \"Mill Lane\"\nconflict 2 with \"Mill Lane\"\n");
    const auto found = interests(state, state.persons.at(2));
    ASSERT_EQ(found.size(), 2U);
    EXPECT_EQ(state.teams[found[0].team].name, "Mill Lane");
    EXPECT_EQ(found[0].kind, Interest::Kind::declared);
    EXPECT_EQ(state.teams[found[1].team].name, "Lantern Hill");
    EXPECT_EQ(found[1].kind, Interest::Kind::own_club);
    const auto said = declarations(state, 2, found[0].team);
    EXPECT_EQ(said, (std::vector<FactNumber>{state.last() - 1, state.last()}));
    TournamentState after = state;
    for (const FactNumber fact : said) fold_in(after, TakenBack{fact});
    EXPECT_EQ(interests(after, after.persons.at(2))[0].kind, Interest::Kind::own_team);
    EXPECT_TRUE(declarations(after, 2, found[0].team).empty());
}

}  // namespace
}  // namespace courthand::event
