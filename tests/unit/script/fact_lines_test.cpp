// A kind of fact is taught to the script when it has a line, and people are told of it.
#include "script/fact_lines.h"

#include <gtest/gtest.h>

#include <fstream>
#include <set>
#include <sstream>
#include <string>

#include "script/fact_reader.h"

namespace courthand::script {
namespace {

std::string handbook() {
    std::ostringstream text;
    text << std::ifstream{COURTHAND_SCRIPT_HANDBOOK}.rdbuf();
    return text.str();
}

TEST(FactLines, EveryVerbIsOfOneKind) {
    std::set<std::string_view> seen;
    for (const std::string_view verb : fact_verbs())
        EXPECT_TRUE(seen.insert(verb).second) << "two kinds begin with " << verb;
    EXPECT_GE(seen.size(), kind_count);
}

TEST(FactLines, EveryVerbStandsInTheHandbook) {
    const std::string text = handbook();
    ASSERT_FALSE(text.empty());
    for (const std::string_view verb : fact_verbs()) {
        const std::string begun = '`' + std::string{verb};
        EXPECT_TRUE(text.find(begun + ' ') != std::string::npos ||
                    text.find(begun + '`') != std::string::npos)
            << "SCRIPT.md does not tell of " << verb;
    }
}

TEST(FactLines, OneByHandSaysWhy) {
    for_each_kind([](auto kind) {
        using Kind = typename decltype(kind)::type;
        if constexpr (said_by_hand<Kind>) {
            EXPECT_FALSE(line_of<Kind>.why.empty()) << described<Kind>.name;
        }
    });
}

}  // namespace
}  // namespace courthand::script
