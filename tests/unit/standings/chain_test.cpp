// Chain files: the built-in ones read, every value with its source; mistakes are named with line
// and cure.
#include "courthand/standings/chain.h"

#include "pools.h"

namespace courthand::standings {
namespace {

TEST(Chain, EveryBuiltInFileIsReadAndNamesItsSources) {
    EXPECT_GE(chain_ids().size(), 7U);
    for (const std::string& id : chain_ids()) {
        const Chain c = chain(id);
        EXPECT_EQ(c.id, id);
        EXPECT_FALSE(c.source.empty()) << id;
        EXPECT_FALSE(c.edition.empty()) << id;
        for (const Step& s : c.steps) EXPECT_FALSE(s.source.empty()) << id;
        for (const Worth& w : c.worth) EXPECT_FALSE(w.source.empty()) << id;
    }
}

TEST(Chain, AnUnknownIdHasNoText) {
    EXPECT_TRUE(chain_text("house-rules").empty());
}

const std::string head = R"(id = "house"
title = "House chain"
source = "Harbour Cup tournament sheet"
edition = "2026"
after-split = { value = "restart", source = "Harbour Cup tournament sheet" }
mutual-among = { value = "still-tied", source = "Harbour Cup tournament sheet" }
last-resort = { value = "lot", source = "Harbour Cup tournament sheet" }
)";

std::string step(const std::string& lines) {
    return "[[step]]\nsource = \"Harbour Cup tournament sheet\"\n" + lines;
}

Faults faults_in(const std::string& text) {
    auto read = read_chain(text);
    if (auto* faults = std::get_if<Faults>(&read)) return *faults;
    return {};
}

struct Mistake {
    const char* name;
    std::string text;
    const char* place;
    const char* message;
};

void PrintTo(const Mistake& m, std::ostream* out) {
    *out << m.name;
}

class ChainMistake : public testing::TestWithParam<Mistake> {};

TEST_P(ChainMistake, IsNamedWithItsLineAndCure) {
    const Faults faults = faults_in(GetParam().text);
    ASSERT_FALSE(faults.empty());
    EXPECT_EQ(faults[0].place, GetParam().place) << faults[0].message;
    EXPECT_NE(faults[0].message.find(GetParam().message), std::string::npos) << faults[0].message;
    EXPECT_FALSE(faults[0].cure.empty());
}

INSTANTIATE_TEST_SUITE_P(
    Each, ChainMistake,
    testing::Values(
        Mistake{"NotToml", "id = house\n", "line 1", "not a TOML file"},
        Mistake{"NoSteps", head, "line 1", "the chain has no steps"},
        Mistake{
            "UnknownKey",
            head + "colour = \"red\"\n" + step("criterion = \"matches-won\"\nmatches = \"all\"\n"),
            "line 8", "unknown key \"colour\""},
        Mistake{"UnknownCriterion", head + step("criterion = \"goals\"\nmatches = \"all\"\n"),
                "line 8", "criterion cannot be \"goals\""},
        Mistake{"NeverSeparatesThree",
                head + step("criterion = \"last-match\"\nmatches = \"mutual\"\ntied = \"two\"\n"),
                "line 1", "never separates three teams or more"},
        Mistake{
            "NeverSeparatesTwo",
            head +
                step("criterion = \"matches-won\"\nmatches = \"all\"\ntied = \"three-or-more\"\n"),
            "line 1", "never separates two teams"},
        Mistake{"LastMatchOfThree",
                head + step("criterion = \"last-match\"\nmatches = \"mutual\"\n"), "line 8",
                "one between two teams"},
        Mistake{"SweepOfAllMatches",
                head + step("criterion = \"beat-all-others\"\nmatches = \"all\"\n"), "line 8",
                "counts the matches of level teams"},
        Mistake{"LastMatchOfAllMatches",
                head + step("criterion = \"last-match\"\nmatches = \"all\"\ntied = \"two\"\n"),
                "line 8", "counts the matches of level teams"},
        Mistake{"MatchPointsWithoutATable",
                head + step("criterion = \"match-points\"\nmatches = \"all\"\n"), "line 8",
                "match points without a table"}),
    [](const auto& tested) { return tested.param.name; });

TEST(Chain, ALargeFileIsRefused) {
    EXPECT_EQ(faults_in(std::string(70'000, '#'))[0].message, "too large for a chain");
}

TEST(Chain, StepsKeepTheirOrderAndSettings) {
    const Chain c = chain("us-junior-national");
    ASSERT_EQ(c.steps.size(), 6U);
    EXPECT_EQ(c.steps[2].criterion, Criterion::beat_all_others);
    EXPECT_EQ(c.steps[2].tied, Tied::three_or_more);
    EXPECT_TRUE(c.steps[5].play_off_if_cut);
    EXPECT_EQ(c.after_split, AfterSplit::restart);
    EXPECT_EQ(c.last_resort, Decider::play_off);
}

}  // namespace
}  // namespace courthand::standings
