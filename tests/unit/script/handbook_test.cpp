// The handbook lists every word that a script knows, so that a message may point to it. Run with
// COURTHAND_WRITE_HANDBOOK=1 it writes the list anew.
#include <gtest/gtest.h>

#include <fmt/format.h>

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "courthand/match/choices.h"
#include "courthand/rules/profile.h"
#include "courthand/rules/reason.h"
#include "script/fact_reader.h"
#include "script/words.h"

namespace courthand::script {
namespace {

constexpr std::string_view begins = "<!-- words -->\n";
constexpr std::string_view ends = "<!-- end of words -->";
constexpr std::size_t widest = 118;

std::string read_handbook() {
    std::ostringstream text;
    text << std::ifstream{COURTHAND_SCRIPT_HANDBOOK}.rdbuf();
    return text.str();
}

using WordList = std::vector<std::string>;

/// "**Verbs:** `serve` `rally` …", in lines that fit a page.
std::string listed(std::string_view title, const WordList& words) {
    std::string text = fmt::format("**{}:**", title);
    std::size_t width = text.size();
    for (const std::string& word : words) {
        const std::string shown = '`' + word + '`';
        const bool fits = width + 1 + shown.size() <= widest;
        text += (fits ? ' ' : '\n') + shown;
        width = fits ? width + 1 + shown.size() : shown.size();
    }
    return text + "\n\n";
}

template <class Table>
WordList of_table(const Table& table) {
    WordList words;
    for (const auto& row : table) words.emplace_back(row.word);
    return words;
}

template <Choice Value>
WordList of_choice() {
    return {choices<Value>.begin(), choices<Value>.end()};
}

WordList verbs() {
    WordList words{other_verbs.begin(), other_verbs.end()};
    for (const std::string_view verb : fact_verbs()) words.emplace_back(verb);
    return words;
}

WordList reasons() {
    WordList words;
    for (std::size_t i = 0; i < reason_count; ++i)
        words.emplace_back(describe(static_cast<Reason>(i)).word);
    return words;
}

std::string all_words() {
    WordList decisions = of_table(decision_words);
    decisions.emplace_back(moment_unknown_word);
    return "\n" + listed("Verbs", verbs()) + listed("After `expect`", of_table(expectation_words)) +
           listed("What must happen next", of_table(prompt_words)) +
           listed("Remedies", of_table(action_words)) + listed("Decisions", decisions) +
           listed("Causes", of_choice<Cause>()) + listed("Sanctions", of_choice<Sanction>()) +
           listed("Ways to go on", of_choice<Resumed::How>()) +
           listed("Scopes", of_choice<Incomplete::Scope>()) +
           listed("Signers", of_choice<Signer>()) + listed("Reason codes", reasons()) +
           listed("Profiles", profile_ids());
}

TEST(Handbook, ListsEveryWordThatAScriptKnows) {
    const std::string text = read_handbook();
    const std::size_t from = text.find(begins);
    const std::size_t to = text.find(ends);
    ASSERT_NE(from, std::string::npos);
    ASSERT_NE(to, std::string::npos);
    const std::size_t body = from + begins.size();
    const std::string expected = all_words();
    if (std::getenv("COURTHAND_WRITE_HANDBOOK") != nullptr) {
        std::ofstream{COURTHAND_SCRIPT_HANDBOOK} << text.substr(0, body) << expected
                                                 << text.substr(to);
        return;
    }
    EXPECT_EQ(text.substr(body, to - body), expected)
        << "SCRIPT.md is not current: run COURTHAND_WRITE_HANDBOOK=1 ctest -R '^script$'";
}

}  // namespace
}  // namespace courthand::script
