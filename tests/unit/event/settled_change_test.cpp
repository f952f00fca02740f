// What an act changes of things that people rely on already: then its reason is asked for.
#include "courthand/event/settled_change.h"

#include <map>

#include "courthand/event/advance.h"
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

/// The reason stands beside the fact that is named.
TEST(PlanChanges, NameTheFactThatMadeThem) {
    struct Case {
        const char* about;
        const char* act;  ///< from fact 18 on
        std::map<std::string, FactNumber> facts;
    };
    const Case cases[] = {
        {"placed since", "", {{"A2", 16}}},
        {"moved", "move A1 court 2 at 2026-11-28T09:00\n", {{"A1", 18}, {"A2", 16}}},
        {"moved twice",
         "move A1 court 2 at 2026-11-28T09:00\nmove A1 court 2 at 2026-11-28T09:10\n",
         {{"A1", 19}, {"A2", 16}}},
        {"taken off its court", "unplace A1\n", {{"A1", 18}, {"A2", 16}}},
        {"of no effect", "unplace A1\nunplace A1\n", {{"A1", 18}, {"A2", 16}}},
        {"its place taken back", "take-back 14\n", {{"A1", 18}, {"A2", 16}}},
        {"a move taken back after the next version",
         "move A1 court 2 at 2026-11-28T09:00\npublish 2\ntake-back 18\n",
         {{"A1", 20}}},
        {"the taking back taken back", "take-back 14\npublish 2\ntake-back 18\n", {{"A1", 20}}},
        {"the match is no more", "take-back 9\n", {{"A1", 0}}},
    };
    for (const Case& one : cases) {
        SCOPED_TRACE(one.about);
        const TournamentState state = testing::state_of(cup() + one.act);
        std::map<std::string, FactNumber> facts;
        for (const PlanChange& change : changes_since_published(state))
            facts[change.match] = change.fact;
        EXPECT_EQ(facts, one.facts);
    }
}

}  // namespace
}  // namespace courthand::event
