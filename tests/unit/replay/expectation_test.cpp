// Each kind of expectation fails when it should, and says what is instead. That they hold when they
// should is shown by the match cases.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <ostream>

#include "courthand/replay/replay.h"
#include "opening.h"
#include "script_of.h"

namespace courthand {
namespace {

struct Wrong {
    std::string_view name;
    std::string_view before;  ///< lines before the expectation
    std::string_view expectation;
    std::string_view found;  ///< part of what is said
};

std::ostream& operator<<(std::ostream& out, const Wrong& w) {
    return out << w.name;
}

constexpr std::string_view second_libero =
    "libero A 21 for 5\nplay A\nlibero A 5 for 21\nlibero A 22 for 6\n";

const std::array wrong_ones{
    Wrong{"Legal", second_libero, "expect legal",
          "the last entry raised armed libero-no-completed-rally A remedy delay-warning A"},
    Wrong{"None", second_libero, "expect none", "standing: armed libero-no-completed-rally A"},
    Wrong{"Phase", second_libero, "expect open libero-no-completed-rally A",
          "standing: armed libero-no-completed-rally A"},
    Wrong{"Reason", second_libero, "expect armed wrong-server A", "libero-no-completed-rally A"},
    Wrong{"TeamOfVerdict", second_libero, "expect armed libero-no-completed-rally B",
          "libero-no-completed-rally A"},
    Wrong{"Remedy", second_libero, "expect armed libero-no-completed-rally A remedy undo",
          "remedy delay-warning A"},
    Wrong{"TeamOfRemedy", second_libero,
          "expect armed libero-no-completed-rally A remedy delay-warning B",
          "remedy delay-warning A"},
    Wrong{"Cancel", second_libero, "expect armed libero-no-completed-rally A cancel 1", "cancel 0"},
    Wrong{"Undo", "serve A 3\n",
          "expect open wrong-server A remedy point-and-service B undo cancel 0",
          "remedy point-and-service B cancel 0"},
    Wrong{"UndoWithOtherCount", second_libero,
          "expect armed libero-no-completed-rally A remedy delay-warning undo cancel 1",
          "remedy delay-warning A undo cancel 0"},
    Wrong{"Raised", "play A\n", "expect raised wrong-server A", "raised nothing"},
    Wrong{"RaisedEarlier", "serve A 4\nrally A\n", "expect raised wrong-server A",
          "the last entry raised nothing"},
    Wrong{"Cleared", second_libero, "expect cleared libero-no-completed-rally A",
          "the last entry raised armed libero-no-completed-rally A"},
    Wrong{"ClearedEarlier", "sub A 12 for 3\nserve\ncaptain A 4\nrally A\n",
          "expect cleared captain-missing A", "the last entry raised nothing"},
    Wrong{"NothingChanged", "serve A 4\nrally A\n", "expect vanished wrong-server A",
          "the last entry changed no verdict"},
    Wrong{"VanishedAndNotAppeared", "serve A 4\nrally A\nstrike @10\n",
          "expect appeared wrong-server A", "vanished open wrong-server A"},
    Wrong{"Changed", "serve A 4\nrally A\namend @10 serve A 5\n", "expect vanished wrong-server A",
          "; was open wrong-server A"},
    Wrong{"Score", "play A\n", "expect score 0 1", "the score is 1 0"},
    Wrong{"ScoreOfSet", "play A25\n", "expect score 25 1 set 1", "the score is 25 0"},
    Wrong{"Serving", "play B\n", "expect serving A", "it is B"},
    Wrong{"Server", "play B\n", "expect server B 31", "it is 32"},
    Wrong{"Court", "play B A\n", "expect court A 1 2 3 4 5 6", "on court are 2 3 4 5 6 1"},
    Wrong{"Captain", "", "expect captain A 4", "it is 3"},
    Wrong{"NoLibero", "", "expect libero A on 21 for 5", "no libero is on court"},
    Wrong{"OtherLibero", "libero A 22 for 5\n", "expect libero A on 21 for 5",
          "on court: 22 for 5"},
    Wrong{"LiberoOff", "libero A 22 for 5\n", "expect libero A off", "on court: 22 for 5"},
    Wrong{"Liberos", "", "expect liberos A 21 23", "the liberos are 21 22"},
    Wrong{"Sets", "play A25\n", "expect sets A 0 B 0", "the sets are A 1 B 0"},
    Wrong{"NoWinner", "play A25\n", "expect winner A", "the match is not over"},
    Wrong{"Winner", "default A\n", "expect winner A", "it is B"},
    Wrong{"Subs", "sub A 11 for 1\n", "expect subs A 0", "there are 1"},
    Wrong{"Timeouts", "timeout A\n", "expect timeouts A 0", "there are 1"},
    Wrong{"Improper", "improper A\n", "expect improper A 0", "there are 1"},
    Wrong{"Delays", "delay A warning\n", "expect delays B 1", "there are 0"},
    Wrong{"Left", "", "expect left B", "it is A"},
};

class WrongExpectation : public testing::TestWithParam<Wrong> {};

TEST_P(WrongExpectation, FailsAndSaysWhatIs) {
    const Wrong& wrong = GetParam();
    const std::string text = opening + std::string{wrong.before};
    const Script script = script_of(text + std::string{wrong.expectation} + "\nwhistle\n");
    const std::vector<Failure> failed = failures(find_profile(script.profile)->rules, script);
    ASSERT_EQ(failed.size(), 1U);
    EXPECT_EQ(failed[0].expected, wrong.expectation);
    EXPECT_NE(failed[0].found.find(wrong.found), std::string::npos) << failed[0].found;
    const auto lines = std::count(text.begin(), text.end(), '\n');
    EXPECT_EQ(failed[0].line, static_cast<std::uint32_t>(lines) + 1);
}

INSTANTIATE_TEST_SUITE_P(Table, WrongExpectation, testing::ValuesIn(wrong_ones),
                         [](const testing::TestParamInfo<Wrong>& row) {
                             return std::string{row.param.name};
                         });

/// A remedy of several parts holds when each of them does.
TEST(RemedyOfSeveralParts, Holds) {
    const std::string text =
        std::string{opening} + std::string{second_libero} +
        "expect armed libero-no-completed-rally A remedy delay-warning A undo cancel 0\n"
        "play A B\n"
        "expect open libero-no-completed-rally A remedy point-and-service B undo cancel 1\n";
    const Script script = script_of(text);
    EXPECT_TRUE(failures(find_profile(script.profile)->rules, script).empty());
}

}  // namespace
}  // namespace courthand
