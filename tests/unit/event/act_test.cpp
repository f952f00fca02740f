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
