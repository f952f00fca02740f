// A candidate is judged and not recorded: what the rules hold against it.
#include <gtest/gtest.h>

#include "courthand/rules/judge.h"
#include "random_play.h"
#include "tests/testkit/jersey.h"

namespace courthand {
namespace {

using testing::no;

class Candidate : public ::testing::Test {
  protected:
    const Rules rules = find_profile("international-2021")->rules;
    const MatchState state = fold(rules, testing::opening());
};

TEST_F(Candidate, ALegalOneHasNoObjection) {
    const Fact fact = LiberoReplacement{Team::A, no(21), no(5)};
    EXPECT_TRUE(objections_to(rules, state, fact).empty());
    const Option option = option_for(rules, state, fact);
    EXPECT_TRUE(option.legal);
    EXPECT_EQ(option.fact, fact);
}

TEST_F(Candidate, AnIllegalOneComesWithEveryObjectionAndTheFirstAsItsReason) {
    const Fact fact = LiberoReplacement{Team::A, no(21), no(3)};
    const VerdictList objections = objections_to(rules, state, fact);
    ASSERT_FALSE(objections.empty());
    const Option option = option_for(rules, state, fact);
    EXPECT_FALSE(option.legal);
    EXPECT_EQ(option.reason, objections[0].reason);
    EXPECT_EQ(objections.size(), judge(rules, state, Entry{0, fact}).verdicts.size());
}

// What an entry clears or rules is no objection to it.
TEST_F(Candidate, PuttingAFaultRightIsLegal) {
    MatchState wrong = state;
    VerdictList raised;
    apply(rules, wrong, Entry{100, LiberoReplacement{Team::A, no(21), no(3)}}, raised);
    const Fact back = LiberoReplacement{Team::A, no(3), no(21)};
    ASSERT_FALSE(judge(rules, wrong, Entry{101, back}).verdicts.empty());
    EXPECT_TRUE(option_for(rules, wrong, back).legal);
}

TEST_F(Candidate, OptionsOfATeamAreTheOnesJudgedOneByOne) {
    for (const Team team : {Team::A, Team::B}) {
        const LegalActions actions = legal_actions(rules, state, team);
        for (const auto* list : {&actions.replacements, &actions.substitutions, &actions.captains,
                                 &actions.redesignations})
            for (const Option& option : *list) {
                const Option alone = option_for(rules, state, option.fact);
                EXPECT_EQ(alone.legal, option.legal);
                EXPECT_TRUE(alone.legal || alone.reason == option.reason);
            }
    }
}

}  // namespace
}  // namespace courthand
