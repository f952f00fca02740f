// A kind of fact is taught to the script when it has a line, and people are told of it.
#include "event_script/event_lines.h"

#include <gtest/gtest.h>

#include <fstream>
#include <set>
#include <sstream>
#include <string>

#include "courthand/event/finding.h"
#include "event_of.h"
#include "event_script/fact_line.h"

namespace courthand::event {
namespace {

std::string handbook() {
    std::ostringstream text;
    text << std::ifstream{COURTHAND_EVENT_HANDBOOK}.rdbuf();
    return text.str();
}

TEST(EventLines, EveryVerbIsOfOneKind) {
    std::set<std::string_view> seen;
    for (const std::string_view verb : fact_verbs())
        EXPECT_TRUE(seen.insert(verb).second) << "two kinds begin with " << verb;
    EXPECT_EQ(seen.size(), kind_count);
}

TEST(EventLines, EveryVerbAndClauseStandsInTheHandbook) {
    const std::string text = handbook();
    ASSERT_FALSE(text.empty());
    for_each_kind([&](auto kind) {
        using Kind = typename decltype(kind)::type;
        const std::string verb{line_of<Kind>.verb};
        EXPECT_NE(text.find('`' + verb + ' '), std::string::npos)
            << "the handbook does not tell of " << verb;
        for (const Part& part : line_of<Kind>.says) {
            EXPECT_NE(text.find(std::string{part.word}), std::string::npos)
                << verb << ": the handbook does not tell of " << part.word;
        }
    });
}

/// As in a match script: courts change half-way of the deciding set.
TEST(EventLines, CourtsChangeHalfWayUnlessTheFormatSaysOtherwise) {
    const std::pair<const char*, int> formats[] = {{"best-of 3", 8},
                                                   {"best-of 3 deciding 25", 13},
                                                   {"best-of 1 points 21 deciding 21", 11},
                                                   {"best-of 3 deciding 25 switch 10", 10},
                                                   {"best-of 3 switch 10 deciding 25", 13}};
    for (const auto& [format, wanted] : formats) {
        const auto facts = testing::facts_of(
            "division U16 profile international-2021 chain us-event-sheet format " +
            std::string{format} + '\n');
        ASSERT_EQ(facts.size(), 1U);
        EXPECT_EQ(std::get<DivisionOpened>(facts.front()).format.format.switch_at, wanted)
            << format;
    }
}

TEST(EventLines, EveryFindingStandsInTheHandbook) {
    const std::string text = handbook();
    for (const std::string_view word : problem_words)
        EXPECT_NE(text.find('`' + std::string{word} + '`'), std::string::npos) << word;
}

}  // namespace
}  // namespace courthand::event
