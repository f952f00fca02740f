// What an act changes is told old and new; what a fact cannot be kept for is told as a sentence.
#include "courthand/event/change.h"

#include <algorithm>

#include "courthand/event/effects.h"
#include "courthand/event/unfit.h"
#include "event_of.h"

namespace courthand::event {
namespace {

using testing::small_cup;
using testing::state_of;

struct Case {
    const char* called;
    std::string before;  ///< after the small cup
    std::string said;
    Change expected;
};

std::string said(const Change& change) {
    return change.of + " | " + change.what + " | " + change.was + " | " + change.is;
}

std::string played_pools() {
    std::string text;
    for (const char* pool : {"A", "B"})
        for (int m = 1; m <= 3; ++m)
            text += std::string{"result "} + pool + std::to_string(m) + " paper 25-20 25-20\n";
    return text;
}

std::vector<Case> cases() {
    const std::string courts = "court 2\ncourt 3\n";
    const std::string placed = courts + "place A1 court 2 at 2026-11-28T09:30\n";
    const std::string rested =
        "division U16 profile international-2021 chain international-2017 rest 45 format best-of "
        "3\n";
    return {
        {"court", placed, "move A1 court 3 at 2026-11-28T09:30\n", {"A1", "court", "2", "3"}},
        {"who confirms",
         "",
         "results-by signatures\n",
         {"tournament", "results confirmed by", "desk", "signatures"}},
        {"time",
         placed,
         "move A1 court 2 at 2026-11-28T10:15\n",
         {"A1", "time", "2026-11-28 09:30", "2026-11-28 10:15"}},
        {"first court",
         courts,
         "place A1 court 2 at 2026-11-28T09:30\n",
         {"A1", "court", "none", "2"}},
        {"result", "", "result A1 paper 25-20 25-20\n", {"A1", "result", "none", "25-20 25-20"}},
        {"result reopened", played_pools(), "reopen A1\n", {"A1", "result", "25-20 25-20", "none"}},
        {"side",
         played_pools(),
         "reopen A1\n",
         {"M1", "first side", "Harbour Lights", "1st of pool A"}},
        {"place",
         played_pools(),
         "reopen A1\n",
         {"place 1 of pool A in U16", "", "Harbour Lights", "open"}},
        {"opening taken back", "", "take-back 1\n", {"tournament", "", "Harbour Cup", "not open"}},
        {"its time zone", "", "take-back 1\n", {"tournament", "time zone", "Europe/London", "UTC"}},
        {"opened anew",
         "",
         "take-back 1\ntournament \"Harbour Cup\" from 2026-11-28 to 2026-11-30 zone "
         "Europe/London\n",
         {"tournament", "last day", "2026-11-29", "2026-11-30"}},
        {"length of a match",
         "",
         "division U16 profile international-2021 chain international-2017 lasts 50 format best-of "
         "3\n",
         {"division U16", "match minutes", "0", "50"}},
        {"limit", "", rested, {"division U16", "rest minutes", "0", "45"}},
        {"withdrawn",
         "",
         "withdrawn \"Mill Lane\"\n",
         {"Mill Lane", "plays", "yes", "no, withdrawn"}},
        {"work given in place of the order of play",
         "",
         "duty A1 workers \"Saltmarsh\"\n",
         {"A1", "work", "Quayside", "Saltmarsh"}},
        {"work of the order of play dropped",
         "person 7 official\n",
         "duty A1 first-referee 7\n",
         {"A1", "work", "Quayside", "first referee 7"}},
        {"work by a place that is open again",
         played_pools() + "duty M2 workers 1 of A\n",
         "reopen A1\n",
         {"M2", "work", "Harbour Lights", "1st of pool A"}},
        {"pool of the last event",
         "",
         "describe-team \"Quayside\" last-pool C\n",
         {"Quayside", "pool of the last event", "none", "C"}},
        {"work of a team that moves",
         "",
         "move-team \"Quayside\" to B with \"Mill Lane\"\n",
         {"A1", "work", "Quayside", "Mill Lane"}},
    };
}

/// Persons by number and role: their names stand beside the record.
std::vector<Case> cases_of_people() {
    const std::string official = "person 7 official\n";
    const std::string crew = official + "person 8 worker\ncrew \"Blue\" persons 7 8\n";
    const std::string was = "official, listed by fact 11";
    return {
        {"other role",
         official,
         "person 7 player team \"Mill Lane\" jersey 5 captain\n",
         {"person 7", "", was, "player of Mill Lane, number 5, captain, listed by fact 12"}},
        {"somebody else under the number",
         official,
         official,
         {"person 7", "", was, "official, listed by fact 12"}},
        {"listing taken back", official, "take-back 11\n", {"person 7", "", was, "not listed"}},
        {"conflict",
         official,
         "conflict 7 with \"Mill Lane\"\n",
         {"person 7", "conflicts", "none", "Mill Lane"}},
        {"conflict taken back",
         official + "conflict 7 with \"Mill Lane\"\nconflict 7 with \"Quayside\"\n",
         "take-back 12\n",
         {"person 7", "conflicts", "Mill Lane, Quayside", "Quayside"}},
        {"crew", crew, "crew \"Blue\" persons 8\n", {"crew Blue", "persons", "7, 8", "8"}},
        {"crew taken back", crew, "take-back 13\n", {"crew Blue", "", "formed", "not formed"}},
    };
}

void expect_told(const std::vector<Case>& all_cases) {
    for (const Case& each : all_cases) {
        const TournamentState before = state_of(small_cup() + each.before);
        const TournamentState after = state_of(small_cup() + each.before + each.said);
        const auto found = changes(before, after);
        std::string all;
        for (const Change& change : found) all += said(change) + "\n";
        EXPECT_TRUE(std::find(found.begin(), found.end(), each.expected) != found.end())
            << each.called << ": " << said(each.expected) << " is not among\n"
            << all;
    }
}

TEST(Changes, AreToldOldAndNew) {
    expect_told(cases());
}

TEST(Changes, OfPersonsCrewsAndConflictsAreTold) {
    expect_told(cases_of_people());
}

TEST(Changes, OfEveryPartOfAFormatAreTold) {
    const auto opened = [](const std::string& format) {
        return state_of(
            "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
            "division U16 profile international-2021 chain international-2017 format " +
            format + "\n");
    };
    const TournamentState before = opened("best-of 3");
    for (const char* format :
         {"best-of 5", "sets 3", "best-of 3 points 21", "best-of 3 deciding 11", "best-of 3 lead 1",
          "best-of 3 cap 27", "best-of 3 deciding-cap 17", "best-of 3 start 4",
          "best-of 3 switch 7"}) {
        const auto found = changes(before, opened(format));
        ASSERT_EQ(found.size(), 1U) << format;
        EXPECT_EQ(found[0].of, "division U16") << format;
        EXPECT_EQ(found[0].what, "format") << format;
        EXPECT_NE(found[0].was, found[0].is) << format;
    }
}

/// Two brackets may both be played for the first place: each has its own.
TEST(Changes, OfTwoBracketsFromOnePlaceAreThoseOfTheirOwnPlaces) {
    const std::string cup = small_cup() +
                            "bracket U16 single prefix N entrants \"Ropewalk\" \"Saltmarsh\"\n"
                            "bracket U16 single prefix P entrants \"Quayside\" \"Mill Lane\"\n"
                            "result N1 paper 25-20 25-20\nresult P1 paper 25-20 25-20\n";
    const TournamentState before = state_of(cup);
    EXPECT_TRUE(changes(before, before).empty());
    const auto found = changes(before, state_of(cup + "reopen P1\n"));
    const auto told = [&](const Change& expected) {
        return std::find(found.begin(), found.end(), expected) != found.end();
    };
    EXPECT_TRUE(told({"place 1 in U16", "", "Quayside", "open"}));
    EXPECT_TRUE(told({"place 2 in U16", "", "Mill Lane", "open"}));
}

TEST(Changes, OfWhatChangesNothingAreNone) {
    const TournamentState before = state_of(small_cup());
    EXPECT_TRUE(changes(before, state_of(small_cup() + "note words \"wet floor\"\n")).empty());
}

/// Whatever the effects name as changed is there with its old and its new value.
TEST(Changes, LeaveNoChangedMatchOrPlaceOut) {
    const TournamentState before = state_of(small_cup() + played_pools());
    const TournamentState after = state_of(small_cup() + played_pools() + "reopen B2\n");
    const auto found = changes(before, after);
    const Effects effects = difference(before, after);
    ASSERT_FALSE(effects.none());
    for (const auto& names : {effects.matches, effects.places})
        for (const std::string& name : names)
            EXPECT_TRUE(std::any_of(found.begin(), found.end(), [&](const Change& change) {
                return change.of == name;
            })) << name;
    for (const Change& change : found) EXPECT_NE(change.was, change.is) << said(change);
}

TEST(Unfit, NamesPlaceAndCureOfWhateverCannotBeKept) {
    struct Unkept {
        Fact fact;
        const char* place;
        const char* message;
        const char* cure;
    };
    TournamentOpened no_zone{"Harbour Cup", *date_of("2026-11-28"), *date_of("2026-11-29"), ""};
    const std::vector<Unkept> all{
        {no_zone, "tournament opened", "the time zone is empty",
         "write up to 48 letters, digits and - . _ + /"},
        {TeamEntered{std::string(65, 'x'), "U16", "", ""}, "team entered",
         "the team does not fit: 65 bytes, at most 64 are allowed",
         "write up to 64 bytes, without special keys"},
        {TeamEntered{"Mill Lane", "U 16", "", ""}, "team entered",
         "the division has other signs than letters, digits and - . _ + /",
         "write up to 48 letters, digits and - . _ + /"},
        {MatchMoved{"A1", 0, {}}, "match moved",
         "the court does not fit: 0 is not within 1 to 1000", "write a number from 1 to 1000"},
    };
    for (const Unkept& each : all) {
        const auto fault = unfit(each.fact);
        ASSERT_TRUE(fault.has_value()) << each.message;
        EXPECT_EQ(fault->place, each.place);
        EXPECT_EQ(fault->message, each.message);
        EXPECT_EQ(fault->cure, each.cure);
    }
    EXPECT_FALSE(unfit(TeamEntered{"Mill Lane", "U16", "", ""}).has_value());
}

}  // namespace
}  // namespace courthand::event
