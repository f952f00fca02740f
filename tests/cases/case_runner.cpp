// Runs every match script of this folder: its expectations must hold, and its first comment line
// must name a source.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <filesystem>

#include "case_folder.h"
#include "courthand/replay/replay.h"

namespace courthand {
namespace {

namespace fs = std::filesystem;

/// So many the rules core promises; fewer mean that some were lost.
constexpr std::size_t fewest_cases = 600;

/// "libero/front-row.match" as a name that a test may have.
std::string test_name(const fs::path& path) {
    std::string name = fs::relative(path, COURTHAND_CASES).replace_extension().string();
    for (char& c : name)
        if (std::isalnum(static_cast<unsigned char>(c)) == 0) c = '_';
    return name;
}

/// A source is a published rule or casebook with its edition, or says honestly that there is none.
bool names_a_source(std::string_view source) {
    constexpr std::array<std::string_view, 4> published{
        "FIVB Official Volleyball Rules ", "FIVB Casebook",
        "US national federation domestic rules, ", "US high school rules, "};
    constexpr std::array<std::string_view, 3> unpublished{"common practice, no source", "memory",
                                                          "US college women's rules, "};
    const auto begins = [&](std::string_view word) {
        return source.substr(0, word.size()) == word;
    };
    return std::any_of(published.begin(), published.end(), begins) ||
           std::any_of(unpublished.begin(), unpublished.end(), begins);
}

class MatchCase : public testing::TestWithParam<fs::path> {};

TEST_P(MatchCase, IsJudgedAsTheRulesSay) {
    const std::variant<Script, ScriptError> read = read_script(contents(GetParam()));
    if (const auto* const e = std::get_if<ScriptError>(&read))
        FAIL() << fmt::format("{}:{}:{}: {}; {}", GetParam().string(), e->line, e->column,
                              e->message, e->cure);
    const auto& script = std::get<Script>(read);
    EXPECT_TRUE(names_a_source(script.source))
        << "the first comment line names no source: " << script.source;
    const bool expects = std::any_of(
        script.lines.begin(), script.lines.end(),
        [](const ScriptLine& line) { return std::holds_alternative<Expectation>(line.content); });
    EXPECT_TRUE(expects) << "a case without an expectation shows nothing";
    for (const Failure& f : failures(find_profile(script.profile)->rules, script))
        ADD_FAILURE_AT(GetParam().c_str(), static_cast<int>(f.line)) << f.expected << '\n'
                                                                     << f.found;
}

INSTANTIATE_TEST_SUITE_P(Cases, MatchCase, testing::ValuesIn(case_files()),
                         [](const testing::TestParamInfo<fs::path>& file) {
                             return test_name(file.param);
                         });

TEST(CaseFolder, HoldsEnoughCases) {
    EXPECT_GE(case_files().size(), fewest_cases);
}

/// Reasons that some case expects to be raised, armed or open.
std::array<bool, reason_count> expected_reasons() {
    std::array<bool, reason_count> seen{};
    for (const fs::path& path : case_files()) {
        const std::variant<Script, ScriptError> read = read_script(contents(path));
        const auto* const script = std::get_if<Script>(&read);
        if (script == nullptr) continue;
        for (const ScriptLine& line : script->lines) {
            const auto* const e = std::get_if<Expectation>(&line.content);
            const bool verdict = e != nullptr && (e->kind == Expectation::Kind::armed ||
                                                  e->kind == Expectation::Kind::open ||
                                                  e->kind == Expectation::Kind::raised);
            if (verdict) seen[static_cast<std::size_t>(e->reason)] = true;
        }
    }
    return seen;
}

TEST(CaseFolder, HoldsACaseForEveryReason) {
    const std::array<bool, reason_count> seen = expected_reasons();
    for (std::size_t i = 0; i < reason_count; ++i)
        EXPECT_TRUE(seen[i]) << "no case expects " << describe(static_cast<Reason>(i)).word;
}

TEST(CaseFolder, HoldsACaseForEveryProfile) {
    std::vector<std::string> unseen = profile_ids();
    for (const fs::path& path : case_files()) {
        const std::variant<Script, ScriptError> read = read_script(contents(path));
        if (const auto* const script = std::get_if<Script>(&read))
            unseen.erase(std::remove(unseen.begin(), unseen.end(), script->profile), unseen.end());
    }
    EXPECT_TRUE(unseen.empty()) << "no case for " << (unseen.empty() ? "" : unseen.front());
}

}  // namespace
}  // namespace courthand
