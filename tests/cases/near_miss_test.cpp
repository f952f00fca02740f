// A reason is only shown by a pair: a case in which it is raised, and a near-miss, similar but
// legal. A near-miss names the reason it nearly meets right under its source:
//     # near-miss: libero-front-row
// families.txt says in which profile families there must be both.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <array>
#include <map>
#include <optional>
#include <set>
#include <sstream>

#include "case_folder.h"
#include "courthand/replay/replay.h"

namespace courthand {
namespace {

constexpr std::array<std::string_view, family_count> family_words{
    "international", "us-domestic", "us-high-school", "us-college-women"};
constexpr std::string_view near_miss_mark = "# near-miss: ";

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream in{text};
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    return lines;
}

bool begins_with(std::string_view text, std::string_view word) {
    return text.substr(0, word.size()) == word;
}

/// One script with what it shows.
struct Shown {
    std::string name;
    Script script;
    std::vector<std::string> nearly;  ///< words of the reasons it nearly meets
    bool stray_mark = false;          ///< a mark that does not stand under the source
};

Shown look_at(const std::filesystem::path& path) {
    const std::string text = contents(path);
    Shown shown{case_name(path), {}, {}, false};
    const std::variant<Script, ScriptError> read = read_script(text);
    if (const auto* const script = std::get_if<Script>(&read)) shown.script = *script;
    bool under_source = true;
    const std::vector<std::string> lines = lines_of(text);
    for (std::size_t i = 1; i < lines.size(); ++i) {
        const bool mark = begins_with(lines[i], near_miss_mark);
        if (!mark)
            under_source = false;
        else if (under_source)
            shown.nearly.push_back(lines[i].substr(near_miss_mark.size()));
        else
            shown.stray_mark = true;
    }
    return shown;
}

const std::vector<Shown>& all_shown() {
    static const std::vector<Shown> shown = [] {
        std::vector<Shown> all;
        for (const auto& path : case_files()) all.push_back(look_at(path));
        return all;
    }();
    return shown;
}

const Rules& rules_of(const Shown& shown) {
    return find_profile(shown.script.profile)->rules;
}

/// Reasons that a script expects to be raised, armed or open.
std::set<Reason> expected_reasons(const Script& script) {
    std::set<Reason> reasons;
    for (const ScriptLine& line : script.lines) {
        const auto* const e = std::get_if<Expectation>(&line.content);
        if (e != nullptr &&
            (e->kind == Expectation::Kind::armed || e->kind == Expectation::Kind::open ||
             e->kind == Expectation::Kind::raised))
            reasons.insert(e->reason);
    }
    return reasons;
}

/// Reasons that the judge raises anywhere in a script.
std::set<Reason> raised_reasons(const Shown& shown) {
    std::set<Reason> reasons;
    ScriptReplay replay{rules_of(shown), shown.script};
    while (replay.next()) {
        for (const Verdict& v : replay.raised()) reasons.insert(v.reason);
        for (const Verdict& v : replay.standing()) reasons.insert(v.reason);
    }
    return reasons;
}

bool ends_as_legal(const Script& script) {
    if (script.lines.empty()) return false;
    const auto* const last = std::get_if<Expectation>(&script.lines.back().content);
    return last != nullptr &&
           (last->kind == Expectation::Kind::legal || last->kind == Expectation::Kind::none);
}

TEST(NearMiss, IsLegalAndNeverMeetsItsReason) {
    for (const Shown& shown : all_shown()) {
        EXPECT_FALSE(shown.stray_mark) << shown.name << ": the mark stands right under the source";
        if (shown.nearly.empty()) continue;
        EXPECT_TRUE(ends_as_legal(shown.script))
            << shown.name << ": a near-miss ends with \"expect legal\" or \"expect none\"";
        const std::set<Reason> raised = raised_reasons(shown);
        for (const std::string& word : shown.nearly) {
            const std::optional<Reason> reason = reason_of(word);
            ASSERT_TRUE(reason.has_value()) << shown.name << ": no reason is called " << word;
            EXPECT_EQ(raised.count(*reason), 0U) << shown.name << " does meet " << word;
        }
    }
}

using Families = std::array<bool, family_count>;

struct FamilyTable {
    std::map<Reason, Families> rows;
    std::vector<std::string> mistakes;
};

std::optional<std::size_t> family_of(std::string_view word) {
    for (std::size_t f = 0; f < family_count; ++f)
        if (family_words[f] == word) return f;
    return std::nullopt;
}

void read_row(const std::string& line, FamilyTable& table) {
    std::istringstream words{line.substr(0, line.find('#'))};
    std::string word;
    if (!(words >> word)) return;
    const bool colon = word.back() == ':';
    const std::optional<Reason> reason =
        reason_of(std::string_view{word}.substr(0, word.size() - (colon ? 1 : 0)));
    if (!colon || !reason) {
        table.mistakes.push_back("not \"reason: families\": " + line);
        return;
    }
    Families families{};
    std::size_t named = 0;
    while (words >> word) {
        const std::optional<std::size_t> family = family_of(word);
        if (!family)
            table.mistakes.push_back("unknown family " + word + ": " + line);
        else
            families[*family] = true;
        ++named;
    }
    const bool comment = line.find('#') != std::string::npos;
    if (named == 0) table.mistakes.push_back("no family: " + line);
    if (named < family_count && !comment)
        table.mistakes.push_back("no word why a family is left out: " + line);
    if (!table.rows.emplace(*reason, families).second)
        table.mistakes.push_back("a second row: " + line);
}

FamilyTable family_table() {
    FamilyTable table;
    const std::filesystem::path file = std::filesystem::path{COURTHAND_CASES} / "families.txt";
    for (const std::string& line : lines_of(contents(file))) read_row(line, table);
    return table;
}

TEST(Families, HaveARowForEveryReason) {
    const FamilyTable table = family_table();
    for (const std::string& mistake : table.mistakes) ADD_FAILURE() << mistake;
    for (std::size_t i = 0; i < reason_count; ++i)
        EXPECT_EQ(table.rows.count(static_cast<Reason>(i)), 1U)
            << "families.txt has no row for " << describe(static_cast<Reason>(i)).word;
}

/// The first case and the first near-miss of a reason in each family.
struct Shelf {
    std::array<std::string, family_count> met{};
    std::array<std::string, family_count> nearly{};
};

std::map<Reason, Shelf> shelves() {
    std::map<Reason, Shelf> all;
    for (const Shown& shown : all_shown()) {
        if (shown.script.profile.empty()) continue;
        const auto family = static_cast<std::size_t>(rules_of(shown).family);
        for (const Reason reason : expected_reasons(shown.script))
            if (all[reason].met[family].empty()) all[reason].met[family] = shown.name;
        for (const std::string& word : shown.nearly)
            if (const std::optional<Reason> reason = reason_of(word))
                if (all[*reason].nearly[family].empty()) all[*reason].nearly[family] = shown.name;
    }
    return all;
}

TEST(Families, HaveACaseAndANearMissForEveryReasonThatDiffers) {
    std::map<Reason, Shelf> all = shelves();
    for (const auto& row : family_table().rows) {
        const std::string_view word = describe(row.first).word;
        for (std::size_t f = 0; f < family_count; ++f) {
            if (!row.second[f]) continue;
            EXPECT_FALSE(all[row.first].met[f].empty())
                << fmt::format("{}: no case in the family {}", word, family_words[f]);
            EXPECT_FALSE(all[row.first].nearly[f].empty())
                << fmt::format("{}: no near-miss in the family {}", word, family_words[f]);
        }
    }
}

}  // namespace
}  // namespace courthand
