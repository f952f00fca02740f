#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "script_of.h"

namespace courthand {
namespace {

/// One of each verb and form, in canonical form.
constexpr std::string_view canonical =
    "# memory\n"
    "profile international-2021\n"
    "format best-of 3 points 21 deciding 11 lead 2 cap 27 deciding-cap 17 start 0 switch 6\n"
    "team A \"Harbour \\\"Lights\\\"\" players 1-6 11-14 21 22 captain 3\n"
    "team B \"Mill Lane\" players 31 32 35-37 41 0\n"
    "officials \"first and second referee\"\n"
    "toss serve A left B\n"
    "set 1\n"
    "lineup A 1 2 3 4 5 6 liberos 21 22 captain 3\n"
    "lineup B 31 32 35 36 37 none liberos 41 ?\n"
    "lineup B 31 32 35 36 37 0\n"
    "box B 2 none\n"
    "checked A\n"
    "libero A 21 for 5\n"
    "expect legal\n"
    "whistle\n"
    "serve\n"
    "serve A 1\n"
    "rally A\n"
    "replay\n"
    "sub A 11 for 1 13 for 5\n"
    "exceptional A 13 for 5 illness\n"
    "timeout B\n"
    "captain A 4\n"
    "unable A 21 declared\n"
    "redesignate A 11 for 21\n"
    "misconduct A 4 disqualification\n"
    "misconduct B bench warning\n"
    "delay A warning\n"
    "improper A\n"
    "injury A 4\n"
    "recovery A 4\n"
    "switch\n"
    "interval\n"
    "ruling accept wrong-server B\n"
    "ruling overrule libero-front-row A\n"
    "incomplete A set\n"
    "default B\n"
    "protest A\n"
    "protest A \"the last rally\\nof the set\"\n"
    "score-fix 8 6\n"
    "strike @4\n"
    "insert @4 toss serve B left B\n"
    "amend @2 remark \"a \\\\ and a #\"\n"
    "sign \"captain A\"\n"
    "expect none\n"
    "expect armed libero-front-row A\n"
    "expect open wrong-server A remedy point-and-service B cancel 2\n"
    "expect raised timeout-limit A remedy record-only\n"
    "expect raised timeout-limit A cancel 0\n"
    "expect cleared timeout-limit A\n"
    "expect appeared wrong-server A remedy point-and-service B cancel 2\n"
    "expect vanished wrong-server A\n"
    "expect changed wrong-server A\n"
    "expect open wrong-server A remedy point-and-service B undo cancel 2\n"
    "expect next libero-must-leave A 5 21\n"
    "expect waiting serve A\n"
    "expect next decide-rally\n"
    "expect score 1 2\n"
    "expect score 1 2 set 3\n"
    "expect serving A\n"
    "expect server A 4\n"
    "expect court A 1 2 3 4 5 none\n"
    "expect captain A none\n"
    "expect libero A on 21 for 5\n"
    "expect libero A off\n"
    "expect sets A 2 B 1\n"
    "expect winner B\n"
    "expect subs A 3\n"
    "expect improper A 1\n"
    "expect delays A 1\n"
    "expect timeouts A 2\n"
    "expect left B\n"
    "expect liberos A 21 22\n";

TEST(RoundTrip, CanonicalFormIsAFixedPoint) {
    EXPECT_EQ(write_script(script_of(canonical)), canonical);
}

TEST(RoundTrip, LeavesTheFormatOfTheProfileOut) {
    const std::string_view text = "profile international-2021\nwhistle\n";
    EXPECT_EQ(write_script(script_of(text)), text);
}

TEST(RoundTrip, WritesTheFormatOfAnUnknownProfile) {
    const FindProfile none = [](std::string_view) -> const Profile* { return nullptr; };
    const std::string text = write_script(script_of("profile international-2021\nwhistle\n"), none);
    EXPECT_NE(text.find("\nformat best-of 5 points 25 "), std::string::npos) << text;
}

TEST(RoundTrip, ASourceOfSeveralLinesStaysOneComment) {
    Script script = script_of("profile international-2021\n");
    script.source = "memory\nwhistle";
    EXPECT_EQ(write_script(script).substr(0, 17), "# memory whistle\n");
}

TEST(RoundTrip, EveryCaseFileReadsBackEqual) {
    std::size_t files = 0;
    for (const auto& file : std::filesystem::recursive_directory_iterator{COURTHAND_CASES}) {
        if (file.path().extension() != ".match") continue;
        ++files;
        std::ostringstream text;
        text << std::ifstream{file.path()}.rdbuf();
        const Script script = script_of(text.str());
        EXPECT_EQ(script_of(write_script(script)), script) << file.path();
    }
    EXPECT_GT(files, 0U);
}

}  // namespace
}  // namespace courthand
