// The program itself: what it prints, and how it ends.
#include <gtest/gtest.h>
#include <sys/wait.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>

#include "opening.h"

namespace courthand {
namespace {

struct Outcome {
    int status = -1;
    std::string output;  ///< both streams
};

Outcome run(const std::string& arguments) {
    const std::string command = std::string{COURTHAND_REPLAY} + " " + arguments + " 2>&1";
    std::FILE* const pipe = popen(command.c_str(), "r");
    Outcome result;
    if (pipe == nullptr) return result;
    std::array<char, 4096> part{};
    for (std::size_t n = 0; (n = std::fread(part.data(), 1, part.size(), pipe)) > 0;)
        result.output.append(part.data(), n);
    const int ended = pclose(pipe);
    result.status = WIFEXITED(ended) ? WEXITSTATUS(ended) : -1;
    return result;
}

class ReplayProgram : public testing::Test {
  protected:
    /// Writes a script into a folder of this test and gives its path.
    std::string file(const std::string& text, const std::string& name = "match.match") {
        std::filesystem::create_directories(folder_);
        std::ofstream{folder_ / name, std::ios::binary} << text;
        return (folder_ / name).string();
    }
    void TearDown() override { std::filesystem::remove_all(folder_); }

  private:
    std::filesystem::path folder_ = std::filesystem::path{testing::TempDir()} /
                                    (std::string{"courthand-replay-"} +
                                     testing::UnitTest::GetInstance()->current_test_info()->name());
};

bool holds(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

TEST_F(ReplayProgram, EndsWithZeroWhenAllHolds) {
    const Outcome r = run(file(opening + "play A\nexpect score 1 0\n"));
    EXPECT_EQ(r.status, 0);
    EXPECT_TRUE(holds(r.output, "@11  rally A")) << r.output;
    EXPECT_TRUE(holds(r.output, "expect score 1 0: holds")) << r.output;
}

TEST_F(ReplayProgram, EndsWithOneAndNamesTheFailedLine) {
    const std::string path = file(opening + "play A\nexpect score 0 1\n");
    const Outcome r = run(path);
    EXPECT_EQ(r.status, 1);
    EXPECT_TRUE(holds(r.output, path + ":11: expect score 0 1: the score is 1 0")) << r.output;
}

TEST_F(ReplayProgram, EndsWithTwoAndNamesThePlace) {
    const std::string path = file(opening + "play A\n  libreo A 21 for 5\n");
    const Outcome r = run(path);
    EXPECT_EQ(r.status, 2);
    EXPECT_EQ(r.output, path + ":11:3: 'libreo' is no verb of a script; did you mean 'libero'?\n");
}

TEST_F(ReplayProgram, EndsWithTwoWithoutAFile) {
    EXPECT_EQ(run("nowhere.match").status, 2);
    EXPECT_EQ(run("").status, 2);
    EXPECT_EQ(run("--bogus").status, 2);
}

TEST_F(ReplayProgram, RefusesAFileThatIsTooLarge) {
    const Outcome r = run(file(std::string(2 * 1024 * 1024, '\n')));
    EXPECT_EQ(r.status, 2);
    EXPECT_TRUE(holds(r.output, "1048576 are allowed")) << r.output;
}

TEST_F(ReplayProgram, ShowsOneEntryOnly) {
    const Outcome r = run("--at 11 " + file(opening + "play A2\n"));
    EXPECT_EQ(r.status, 0);
    EXPECT_TRUE(holds(r.output, "@11  rally A")) << r.output;
    EXPECT_TRUE(holds(r.output, "1 : 0")) << r.output;
    EXPECT_FALSE(holds(r.output, "@10 ")) << r.output;
    EXPECT_FALSE(holds(r.output, "@12 ")) << r.output;
}

TEST_F(ReplayProgram, PrintsTheHashAlone) {
    const std::string path = file(opening + "play A\n");
    const std::string other = file("# source\n" + opening + "play B\namend @11 rally A\n", "other");
    const Outcome r = run("--hash " + path);
    EXPECT_EQ(r.output.size(), 17U) << r.output;
    EXPECT_EQ(r.output, run("--hash " + other).output) << "same facts, same hash";
    EXPECT_NE(r.output, run("--hash " + file(opening, "shorter")).output);
}

TEST_F(ReplayProgram, WritesOneJsonObjectALine) {
    const Outcome r =
        run("--format json " + file(opening + "remark \"a \\\"wet\\\" floor\"\nexpect none\n"));
    EXPECT_EQ(r.status, 0);
    EXPECT_TRUE(holds(r.output, R"("text":"a \"wet\" floor")")) << r.output;
    EXPECT_TRUE(holds(r.output, R"({"line":11,"expect":"expect none","holds":true,"found":""})"))
        << r.output;
    EXPECT_TRUE(holds(r.output, R"("state_hash":")")) << r.output;
}

TEST_F(ReplayProgram, WritesWhatACorrectionChanged) {
    const Outcome r = run("--format json " + file(opening + "serve A 4\nstrike @10\n"));
    EXPECT_TRUE(holds(r.output, R"("changes":[{"change":"vanished","was":{"phase":"open")"))
        << r.output;
}

TEST_F(ReplayProgram, NamesTheValuesAVerdictRestsOnThatWereNotSeenInPrint) {
    const std::string path = file(opening + "libero A 21 for 5\nlibero A 5 for 21\n");
    const std::string college = "--profile us-college-women-2024 ";
    EXPECT_TRUE(holds(run(college + path).output,
                      "rests on values not seen in print: delay.point-from = 2 (memory)"));
    EXPECT_TRUE(
        holds(run(college + "--format json " + path).output, R"("unproven":["delay.point-from"])"));
    EXPECT_FALSE(holds(run("--profile international-2025 " + path).output, "not seen in print"));
}

TEST_F(ReplayProgram, JudgesByAnotherProfile) {
    const std::string path = file(opening + "libero A 21 for 1\nserve\nexpect none\n");
    EXPECT_EQ(run(path).status, 1) << "the libero may not serve";
    EXPECT_EQ(run("--profile us-domestic-2014 " + path).status, 0);
    EXPECT_EQ(run("--profile nowhere-1900 " + path).status, 2);
}

TEST_F(ReplayProgram, RefusesABadHouseProfile) {
    const std::string house = file("id = \"house\"\nbogus = 1\n", "house.toml");
    const Outcome r = run("--house-profile " + house + " " + file(opening));
    EXPECT_EQ(r.status, 2);
    EXPECT_TRUE(holds(r.output, house + ":")) << r.output;
}

TEST_F(ReplayProgram, PrintsWhatDiffersBetweenProfiles) {
    const Outcome r = run("--profile-diff international-2021 international-2025");
    EXPECT_EQ(r.status, 0);
    EXPECT_TRUE(holds(r.output, "fault.serving-team-in-order")) << r.output;
    EXPECT_TRUE(holds(r.output, "rule 7.4")) << r.output;
    EXPECT_EQ(run("--profile-diff international-2021 international-2021").output,
              "0 parameters differ\n");
    EXPECT_EQ(run("--profile-diff international-2021 nowhere-1900").status, 2);
}

TEST_F(ReplayProgram, SaysWhatItIs) {
    EXPECT_TRUE(holds(run("--version").output, "courthand-replay "));
    EXPECT_EQ(run("--help").status, 0);
    EXPECT_TRUE(holds(run("--help").output, "referees decide"));
}

}  // namespace
}  // namespace courthand
