// How long a match holds its court by the plan, and what speaks against a court and a time.
#include "courthand/event/plan_clash.h"

#include "courthand/event/court_time.h"
#include "event_of.h"

namespace courthand::event {
namespace {

using testing::small_cup;
using testing::state_of;
using Lines = std::vector<std::string>;

/// The pools of the small cup, A1 to A3 and B1 to B3: Harbour Lights, Quayside and Ropewalk, and
/// Mill Lane, Saltmarsh and Lantern Hill, each with three matches.
std::string cup(const std::string& limits) {
    std::string script = small_cup();
    const std::string chain = "chain international-2017";
    script.insert(script.find(chain) + chain.size(), limits);
    return script + "court 1\ncourt 2\n";
}
std::string place(const std::string& match, int court, const std::string& at) {
    return "place " + match + " court " + std::to_string(court) + " at 2026-11-28T" + at + "\n";
}

std::string end_of(const std::string& script, const std::string& match) {
    const TournamentState state = state_of(script);
    for (const CourtTime& time : court_times(state))
        if (state.node(time.match).name == match) return written(time.until).substr(11);
    return "no time";
}

TEST(CourtTime, IsThePlannedLengthOrTheTimeUntilTheNextMatch) {
    struct Case {
        const char* about;
        const char* limits;
        std::string places;
        const char* end;
    };
    const Case cases[] = {
        {"nothing is told: two sets to 25", "", place("A1", 1, "09:00"), "09:50"},
        {"the next match", "", place("A1", 1, "09:00") + place("B1", 1, "10:10"), "10:10"},
        {"a length alone", " lasts 50", place("A1", 1, "09:00"), "09:50"},
        {"a pause behind it", " lasts 50", place("A1", 1, "09:00") + place("B1", 1, "10:10"),
         "09:50"},
        {"planned too close", " lasts 50", place("A1", 1, "09:00") + place("B1", 1, "09:40"),
         "09:50"},
        {"over midnight", " lasts 90", place("A1", 1, "23:00"), "00:30"},
        {"no time", " lasts 50", "", "no time"},
    };
    for (const Case& one : cases) {
        SCOPED_TRACE(one.about);
        EXPECT_EQ(end_of(cup(one.limits) + one.places, "A1"), one.end);
    }
}

TEST(CourtTime, OfAFormatAloneIsThatOfItsFewestSets) {
    EXPECT_EQ(usual_minutes({.sets = 5}), 75);
    EXPECT_EQ(usual_minutes({.sets = 3}), 50);
    EXPECT_EQ(usual_minutes({.sets = 3, .points = 21}), 42);
    EXPECT_EQ(usual_minutes({.sets = 1, .deciding_points = 25}), 25);
    EXPECT_EQ(usual_minutes({.sets = 2, .all_sets_played = 1}), 50);
    EXPECT_EQ(usual_minutes({.sets = 3, .all_sets_played = 1}), 75) << "all of them are played";
}

Lines clashes_of(const std::string& script, const std::string& match) {
    const TournamentState state = state_of(script);
    EXPECT_TRUE(state.findings.empty()) << state.findings.front().fault.message;
    const auto ref = state.find_match(match);
    Lines lines;
    EXPECT_TRUE(ref);
    if (ref)
        for (const PlanClash& clash : plan_clashes(state, *ref))
            lines.push_back(in_words(state, *ref, clash));
    return lines;
}

/// A1 and A2 have one team in common, A1 and B1 none.
TEST(PlanClashes, CourtTeamAndRestAreLookedAt) {
    const TournamentState state = state_of(small_cup());
    const auto team = [&](const char* match, std::size_t which) {
        return state.teams[state.side(*state.find_match(match), which).team].name;
    };
    std::string common;
    for (const std::size_t a : {0U, 1U})
        for (const std::size_t b : {0U, 1U})
            if (team("A1", a) == team("A2", b)) common = team("A1", a);
    ASSERT_NE(common, "");
    const std::string first = place("A1", 1, "09:00");
    struct Case {
        const char* about;
        const char* limits;
        std::string facts;
        Lines clashes;  ///< of A2
    };
    const Case cases[] = {
        {"no time", " lasts 50 rest 20", first, {}},
        {"enough rest", " lasts 50 rest 20", first + place("A2", 1, "10:10"), {}},
        {"a minute short",
         " lasts 50 rest 20",
         first + place("A2", 1, "10:09"),
         {common + " has 19 minutes of rest beside A1, and not 20"}},
        {"short before a later match",
         " lasts 50 rest 20",
         first + place("A2", 2, "08:05"),
         {common + " has 5 minutes of rest beside A1, and not 20"}},
        {"rest is not asked for", " lasts 50", first + place("A2", 2, "09:50"), {}},
        {"at one time",
         " lasts 50",
         first + place("A2", 2, "09:49"),
         {common + " plays A1 at this time"}},
        {"a result ends it",
         " lasts 50",
         first + place("A2", 2, "09:49") + "result A1 paper 25-20 25-20\n",
         {}},
        {"a team rests after a result too",
         " lasts 50 rest 20",
         first + place("A2", 1, "10:00") + "result A1 paper 25-20 25-20\n",
         {common + " has 10 minutes of rest beside A1, and not 20"}},
        {"others on the court",
         " lasts 50",
         place("B1", 1, "09:00") + place("A2", 1, "09:30"),
         {"B1 holds this court at this time"}},
        {"others on another court",
         " lasts 50",
         place("B1", 2, "09:00") + place("A2", 1, "09:30"),
         {}},
        {"no length is planned, and two sets to 25 are not over",
         " rest 20",
         first + place("A2", 2, "09:49"),
         {common + " plays A1 at this time"}},
        {"no length is planned, and they rest after them",
         " rest 20",
         first + place("A2", 2, "10:09"),
         {common + " has 19 minutes of rest beside A1, and not 20"}},
        {"no length is planned, and none of rest", "", first + place("A2", 2, "09:50"), {}},
        {"two in a row where one is the most",
         " lasts 50 in-a-row 1",
         first + place("A2", 2, "10:39"),
         {common + " plays 2 matches in a row, and not 1"}},
        {"room for a match between them is no row",
         " lasts 50 in-a-row 1",
         first + place("A2", 2, "10:40"),
         {}},
        {"a row ends at midday, a day does not",
         " lasts 50 a-day 1",
         first + place("A2", 2, "17:00"),
         {common + " plays 2 matches on this day, and not 1"}},
        {"as many as the day may have", " lasts 50 a-day 2", first + place("A2", 2, "17:00"), {}},
        {"the next day is another",
         " lasts 50 a-day 1",
         first + "place A2 court 1 at 2026-11-29T09:00\n",
         {}},
        {"no length is planned, and a match of two sets fits between them",
         " in-a-row 1",
         first + place("A2", 2, "10:40"),
         {}},
        {"no length is planned, and the next match on its court is late",
         " in-a-row 1",
         first + place("B1", 1, "10:40") + place("A2", 2, "10:40"),
         {}},
        {"no length is planned, and they rest while their court waits",
         " rest 20",
         first + place("B1", 1, "10:10") + place("A2", 2, "10:10"),
         {}},
        {"nor when the later match is their first one",
         " rest 20 in-a-row 1",
         place("A2", 1, "09:00") + place("B1", 1, "11:00") + place("A1", 2, "11:00"),
         {}},
        {"against a bye nobody plays",
         " lasts 50 rest 20 in-a-row 1 a-day 1",
         "match F1 in U16 first \"" + common + "\" second bye\n" + place("F1", 1, "09:00") +
             place("A2", 2, "09:55"),
         {}},
        {"what is over has been played all the same",
         " lasts 50 in-a-row 1 a-day 1",
         first + place("A2", 2, "10:00") + "result A1 paper 25-20 25-20\n",
         {common + " plays 2 matches in a row, and not 1",
          common + " plays 2 matches on this day, and not 1"}},
    };
    for (const Case& one : cases) {
        SCOPED_TRACE(one.about);
        EXPECT_EQ(clashes_of(cup(one.limits) + one.facts, "A2"), one.clashes);
    }
}

}  // namespace
}  // namespace courthand::event
