// What courthand-replay prints for an event script, and how it ends.
#include "courthand/event_script/event_program.h"

#include "event_of.h"

namespace courthand::event {
namespace {

struct Outcome {
    int status = -1;
    std::string out;
    std::string err;
};

Outcome run(const std::string& text, bool json = false) {
    ::testing::internal::CaptureStdout();
    ::testing::internal::CaptureStderr();
    Outcome outcome;
    outcome.status = replay_file("cup.event", text, json);
    std::fflush(stdout);
    outcome.out = ::testing::internal::GetCapturedStdout();
    outcome.err = ::testing::internal::GetCapturedStderr();
    return outcome;
}

bool holds(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

TEST(EventProgram, KnowsAnEventByItsName) {
    EXPECT_TRUE(is_event_file("cases/cup.event"));
    EXPECT_FALSE(is_event_file("cases/cup.match"));
}

TEST(EventProgram, EndsWithZeroWhenAllHolds) {
    const Outcome r = run(testing::small_cup() + "expect matches 10\n");
    EXPECT_EQ(r.status, 0) << r.err;
    EXPECT_TRUE(holds(r.out, "   4  team \"Mill Lane\" in U16\n")) << r.out;
    EXPECT_TRUE(holds(r.out, "expect matches 10: holds")) << r.out;
    EXPECT_TRUE(holds(r.out, "10 facts, 10 matches, 0 expectations failed")) << r.out;
}

TEST(EventProgram, EndsWithOneAndSaysWhatIsInstead) {
    const Outcome r = run(testing::small_cup() + "expect matches 11\n");
    EXPECT_EQ(r.status, 1);
    EXPECT_EQ(r.err, "cup.event:11: expect matches 11: 10\n");
}

TEST(EventProgram, EndsWithTwoAndAPlaceWhenItCannotRead) {
    const Outcome r = run("team Quayside in U16\n");
    EXPECT_EQ(r.status, 2);
    EXPECT_TRUE(holds(r.err, "cup.event:1:6: ")) << r.err;
}

TEST(EventProgram, TellsWhatAFactCouldNotBringAbout) {
    const Outcome r = run(testing::small_cup() + "result M1 paper 25-20 25-20\n");
    EXPECT_EQ(r.status, 0);
    EXPECT_TRUE(holds(r.out, "sides-unknown: M1: 1st of pool A is not known: ")) << r.out;
}

TEST(EventProgram, PrintsOneObjectALine) {
    const Outcome r = run(testing::small_cup() + "expect matches 11\nreopen M1\n", true);
    EXPECT_TRUE(holds(r.out, R"({"line":4,"fact":4,"says":"team \"Mill Lane\" in U16",)"
                             R"("finding":null})"))
        << r.out;
    EXPECT_TRUE(holds(r.out, R"("holds":false,"found":"10"})")) << r.out;
    EXPECT_TRUE(holds(r.out, R"("problem":"result-missing")")) << r.out;
    EXPECT_TRUE(holds(r.out, R"({"end":true,"failed":1,"waiting":[]})")) << r.out;
}

}  // namespace
}  // namespace courthand::event
