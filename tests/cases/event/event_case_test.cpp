// Runs every event script of this folder: its expectations must hold, and its first comment line
// must name a source or say that there is none.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "courthand/event/pool_table.h"
#include "courthand/event_script/event_replay.h"

namespace courthand::event {
namespace {

namespace fs = std::filesystem;

/// Fewer mean that some were lost.
constexpr std::size_t fewest_cases = 62;

std::vector<fs::path> case_files() {
    std::vector<fs::path> files;
    for (const auto& file : fs::recursive_directory_iterator{COURTHAND_EVENT_CASES})
        if (file.path().extension() == ".event") files.push_back(file.path());
    std::sort(files.begin(), files.end());
    return files;
}

std::string contents(const fs::path& path) {
    std::ostringstream text;
    text << std::ifstream{path, std::ios::binary}.rdbuf();
    return text.str();
}

std::string test_name(const fs::path& path) {
    std::string name = path.stem().string();
    for (char& c : name)
        if (std::isalnum(static_cast<unsigned char>(c)) == 0) c = '_';
    return name;
}

/// Published procedures and rules, or an honest word that there is none.
bool names_a_source(std::string_view source) {
    constexpr std::array<std::string_view, 16> known{
        "common practice, no source",
        "memory",
        "FIVB Official Volleyball Rules ",
        "FIVB formula of world events, ",
        "EuroVolley Women 2017, ",
        "World Championship 2018, men, ",
        "European confederation, published table ",
        "Results page of an international event of 2018",
        "Handbook of Pennsylvania district 3",
        "Handbook of a US region, adult pools",
        "Handbook of a circuit of international schools (MRISA)",
        "US junior national procedure sheet",
        "Event sheet of a US tournament",
        "Table rules of a Northern Irish league, nivb.com",
        "Tie-break page of a student league, mudvb.com",
        "learn.sdstate.edu"};
    return std::any_of(known.begin(), known.end(), [&](std::string_view word) {
        return source.substr(0, word.size()) == word;
    });
}

class EventCase : public ::testing::TestWithParam<fs::path> {};

TEST_P(EventCase, ComesOutAsExpected) {
    const auto read = read_event(contents(GetParam()));
    if (const auto* const e = std::get_if<ScriptError>(&read))
        FAIL() << fmt::format("{}:{}:{}: {}; {}", GetParam().string(), e->line, e->column,
                              e->message, e->cure);
    const auto& script = std::get<EventScript>(read);
    EXPECT_TRUE(names_a_source(script.source))
        << "the first comment line names no source: " << script.source;
    const bool expects = std::any_of(
        script.lines.begin(), script.lines.end(),
        [](const EventLine& line) { return std::holds_alternative<Expectation>(line.content); });
    EXPECT_TRUE(expects) << "a case without an expectation shows nothing";
    for (const Failure& f : failures(script))
        ADD_FAILURE_AT(GetParam().c_str(), static_cast<int>(f.line)) << f.expected << '\n'
                                                                     << f.found;
}

INSTANTIATE_TEST_SUITE_P(Cases, EventCase, ::testing::ValuesIn(case_files()),
                         [](const ::testing::TestParamInfo<fs::path>& file) {
                             return test_name(file.param);
                         });

TEST(EventCases, AreEnough) {
    EXPECT_GE(case_files().size(), fewest_cases);
}

/// "Finland 18-0 452-358": sets and points of a team as they are in the source's table.
std::string printed_sums(const standings::Pool& pool, const standings::Table& table,
                         std::size_t place) {
    const standings::TeamIndex team = table.places[place].teams.front();
    const standings::Record& r = table.records[team];
    return fmt::format("{} {}-{} {}-{}", pool.teams[team], r.sets_won, r.sets_lost, r.points_won,
                       r.points_lost);
}

/// Matches that are made up must give the sums that their source has, best team first.
TEST(EventCases, GiveThePublishedSums) {
    std::size_t tables = 0;
    for (const fs::path& path : case_files()) {
        if (path.filename().string().rfind("published-sums-", 0) != 0) continue;
        const auto read = read_event(contents(path));
        const auto& script = std::get<EventScript>(read);
        EventReplay replay{script};
        while (replay.next()) {
        }
        const standings::Pool pool = standings_pool(replay.state(), 0, 0);
        const auto table = std::get<standings::Table>(pool_table(replay.state(), 0, 0));
        std::string sums;
        for (std::size_t place = 0; place < table.places.size(); ++place)
            sums += (place == 0 ? "" : ", ") + printed_sums(pool, table, place);
        EXPECT_EQ(script.source.substr(script.source.find(": ") + 2), sums) << path.filename();
        ++tables;
    }
    EXPECT_EQ(tables, 4U);
}

/// Every finding that a fact of the desk can bring is shown by a case; the bounds on sizes are not
/// reached by hand.
TEST(EventCases, ShowEveryFinding) {
    std::set<Problem> seen{Problem::too_many};
    for (const fs::path& path : case_files()) {
        const auto read = read_event(contents(path));
        const auto* const script = std::get_if<EventScript>(&read);
        if (script == nullptr) continue;
        for (const EventLine& line : script->lines) {
            const auto* const e = std::get_if<Expectation>(&line.content);
            if (e != nullptr && e->kind == Expectation::Kind::finding) seen.insert(e->problem);
        }
    }
    for (std::size_t i = 0; i < problem_words.size(); ++i)
        EXPECT_TRUE(seen.contains(static_cast<Problem>(i)))
            << "no case expects " << problem_words[i];
}

}  // namespace
}  // namespace courthand::event
