// courthand-verify as a person runs it: what it prints, and its exit status.
#include <sys/wait.h>

#include <cstdio>
#include <fstream>
#include <memory>

#include "event_file_kit.h"
#include "tests/testkit/scratch_folder.h"

namespace courthand::event_file {
namespace {

struct Ran {
    int status = -1;
    std::string output;
};

Ran run(const std::string& words) {
    const std::string command = std::string{COURTHAND_VERIFY} + " " + words + " 2>&1";
    Ran ran;
    std::FILE* const pipe = popen(command.c_str(), "r");
    char buffer[4096];
    while (const std::size_t size = std::fread(buffer, 1, sizeof buffer, pipe))
        ran.output.append(buffer, size);
    ran.status = WEXITSTATUS(pclose(pipe));
    return ran;
}

class VerifyProgram : public ::testing::Test {
  protected:
    std::string kept_as(const std::string& name, const std::string& text) {
        const std::filesystem::path path = folder_.path() / name;
        std::ofstream{path, std::ios::binary} << text;
        return path.string();
    }
    testkit::ScratchFolder folder_;
};

TEST_F(VerifyProgram, AWholeFileEndsWithZero) {
    const Ran ran = run(kept_as("event.jsonl", kit::small_file()));
    EXPECT_EQ(ran.status, 0) << ran.output;
    EXPECT_NE(ran.output.find("is whole: \"Harbour Cup\", 23 facts, 1 matches with 5 entries"),
              std::string::npos)
        << ran.output;
}

TEST_F(VerifyProgram, EntriesOnBranchesAreCounted) {
    const Ran ran = run(kept_as("event.jsonl", kit::forked_file()));
    EXPECT_EQ(ran.status, 0) << ran.output;
    EXPECT_NE(ran.output.find("1 matches with 5 entries, and 2 on branches\n"), std::string::npos)
        << ran.output;
}

TEST_F(VerifyProgram, AChangedFileEndsWithOneAndNamesTheLine) {
    std::vector<std::string> lines = kit::lines_of(kit::small_file());
    lines.erase(lines.begin() + 5);
    const std::string file = kept_as("event.jsonl", kit::with_end(lines));
    const Ran ran = run(file);
    EXPECT_EQ(ran.status, 1) << ran.output;
    EXPECT_NE(ran.output.find(file + ":6: fact 5 is missing before fact 6; "), std::string::npos)
        << ran.output;
}

TEST_F(VerifyProgram, WhatCannotBeReadEndsWithTwo) {
    EXPECT_EQ(run(kept_as("teams.csv", "team,number\n")).status, 2);
    EXPECT_EQ(run(kept_as("empty", "")).status, 2);
    EXPECT_EQ(run((folder_.path() / "nothing").string()).status, 2);
    EXPECT_EQ(run("").status, 2);
}

TEST_F(VerifyProgram, SaysAsOfWhichFactAPaperWasPrinted) {
    const std::string file = kept_as("event.jsonl", kit::small_file());
    const std::string hash = wire::to_hex(wire::sha256(kit::kept(kit::small_cup())[9].bytes));
    const Ran ran = run("--paper " + hash.substr(0, 16) + " " + file);
    EXPECT_EQ(ran.status, 0) << ran.output;
    EXPECT_NE(ran.output.find("as of fact 10"), std::string::npos) << ran.output;
    EXPECT_EQ(run("--paper 0123456789abcdef " + file).status, 1);
    EXPECT_EQ(run("--paper 0123 " + file).status, 2);
}

}  // namespace
}  // namespace courthand::event_file
