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
        {"limit", "", rested, {"division U16", "rest minutes", "0", "45"}},
        {"withdrawn",
         "",
         "withdrawn \"Mill Lane\"\n",
         {"Mill Lane", "plays", "yes", "no, withdrawn"}},
    };
}

TEST(Changes, AreToldOldAndNew) {
    for (const Case& each : cases()) {
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
