// Whether what a person says still comes to the same when others have spoken meanwhile.
#include "courthand/event/act.h"

#include "event_of.h"

namespace courthand::event {
namespace {

using testing::facts_of;
using testing::small_cup;
using testing::state_of;

struct Case {
    const char* what;
    const char* came;  ///< since the person looked
    const char* said;
    bool overtaken;
};

TEST(Act, IsOvertakenByWhatChangesItAndByNothingElse) {
    const Case cases[]{
        {"nothing came", "", "result A1 paper 25-20 25-20\n", false},
        {"a result of another pool", "result B1 paper 25-20 25-20\n",
         "result A1 paper 25-20 25-20\n", false},
        {"another match of the pool", "result A2 paper 25-20 25-20\n",
         "result A1 paper 25-20 25-20\n", false},
        {"the result is there by now", "result A1 paper 25-20 25-20\n",
         "result A1 paper 25-10 25-10\n", true},
        {"the same result", "result A1 paper 25-20 25-20\n", "result A1 paper 25-20 25-20\n", true},
        {"its team has left: what was played was played", "withdrawn \"Harbour Lights\"\n",
         "result A1 paper 25-20 25-20\n", false},
        {"a note about the same match", "note match A1 words \"wet floor\"\n",
         "note match A1 words \"dry floor\"\n", false},
        {"a court", "court 2 called \"Quay\"\n", "court 1 called \"Harbour\"\n", false},
        {"the same court", "court 1 called \"Quay\"\n", "court 1 called \"Harbour\"\n", true},
        {"a record of the match was opened", "record A1 0190a5f0000070008000000000000001\n",
         "result A1 paper 25-20 25-20\n", true},
        {"a record of another match was opened", "record A2 0190a5f0000070008000000000000001\n",
         "result A1 paper 25-20 25-20\n", false},
        {"nothing to take back any more", "take-back 10\n", "take-back 10\n", true},
    };
    for (const Case& one : cases) {
        const TournamentState then = state_of(small_cup());
        const TournamentState now = state_of(small_cup() + one.came);
        ASSERT_EQ(now.last(), then.last() + (*one.came == '\0' ? 0 : 1)) << one.what;
        const auto said = facts_of(one.said);
        ASSERT_FALSE(said.empty()) << one.what;
        EXPECT_EQ(overtaken(then, now, said, meaning_of(now, said)), one.overtaken) << one.what;
    }
}

TEST(Act, IsOvertakenByWhatChangesWhatItMakes) {
    const std::string seeds = "seeds U16 teams \"Saltmarsh\" \"Mill Lane\"\n";
    const std::string draw = "draw U16 serpentine pools 2\n";
    const std::string bracket = "bracket U16 single prefix M size 4\n";
    const std::string entered = "team \"Harbour Gate\" in U16\n";
    const std::string court = "court 2 called \"Quay\"\n";
    const struct {
        const char* what;
        std::string came;
        std::string said;
        bool overtaken;
    } cases[]{{"seeds, and a draw", seeds, draw, true},
              {"seeds, and a bracket of the seeds", seeds, bracket, true},
              {"a team more, and a draw", entered, draw, true},
              {"a court, and a draw", court, draw, false},
              {"a court, and a bracket", court, bracket, false}};
    std::string undrawn = small_cup();
    undrawn.erase(undrawn.find("draw U16"));
    for (const auto& one : cases) {
        const TournamentState then = state_of(undrawn);
        const TournamentState now = state_of(undrawn + one.came);
        const auto said = facts_of(one.said);
        const Meaning means = meaning_of(now, said);
        EXPECT_TRUE(means.findings.empty()) << one.what;
        EXPECT_EQ(overtaken(then, now, said, means), one.overtaken) << one.what;
    }
}

TEST(Act, NeedsAReasonWhereItChangesAFrozenList) {
    const std::string frozen = small_cup() + "roster \"Mill Lane\" numbers 1 2 3\n";
    const struct {
        const char* what;
        std::string before;
        std::vector<Said> said;
        std::size_t missing;
    } cases[]{
        {"the first freezing", small_cup(), {{RosterFrozen{"Mill Lane", {1, 2}}, ""}}, 0},
        {"one player more", frozen, {{RosterFrozen{"Mill Lane", {1, 2, 3, 4}}, ""}}, 1},
        {"blanks say nothing", frozen, {{RosterFrozen{"Mill Lane", {1, 2}}, " \n"}}, 1},
        {"for a reason", frozen, {{RosterFrozen{"Mill Lane", {1, 2}}, "ill"}}, 0},
        {"in another order", frozen, {{RosterFrozen{"Mill Lane", {3, 1, 2}}, ""}}, 0},
        {"a number twice has no effect", frozen, {{RosterFrozen{"Mill Lane", {3, 3}}, ""}}, 0},
        {"frozen and changed in one act",
         small_cup(),
         {{RosterFrozen{"Mill Lane", {1}}, ""}, {RosterFrozen{"Mill Lane", {2}}, ""}},
         1},
        {"the freezing taken back", frozen, {{TakenBack{11}, ""}}, 1},
        {"the freezing taken back for a reason", frozen, {{TakenBack{11}, "too early"}}, 0},
        {"the team taken back with its list", frozen, {{TakenBack{4}, ""}}, 0},
        {"a court taken back", frozen + "court 1\n", {{TakenBack{12}, ""}}, 0},
    };
    for (const auto& one : cases) {
        const TournamentState state = state_of(one.before);
        const auto missing = objections(state, one.said);
        ASSERT_EQ(missing.size(), one.missing) << one.what;
        if (missing.empty()) continue;
        EXPECT_EQ(missing[0].fact, state.last() + one.said.size()) << one.what;
        EXPECT_EQ(missing[0].problem, Problem::reason_missing) << one.what;
        EXPECT_EQ(missing[0].fault.place, "Mill Lane") << one.what;
    }
}

TEST(Act, DoesNotMoveTimesByATimeZoneThatComesLate) {
    const std::string opened = small_cup().substr(0, small_cup().find('\n') + 1);
    const std::string unopened = small_cup().substr(opened.size());
    const std::string court = "court 1\n";
    const std::string timed = "place A1 court 1 at 2026-11-28T10:00\n";
    std::string utc = opened;
    utc.replace(utc.find("Europe/London"), 13, "UTC");
    const struct {
        const char* what;
        std::string before;
        std::string said;
        std::size_t objections;
    } cases[]{
        {"nothing is planned", unopened + court, opened, 0},
        {"a match without a time", unopened + court + "place A1 court 1\n", opened, 0},
        {"a time", unopened + court + timed, opened, 1},
        {"a time in the same act", unopened + court, timed + opened, 1},
        {"no longer placed", unopened + court + timed + "unplace A1\n", opened, 0},
        {"the time zone in which they are", unopened + court + timed, utc, 0},
        {"open already", opened + unopened + court + timed, opened, 0},
        {"a wrong time zone put right", opened + unopened + court + timed + "take-back 1\n", opened,
         0},
    };
    for (const auto& one : cases) {
        const TournamentState state = state_of(one.before);
        std::vector<Said> said;
        for (const Fact& fact : facts_of(one.said)) said.push_back({fact, ""});
        const auto found = objections(state, said);
        ASSERT_EQ(found.size(), one.objections) << one.what;
        if (found.empty()) continue;
        EXPECT_EQ(found[0].problem, Problem::zone_late) << one.what;
        EXPECT_TRUE(forbids(found[0].problem));
        EXPECT_NE(found[0].fault.cure.find("UTC"), std::string::npos);
    }
}

TEST(Act, MeansItsOwnFindingsAndWhatItChanges) {
    const TournamentState state = state_of(small_cup() + "result Z9 paper 25-20 25-20\n");
    ASSERT_EQ(state.findings.size(), 1u);
    const Meaning means =
        meaning_of(state, facts_of("result A1 paper 25-20 25-20\nresult A1 paper 25-20 25-20\n"));
    ASSERT_EQ(means.findings.size(), 1u) << "not that of an earlier fact";
    EXPECT_EQ(means.findings[0].fact, state.last() + 2);
    EXPECT_EQ(means.findings[0].problem, Problem::result_there);
    EXPECT_EQ(means.effects.matches, (std::vector<std::string>{"A1"}));
    EXPECT_TRUE(meaning_of(state, {}).effects.none());
}

}  // namespace
}  // namespace courthand::event
