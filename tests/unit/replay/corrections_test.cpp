// A corrected record leads to the same state as one that was written right at once.
#include <gtest/gtest.h>

#include "courthand/replay/replay.h"
#include "opening.h"
#include "script_of.h"

namespace courthand {
namespace {

std::uint64_t hash_after(const std::string& rest) {
    const Script script = script_of(opening + rest);
    ScriptReplay replay{find_profile(script.profile)->rules, script};
    while (replay.next()) {
    }
    return state_hash(replay.state());
}

TEST(Corrections, AStruckEntryLeavesNoTrace) {
    EXPECT_EQ(hash_after("libero A 21 for 5\nplay A2\nstrike @10\n"), hash_after("play A2\n"));
}

TEST(Corrections, AnInsertedEntryCountsAtItsPlace) {
    EXPECT_EQ(hash_after("play A2\ninsert @9 libero A 21 for 5\n"),
              hash_after("libero A 21 for 5\nplay A2\n"));
}

TEST(Corrections, AnAmendedEntryCountsInItsPlace) {
    EXPECT_EQ(hash_after("play A2\namend @11 rally B\n"), hash_after("play B A\n"));
}

TEST(Corrections, AStrikeOfAStrikeRestores) {
    EXPECT_EQ(hash_after("play A2\nstrike last\nstrike last\n"), hash_after("play A2\n"));
}

TEST(Corrections, AStrikeOfAnInsertTakesItOut) {
    EXPECT_EQ(hash_after("play A2\ninsert @9 libero A 21 for 5\nstrike last\n"),
              hash_after("play A2\n"));
}

TEST(Corrections, TheLatestAmendmentCounts) {
    EXPECT_EQ(hash_after("play A2\namend @11 rally B\namend @11 rally A\n"),
              hash_after("play A2\n"));
}

TEST(Corrections, FactsAfterACorrectionGoOnFromIt) {
    EXPECT_EQ(hash_after("play A2\namend @13 rally B\nplay B3\nlibero B 41 for 35\n"),
              hash_after("play A B4\nlibero B 41 for 35\n"));
}

TEST(Corrections, AnAmendmentShowsWhatItsFactRaised) {
    const Script script = script_of(opening + "sub A 11 for 1\namend @10 sub A 11 for 12\n");
    ScriptReplay replay{find_profile(script.profile)->rules, script};
    while (replay.next()) {
    }
    ASSERT_EQ(replay.raised().size(), 1U);
    EXPECT_EQ(replay.raised()[0].reason, Reason::sub_player_not_on_court);
}

TEST(Corrections, SayWhatTheyDidToTheVerdicts) {
    const Script script = script_of(
        opening + "serve A 4\nrally A\nlibero A 21 for 22\namend @10 serve A 1\nremark \"done\"\n");
    ScriptReplay replay{find_profile(script.profile)->rules, script};
    while (replay.entry() < 13) ASSERT_TRUE(replay.next());
    ASSERT_EQ(replay.changes().size(), 1U) << "the replacement has nothing to do with the service";
    EXPECT_EQ(replay.changes()[0].kind, VerdictChange::Kind::vanished);
    EXPECT_EQ(replay.changes()[0].before.reason, Reason::wrong_server);
    ASSERT_TRUE(replay.next());
    EXPECT_TRUE(replay.changes().empty()) << "a remark is no correction";
}

TEST(Corrections, OneWithoutEffectIsNamed) {
    const Script script =
        script_of(opening + "play A\nstrike @11\nstrike @11\namend @12 rally B\n");
    ScriptReplay replay{find_profile(script.profile)->rules, script};
    bool last = false;
    while (replay.next()) last = replay.without_effect();
    EXPECT_TRUE(last) << "an amendment of a strike has no fact to stand in for";
}

}  // namespace
}  // namespace courthand
