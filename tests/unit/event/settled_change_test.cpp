// What an act changes of things that people rely on already: then its reason is asked for.
#include "courthand/event/settled_change.h"

#include "event_of.h"

namespace courthand::event {
namespace {

using testing::facts_of;
using testing::small_cup;
using Changes = std::vector<Settled>;

/// The small cup with a plan of two matches, one of them published and one result.
std::string cup() {
    return small_cup() +
           "roster \"Mill Lane\" numbers 1 2 3\n"
           "court 1\ncourt 2\n"
           "place A1 court 1 at 2026-11-28T09:00\n"
           "publish 1\n"
           "place A2 court 1 at 2026-11-28T10:00\n"
           "result A1 paper 25-20 25-20\n";
}

TEST(SettledChanges, AreTheListThatIsFrozenTheResultThatCountsThePlanAndWhatIsTakenBack) {
    struct Case {
        const char* about;
        const char* act;
        Changes changes;
    };
    const Case cases[] = {
        {"a first result", "result A2 paper 25-20 25-20\n", {}},
        {"a first list", "roster \"Saltmarsh\" numbers 1 2\n", {}},
        {"a match that is not published", "move A2 court 2 at 2026-11-28T10:00\n", {}},
        {"the plan published anew", "publish 2\n", {}},
        {"a duty", "duty A2 workers \"Mill Lane\"\n", {}},
        {"another list", "roster \"Mill Lane\" numbers 1 2 4\n", {Settled::list}},
        {"the same list", "roster \"Mill Lane\" numbers 1 2 3\n", {}},
        {"a result reopened", "reopen A1\n", {Settled::result}},
        {"another court", "move A1 court 2 at 2026-11-28T09:00\n", {Settled::plan}},
        {"another time", "move A1 court 1 at 2026-11-28T09:05\n", {Settled::plan}},
        {"no court", "unplace A1\n", {Settled::plan}},
        {"the place as it was", "move A1 court 1 at 2026-11-28T09:00\n", {}},
        {"a team that has played leaves", "withdrawn \"Ropewalk\"\n", {Settled::left}},
        {"a team that leaves before it has played", "withdrawn \"Saltmarsh\"\n", {Settled::left}},
        {"a list is frozen no more", "take-back 11\n", {Settled::list, Settled::taken_back}},
        {"a court nobody plays on", "take-back 13\n", {Settled::taken_back}},
        {"two things at once",
         "reopen A1\nmove A1 court 2 at 2026-11-28T09:00\n",
         {Settled::result, Settled::plan}},
    };
    for (const Case& one : cases) {
        SCOPED_TRACE(one.about);
        const auto said = facts_of(one.act);
        const TournamentState before = testing::state_of(cup());
        ASSERT_TRUE(before.findings.empty());
        TournamentState after = before;
        for (const Fact& fact : said) fold_in(after, fact);
        EXPECT_EQ(settled_changes(before, after, said), one.changes);
    }
}

TEST(SettledChanges, AResultThatIsConfirmedAgainAsItWasIsTheSame) {
    const auto said = facts_of("reopen A1\nresult A1 paper 25-20 25-20\n");
    const TournamentState before = testing::state_of(cup());
    TournamentState after = before;
    for (const Fact& fact : said) fold_in(after, fact);
    EXPECT_EQ(settled_changes(before, after, said), Changes{});
}

}  // namespace
}  // namespace courthand::event
