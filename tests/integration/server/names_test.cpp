// A person's name goes from the database for good: by hand, and when it was kept for long enough.
#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <fstream>
#include <iterator>

#include "filled_event.h"
#include "server/testing/server_process.h"
#include "tests/testkit/eventually.h"
#include "tests/testkit/scratch_folder.h"

namespace courthand::server {
namespace {

namespace kit = event_file::kit;
using testing::run_server_command;
using testing::ServerProcess;
using testing::TestDatabase;

/// The small cup, played long ago, with one more person.
std::string old_cup() {
    std::string script = kit::small_cup();
    script.replace(script.find("2026-11-28"), 10, "2020-11-28");
    script.replace(script.find("2026-11-29"), 10, "2020-11-29");
    return script +
           "person 8 official words \"Kim of the hall\"\n"
           "roster \"Mill Lane\" numbers 1 2\n"
           "roster \"Mill Lane\" numbers 1 words \"Robin has sent number 2 home\"\n";
}

/// Everything that the database has, as somebody who copies it would see it.
std::string dump_of(const TestDatabase& database) {
    std::FILE* const pipe = popen(("pg_dump --inserts '" + database.dsn() + "' 2>&1").c_str(), "r");
    std::string text;
    std::array<char, 65536> buffer;
    while (const std::size_t size = std::fread(buffer.data(), 1, buffer.size(), pipe))
        text.append(buffer.data(), size);
    EXPECT_EQ(pclose(pipe), 0) << text.substr(0, 400);
    return text;
}

/// Words are kept as bytes, which a dump shows in hexadecimal digits.
bool stands_in(const std::string& dump, const std::string& words) {
    std::string hex;
    for (const char c : words) {
        constexpr const char* digits = "0123456789abcdef";
        hex += digits[static_cast<unsigned char>(c) >> 4];
        hex += digits[static_cast<unsigned char>(c) & 15];
    }
    return dump.find(words) != std::string::npos || dump.find(hex) != std::string::npos;
}

class Names : public ::testing::Test {
  protected:
    Names() { testing::fill(database_, old_cup()); }

    void expect_that_the_record_holds() {
        const auto result = run_server_command({"export", "--database", database_.dsn(), "--to",
                                                (folder_.path() / "out").string(), "--with-names"});
        ASSERT_EQ(result.exit_code, 0) << result.output;
        std::ifstream in{folder_.path() / "out" / "event.jsonl", std::ios::binary};
        const std::string file{std::istreambuf_iterator<char>{in}, {}};
        const event_file::Verdict verdict = kit::verdict_of(file);
        EXPECT_EQ(verdict.is, event_file::Verdict::Is::whole) << kit::told(verdict);
        EXPECT_EQ(file.find("Robin"), std::string::npos);
    }

    TestDatabase database_;
    testkit::ScratchFolder folder_;
};

TEST_F(Names, OfOnePersonAreErasedByHand) {
    ASSERT_TRUE(stands_in(dump_of(database_), "Robin of Mill Lane"));
    ASSERT_TRUE(stands_in(dump_of(database_), "Robin has sent number 2 home"));
    const auto result =
        run_server_command({"erase", "--database", database_.dsn(), "--person", "7"});
    EXPECT_EQ(result.exit_code, 0) << result.output;
    EXPECT_EQ(result.output, "2 names erased\n") << "a name, and a reason";
    const std::string dump = dump_of(database_);
    EXPECT_FALSE(stands_in(dump, "Robin"));
    EXPECT_TRUE(stands_in(dump, "Kim of the hall"));
    EXPECT_EQ(database_.run("select subject from audit where act = 'erase-names'"), "person 7");
    expect_that_the_record_holds();
}

TEST_F(Names, AreErasedByAServerThatStartsWhenTheyAreDue) {
    ServerProcess server{{database_.dsn(), {}, 0, {"--name-days", "30"}}};
    server.wait_for_log("names-erased");
    EXPECT_EQ(server.log().find("Robin"), std::string::npos);
    const std::string dump = dump_of(database_);
    EXPECT_FALSE(stands_in(dump, "Robin"));
    EXPECT_FALSE(stands_in(dump, "Kim of the hall"));
    EXPECT_TRUE(stands_in(dump, "the hall was closed at eight"));
    EXPECT_EQ(database_.run("select detail from audit where act = 'erase-names'"),
              "kept for 30 days after the event");
    expect_that_the_record_holds();
}

TEST_F(Names, AreKeptByAServerThatIsToldSo) {
    ServerProcess server{{database_.dsn(), {}, 0, {"--name-days", "0"}}};
    EXPECT_EQ(server.stop(), 0);
    EXPECT_TRUE(stands_in(dump_of(database_), "Robin of Mill Lane"));
}

TEST_F(Names, BeforeADayAreErasedByHand) {
    const auto early =
        run_server_command({"erase", "--database", database_.dsn(), "--names-before", "36500"});
    EXPECT_EQ(early.output, "0 names erased\n");
    const auto result =
        run_server_command({"erase", "--database", database_.dsn(), "--names-before", "90"});
    EXPECT_EQ(result.output, "3 names erased\n");
    EXPECT_FALSE(stands_in(dump_of(database_), "Robin"));
    EXPECT_EQ(run_server_command({"erase", "--database", database_.dsn()}).exit_code, 2);
}

}  // namespace
}  // namespace courthand::server
