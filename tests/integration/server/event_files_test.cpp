// A whole event out of one database and into another: the program as a person runs it, a real
// PostgreSQL on both ends.
#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <iterator>

#include "filled_event.h"
#include "server/testing/server_process.h"
#include "tests/testkit/scratch_folder.h"

namespace courthand::server {
namespace {

namespace kit = event_file::kit;
using testing::run_server_command;
using testing::TestDatabase;
using testing::tournament;

std::string content_of(const std::filesystem::path& file) {
    std::ifstream in{file, std::ios::binary};
    return {std::istreambuf_iterator<char>{in}, {}};
}

class EventFiles : public ::testing::Test {
  protected:
    EventFiles() { testing::fill(first_); }

    testing::CommandResult exported(const TestDatabase& from, const std::string& to,
                                    const std::string& more = {}) {
        std::vector<std::string> words{"export", "--database", from.dsn(), "--to",
                                       (folder_.path() / to).string()};
        if (!more.empty()) words.push_back(more);
        return run_server_command(words);
    }
    static testing::CommandResult imported(const std::filesystem::path& file,
                                           const TestDatabase& into) {
        return run_server_command({"import", "--database", into.dsn(), file.string()});
    }
    std::string file(const std::string& name) const { return content_of(folder_.path() / name); }

    testkit::ScratchFolder folder_;
    TestDatabase first_;
    TestDatabase second_;
};

TEST_F(EventFiles, AnExportHasEverythingAndHolds) {
    const auto result = exported(first_, "out", "--with-names");
    ASSERT_EQ(result.exit_code, 0) << result.output;
    for (const char* name : {"event.jsonl", "teams.csv", "people.csv", "matches.csv", "results.csv",
                             "standings.csv", "places.csv", "papers.pdf"})
        EXPECT_FALSE(file(std::string{"out/"} + name).empty()) << name;
    const event_file::Verdict verdict = kit::verdict_of(file("out/event.jsonl"));
    EXPECT_EQ(verdict.is, event_file::Verdict::Is::whole) << kit::told(verdict);
    EXPECT_EQ(verdict.entries, 5U);
    EXPECT_NE(file("out/people.csv").find("Robin of Mill Lane"), std::string::npos);
    EXPECT_NE(file("out/standings.csv").find("U16,A,1,"), std::string::npos);
    EXPECT_NE(file("out/results.csv").find("25-20,25-18"), std::string::npos);
}

TEST_F(EventFiles, EachReasonOfAPlaceHasALineOfItsCell) {
    // Everyone has beaten another: the first steps leave them level.
    std::string script = kit::small_cup();
    for (const std::string match : {"A2", "A3"}) {
        const std::string result = "result " + match + " paper ";
        script.replace(script.find(result), result.size() + 11, result + "20-25 22-25");
    }
    testing::fill(second_, script);
    ASSERT_EQ(exported(second_, "out").exit_code, 0);
    const std::string table = file("out/standings.csv");
    EXPECT_NE(table.find(",\"matches won, all matches: "), std::string::npos) << table;
    EXPECT_NE(table.find(": level\nmatch points, all matches: "), std::string::npos) << table;
}

TEST_F(EventFiles, NamesAreLeftOutUnlessAskedFor) {
    ASSERT_EQ(exported(first_, "out").exit_code, 0);
    for (const auto& entry : std::filesystem::directory_iterator{folder_.path() / "out"})
        EXPECT_EQ(content_of(entry.path()).find("Robin"), std::string::npos) << entry.path();
    const event_file::Verdict verdict = kit::verdict_of(file("out/event.jsonl"));
    EXPECT_EQ(verdict.is, event_file::Verdict::Is::whole) << kit::told(verdict);
}

TEST_F(EventFiles, WithoutNamesReasonsAndNotesAreLeftOutTooAndItHoldsThereAndElsewhere) {
    testing::fill(second_, kit::small_cup() +
                               "roster \"Mill Lane\" numbers 1 2\n"
                               "roster \"Mill Lane\" numbers 1 words \"Anna Example is hurt\"\n"
                               "take-back 25 words \"Anna Example plays after all\"\n"
                               "conflict 7 with \"Quayside\" words \"Anna Example's uncle\"\n");
    ASSERT_EQ(exported(second_, "named", "--with-names").exit_code, 0);
    EXPECT_NE(file("named/event.jsonl").find("Anna Example"), std::string::npos);
    ASSERT_EQ(exported(second_, "out").exit_code, 0);
    for (const auto& entry : std::filesystem::directory_iterator{folder_.path() / "out"})
        for (const char* words : {"Anna", "Robin", "closed at eight", "last year"})
            EXPECT_EQ(content_of(entry.path()).find(words), std::string::npos)
                << entry.path() << ": " << words;
    const event_file::Verdict verdict = kit::verdict_of(file("out/event.jsonl"));
    EXPECT_EQ(verdict.is, event_file::Verdict::Is::whole) << kit::told(verdict);
    const TestDatabase third;
    ASSERT_EQ(imported(folder_.path() / "out/event.jsonl", third).exit_code, 0);
    EXPECT_EQ(third.run("select count(*) from tournament_fact"), "27");
}

/// Names that a file came without were erased by nobody: whoever has the other file has them.
TEST_F(EventFiles, WhatWasLeftOutComesBackAsLeftOutAndWhatWasErasedAsErased) {
    const std::string left = "\"beside\":\"left out\"";
    const std::string erased = "\"beside\":\"erased\"";
    const auto count = [](const std::string& text, const std::string& words) {
        std::size_t found = 0;
        for (auto at = text.find(words); at != std::string::npos; at = text.find(words, at + 1))
            ++found;
        return found;
    };
    ASSERT_EQ(run_server_command({"erase", "--database", first_.dsn(), "--person", "7"}).exit_code,
              0);
    ASSERT_EQ(exported(first_, "out").exit_code, 0);
    const std::string once = file("out/event.jsonl");
    ASSERT_GT(count(once, left), 0U);
    ASSERT_GT(count(once, erased), 0U);
    const TestDatabase third;
    ASSERT_EQ(imported(folder_.path() / "out/event.jsonl", third).exit_code, 0);
    for (const char* more : {"", "--with-names"}) {
        const std::string to = std::string{"again"} + more;
        ASSERT_EQ(exported(third, to, more).exit_code, 0);
        EXPECT_EQ(file(to + "/event.jsonl"), once);
    }
}

TEST_F(EventFiles, AFolderThatIsThereIsLeftAlone) {
    std::filesystem::create_directory(folder_.path() / "out");
    std::ofstream{folder_.path() / "out" / "mine.txt"} << "mine";
    const auto result = exported(first_, "out");
    EXPECT_EQ(result.exit_code, 1);
    EXPECT_NE(result.output.find("not empty; name another folder"), std::string::npos)
        << result.output;
    EXPECT_EQ(file("out/mine.txt"), "mine");
    std::filesystem::directory_iterator all{folder_.path()};
    EXPECT_EQ(std::distance(begin(all), end(all)), 1);
}

TEST_F(EventFiles, BroughtElsewhereItGivesTheSameBytes) {
    ASSERT_EQ(exported(first_, "out", "--with-names").exit_code, 0);
    const auto result = imported(folder_.path() / "out/event.jsonl", second_);
    ASSERT_EQ(result.exit_code, 0) << result.output;
    ASSERT_EQ(exported(second_, "again", "--with-names").exit_code, 0);
    for (const auto& entry : std::filesystem::directory_iterator{folder_.path() / "out"}) {
        const std::string name = entry.path().filename().string();
        EXPECT_TRUE(file("out/" + name) == file("again/" + name)) << name;
    }
}

TEST_F(EventFiles, WhatLiesOnABranchComesAlong) {
    {
        postgres::Database connections{first_.dsn()};
        postgres::PgMatchStore store{connections};
        testing::keep_branch(store);
    }
    ASSERT_EQ(exported(first_, "out", "--with-names").exit_code, 0);
    const event_file::Verdict verdict = kit::verdict_of(file("out/event.jsonl"));
    EXPECT_EQ(verdict.is, event_file::Verdict::Is::whole) << kit::told(verdict);
    EXPECT_EQ(verdict.entries, 5U);
    EXPECT_EQ(verdict.beside, 2U);
    const auto result = imported(folder_.path() / "out/event.jsonl", second_);
    ASSERT_EQ(result.exit_code, 0) << result.output;
    EXPECT_NE(result.output.find("5 entries, and 2 on branches"), std::string::npos)
        << result.output;
    const std::string kept =
        "select string_agg(concat_ws(' ', match_id, branch, number, epoch, device_id, entry_id, "
        "hash, bytes, previous), E'\\n' order by position) from branch";
    EXPECT_NE(first_.run(kept), "");
    EXPECT_EQ(first_.run(kept), second_.run(kept));
    const std::string counts = "select branches, branch_entries from match";
    EXPECT_EQ(first_.run(counts), second_.run(counts));
    ASSERT_EQ(exported(second_, "again", "--with-names").exit_code, 0);
    EXPECT_TRUE(file("out/event.jsonl") == file("again/event.jsonl"));
    // Of two that differ in a branch alone, one is not taken for the other.
    EXPECT_EQ(imported(folder_.path() / "out/event.jsonl", second_).exit_code, 0);
    second_.run("delete from branch where number = 5");
    const auto differs = imported(folder_.path() / "out/event.jsonl", second_);
    EXPECT_EQ(differs.exit_code, 1);
    EXPECT_NE(differs.output.find("its records are not those of the file"), std::string::npos)
        << differs.output;
}

TEST_F(EventFiles, AServerShowsTheBranchThatWasBroughtIn) {
    {
        postgres::Database connections{first_.dsn()};
        postgres::PgMatchStore store{connections};
        testing::keep_branch(store);
    }
    ASSERT_EQ(exported(first_, "out").exit_code, 0);
    ASSERT_EQ(imported(folder_.path() / "out/event.jsonl", second_).exit_code, 0);
    testing::ServerProcess server{{second_.dsn(), {}, 0, {}}};
    EXPECT_EQ(server.stop(), 0);
    postgres::Database connections{second_.dsn()};
    postgres::PgMatchStore store{connections};
    const auto match = value_or_throw(store.matches(testing::tournament)).front();
    EXPECT_EQ(match.branches, (std::vector<std::uint32_t>{1}));
}

TEST_F(EventFiles, AMatchWhoseResultIsConfirmedIsSoThereToo) {
    first_.run("update match set status = 4");
    ASSERT_EQ(exported(first_, "out").exit_code, 0);
    const auto result = imported(folder_.path() / "out/event.jsonl", second_);
    ASSERT_EQ(result.exit_code, 0) << result.output;
    EXPECT_EQ(second_.run("select distinct status from match"), "4");
}

TEST_F(EventFiles, AServerRunsOnWhatWasBroughtIn) {
    ASSERT_EQ(exported(first_, "out").exit_code, 0);
    ASSERT_EQ(imported(folder_.path() / "out/event.jsonl", second_).exit_code, 0);
    testing::ServerProcess server{{second_.dsn(), {}, 0, {}}};
    EXPECT_EQ(server.stop(), 0);
    EXPECT_EQ(second_.run("select count(*) from tournament"), "1");
    EXPECT_EQ(second_.run("select last_number from match"), "5");
}

TEST_F(EventFiles, WhatWasBroughtInHasNoEarlierDeskToMove) {
    ASSERT_EQ(exported(first_, "out").exit_code, 0);
    ASSERT_EQ(imported(folder_.path() / "out/event.jsonl", second_).exit_code, 0);
    EXPECT_EQ(second_.run("select count(*) from tournament where desk_moved_at is null"), "0");
    const std::string facts = second_.run("select count(*) from tournament_fact");
    testing::ServerProcess server{{second_.dsn(), {}, 0, {}}};
    EXPECT_EQ(server.stop(), 0);
    EXPECT_EQ(second_.run("select count(*) from tournament_fact"), facts);
}

TEST_F(EventFiles, APipeIsRefusedBecauseItCanBeReadOnlyOnce) {
    ASSERT_EQ(exported(first_, "out").exit_code, 0);
    const std::filesystem::path pipe = folder_.path() / "pipe";
    ASSERT_EQ(mkfifo(pipe.c_str(), 0600), 0);
    // Open at both ends: neither the program nor this test waits for the other.
    const int end = open(pipe.c_str(), O_RDWR | O_NONBLOCK | O_CLOEXEC);
    ASSERT_GE(end, 0);
    const auto result = imported(pipe, second_);
    close(end);
    EXPECT_EQ(result.exit_code, 1);
    EXPECT_NE(result.output.find("is no regular file"), std::string::npos) << result.output;
    EXPECT_EQ(imported(folder_.path(), second_).exit_code, 1) << "nor is a folder one";
    EXPECT_EQ(imported(folder_.path() / "out/event.jsonl", second_).exit_code, 0);
}

TEST_F(EventFiles, AWrongHashSaysWhichFactAndKeepsNothing) {
    ASSERT_EQ(exported(first_, "out").exit_code, 0);
    std::string text = file("out/event.jsonl");
    const auto place = text.find("\"bytes\":\"", text.find("{\"fact\":5,")) + 60;
    text[place] = text[place] == 'A' ? 'B' : 'A';
    std::ofstream{folder_.path() / "changed.jsonl", std::ios::binary} << text;
    const auto result = imported(folder_.path() / "changed.jsonl", second_);
    EXPECT_EQ(result.exit_code, 1);
    EXPECT_NE(result.output.find("changed.jsonl:6: fact 5 was changed"), std::string::npos)
        << result.output;
    EXPECT_EQ(second_.run("select count(*) from tournament"), "0");
}

TEST_F(EventFiles, AnImportThatWasInterruptedLeavesNothingAndIsRunAgain) {
    ASSERT_EQ(exported(first_, "out").exit_code, 0);
    ASSERT_EQ(run_server_command({"migrate", "--database", second_.dsn()}).exit_code, 0);
    second_.run(
        "create function broken() returns trigger language plpgsql as $$ begin if new.number = 4 "
        "then raise exception 'the disk is full'; end if; return new; end $$");
    second_.run(
        "create trigger broken before insert on entry for each row execute "
        "function broken()");
    EXPECT_EQ(imported(folder_.path() / "out/event.jsonl", second_).exit_code, 1);
    for (const char* table : {"tournament", "tournament_fact", "match", "entry", "writer_epoch"})
        EXPECT_EQ(second_.run(std::string{"select count(*) from "} + table), "0") << table;
    second_.run("drop trigger broken on entry");
    EXPECT_EQ(imported(folder_.path() / "out/event.jsonl", second_).exit_code, 0);
    // Once more, as somebody does who did not see the answer.
    const auto again = imported(folder_.path() / "out/event.jsonl", second_);
    EXPECT_EQ(again.exit_code, 0) << again.output;
    EXPECT_NE(again.output.find("the database had them already"), std::string::npos)
        << again.output;
    EXPECT_EQ(second_.run("select count(*) from tournament_fact"), "23");
}

TEST_F(EventFiles, ADatabaseWithAnotherTournamentIsRefused) {
    ASSERT_EQ(exported(first_, "out").exit_code, 0);
    ASSERT_EQ(run_server_command({"migrate", "--database", second_.dsn()}).exit_code, 0);
    second_.run(
        "insert into tournament (tournament_id, name, generation) values "
        "(gen_random_uuid(), 'Spring Cup', gen_random_uuid())");
    const auto result = imported(folder_.path() / "out/event.jsonl", second_);
    EXPECT_EQ(result.exit_code, 1);
    EXPECT_NE(result.output.find("\"Spring Cup\"; name an empty database"), std::string::npos)
        << result.output;
}

TEST_F(EventFiles, AnotherCourseOfTheSameTournamentIsRefused) {
    ASSERT_EQ(exported(first_, "out").exit_code, 0);
    first_.run("delete from tournament_fact where number = 23");
    const auto result = imported(folder_.path() / "out/event.jsonl", first_);
    EXPECT_EQ(result.exit_code, 1);
    EXPECT_NE(result.output.find("its records are not those of the file"), std::string::npos)
        << result.output;
}

TEST_F(EventFiles, ErasedWordsAreGoneFromTheExportAndItHolds) {
    postgres::Database connections{first_.dsn()};
    postgres::PgMatchStore feed{connections};
    tournament::PgFactStore facts{connections, feed};
    const std::vector<tournament::FactNumber> person{12};
    EXPECT_EQ(value_or_throw(facts.erase_beside(tournament, person)), 1U);
    ASSERT_EQ(exported(first_, "out", "--with-names").exit_code, 0);
    for (const auto& entry : std::filesystem::directory_iterator{folder_.path() / "out"})
        EXPECT_EQ(content_of(entry.path()).find("Robin"), std::string::npos) << entry.path();
    const event_file::Verdict verdict = kit::verdict_of(file("out/event.jsonl"));
    EXPECT_EQ(verdict.is, event_file::Verdict::Is::whole) << kit::told(verdict);
}

TEST_F(EventFiles, NothingToExportIsSaid) {
    const auto result = exported(second_, "out");
    EXPECT_EQ(result.exit_code, 1);
    EXPECT_NE(result.output.find("there is no tournament in this database"), std::string::npos)
        << result.output;
}

}  // namespace
}  // namespace courthand::server
