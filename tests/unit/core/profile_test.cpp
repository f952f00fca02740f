// Profile files: the built-in ones read, and each kind of mistake is named with line and cure.
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <set>

#include "courthand/rules/profile.h"

namespace courthand {
namespace {

std::vector<ProfileError> errors_of(std::string_view text) {
    auto read = read_profile(text, &profile_text);
    if (auto* errors = std::get_if<std::vector<ProfileError>>(&read)) return *errors;
    return {};
}

TEST(Profile, EveryBuiltInFileIsReadWithoutError) {
    for (const std::string& id : profile_ids()) {
        const auto errors = errors_of(profile_text(id));
        EXPECT_TRUE(errors.empty())
            << id << " line " << errors[0].line << ": " << errors[0].message;
        ASSERT_NE(find_profile(id), nullptr) << id;
        EXPECT_EQ(find_profile(id)->id, id);
    }
}

TEST(Profile, EveryValueNamesItsSource) {
    for (const std::string& id : profile_ids())
        for (const ProfileValue& v : find_profile(id)->values)
            EXPECT_FALSE(v.source.empty()) << id << " " << v.key;
}

// What every profile says once it is read, with where it was read: moving a value from one edition
// to its parent must change no line. COURTHAND_WRITE_PROFILES=1 writes the file anew.
TEST(Profile, SaysWhatTheGoldenFileSays) {
    std::string all;
    for (const std::string& id : profile_ids())
        for (const ProfileValue& v : find_profile(id)->values)
            all += id + " " + v.key + " = " + v.value + " | " + v.source + "\n";
    if (std::getenv("COURTHAND_WRITE_PROFILES") != nullptr)
        std::ofstream{COURTHAND_PROFILES_GOLDEN, std::ios::binary} << all;
    std::ifstream file{COURTHAND_PROFILES_GOLDEN, std::ios::binary};
    const std::string golden{std::istreambuf_iterator<char>{file}, {}};
    EXPECT_TRUE(all == golden) << "a profile says something else than profiles.golden.txt";
}

// Editions of one family are one tree: one root each, and no value is written twice.
TEST(Profile, EveryFamilyHasOneRoot) {
    std::set<Family> roots;
    for (const std::string& id : profile_ids()) {
        const bool root = profile_text(id).find("\ninherits = ") == std::string::npos;
        EXPECT_TRUE(!root || roots.insert(find_profile(id)->rules.family).second) << id;
    }
    EXPECT_EQ(roots.size(), family_count);
}

constexpr std::string_view next_edition = R"(id = "harbour-2030"
inherits = "international-2021"
family = { value = "international", source = "Harbour Rules 2030" }
)";

TEST(Profile, AKeyReadAgainUnderTheSameRuleNamesTheNewBook) {
    const auto read =
        read_profile(std::string{next_edition} + "same-rule = [\"match.points\"]\n", &profile_text);
    const auto* profile = std::get_if<Profile>(&read);
    ASSERT_NE(profile, nullptr);
    const auto source = [&](std::string_view key) {
        return std::find_if(profile->values.begin(), profile->values.end(),
                            [&](const ProfileValue& v) { return v.key == key; })
            ->source;
    };
    EXPECT_EQ(source("match.points"), "Harbour Rules 2030, rule 6.2");
    EXPECT_EQ(source("match.lead"), "FIVB Official Volleyball Rules 2021-2024, rule 6.2")
        << "what was not read again keeps the book it was read in";
}

TEST(Profile, AKeyReadAgainMustHaveBeenReadInTheParentsBook) {
    for (const char* key : {"\"match.switch-at-long\"", "\"match.pionts\"", "7"}) {
        const auto errors = errors_of(std::string{next_edition} + "same-rule = [" + key + "]\n");
        ASSERT_EQ(errors.size(), 1U) << key;
        EXPECT_EQ(errors[0].line, 4U);
        EXPECT_FALSE(errors[0].cure.empty());
    }
    EXPECT_EQ(errors_of(std::string{next_edition} + "same-rule = true\n").size(), 1U);
}

TEST(Profile, AnUnknownIdIsNoProfile) {
    EXPECT_EQ(find_profile("beach-1998"), nullptr);
}

constexpr std::string_view house = R"(id = "harbour-cup"
title = "Harbour Cup"
inherits = "us-domestic-2014"

[match]
cap = { value = 27, source = "Harbour Cup tournament sheet" }
)";

TEST(Profile, AHouseProfileOverridesWhatItInherits) {
    const auto read = read_profile(house, &profile_text);
    const auto* profile = std::get_if<Profile>(&read);
    ASSERT_NE(profile, nullptr);
    EXPECT_EQ(profile->rules.format.cap, 27);
    EXPECT_EQ(profile->rules.substitutions, find_profile("us-domestic-2014")->rules.substitutions);
    EXPECT_NE(profile->hash, find_profile("us-domestic-2014")->hash);
}

/// The rules of the house profile with a few more lines, or those of nobody.
Rules rules_with(std::string_view lines) {
    const auto read = read_profile(std::string{house} + std::string{lines}, &profile_text);
    const auto* profile = std::get_if<Profile>(&read);
    EXPECT_NE(profile, nullptr) << lines;
    return profile == nullptr ? Rules{} : profile->rules;
}

TEST(Profile, AFixedNumberOfSetsMayBeEven) {
    const Rules rules = rules_with(
        "sets = { value = 2, source = \"memory\" }\n"
        "all-sets-played = { value = true, source = \"memory\" }\n");
    EXPECT_EQ(rules.format.sets, 2);
    EXPECT_EQ(rules.format.all_sets_played, 1);
}

TEST(Profile, ADecidingSetMayHaveACap) {
    const Rules rules = rules_with("deciding-cap = { value = 17, source = \"memory\" }\n");
    EXPECT_EQ(rules.format.deciding_cap, 17);
}

TEST(Profile, ALongDecidingSetChangesCourtsLater) {
    const Rules rules = rules_with("deciding-points = { value = 25, source = \"memory\" }\n");
    EXPECT_EQ(rules.format.switch_at, 13);
}

struct Mistake {
    const char* name;
    const char* line;  ///< put at line 7 of the house profile
    std::uint32_t at;
    const char* message;
};

class Mistakes : public ::testing::TestWithParam<Mistake> {};

TEST_P(Mistakes, AreNamedWithTheirLine) {
    const auto errors = errors_of(std::string{house} + GetParam().line + "\n");
    ASSERT_FALSE(errors.empty());
    EXPECT_EQ(errors[0].line, GetParam().at);
    EXPECT_NE(errors[0].message.find(GetParam().message), std::string::npos) << errors[0].message;
    EXPECT_FALSE(errors[0].cure.empty());
}

INSTANTIATE_TEST_SUITE_P(
    Table, Mistakes,
    ::testing::Values(
        Mistake{"UnknownKey", "pionts = { value = 21, source = \"memory\" }", 7, "match.pionts"},
        Mistake{"NoSource", "points = { value = 21 }", 7, "no value and source"},
        Mistake{"BareValue", "points = 21", 7, "no value and source"},
        Mistake{"OutOfBounds", "points = { value = 210, source = \"memory\" }", 7, "cannot be 210"},
        Mistake{"WrongKind", "points = { value = \"many\", source = \"memory\" }", 7,
                "cannot be many"},
        Mistake{"Fraction", "points = { value = 21.5, source = \"memory\" }", 7, "cannot be 21.5"},
        Mistake{"List", "points = { value = [21, 25], source = \"memory\" }", 7, "cannot be"},
        Mistake{"NotToml", "points = = 3", 7, "not a TOML file"},
        Mistake{"CapBelowPoints", "points = { value = 28, source = \"memory\" }", 7,
                "match.cap is below"},
        Mistake{"NotTrueOrFalse", "all-sets-played = { value = 1, source = \"memory\" }", 7,
                "cannot be 1"},
        Mistake{"BelowBounds", "points = { value = 0, source = \"memory\" }", 7, "cannot be 0"},
        Mistake{"SourceIsNoText", "points = { value = 21, source = 3 }", 7, "no value and source"},
        Mistake{"EmptySource", "points = { value = 21, source = \"\" }", 7, "no value and source"},
        Mistake{"OnlySource", "points = { source = \"memory\" }", 7, "no value and source"},
        Mistake{"UnknownWord", "[libero]\ndesignation = { value = \"never\", source = \"memory\" }",
                8, "cannot be never"},
        Mistake{"WordIsNoText", "[libero]\ndesignation = { value = true, source = \"memory\" }", 8,
                "cannot be true"},
        Mistake{"ExceptionWithoutServing",
                "[libero]\nserving-positions = { value = 0, source = \"memory\" }", 8,
                "serve-exception without"},
        Mistake{"ChoiceOfOne", "[libero]\nper-set = { value = 1, source = \"memory\" }", 8,
                "match-or-set"},
        Mistake{"DecidingCap", "deciding-cap = { value = 10, source = \"memory\" }", 7,
                "deciding-cap is below"},
        Mistake{"SwitchTooLate", "switch-at = { value = 15, source = \"memory\" }", 7,
                "switch-at is not below"},
        Mistake{"StartTooHigh",
                "start-score = { value = 20, source = \"memory\" }\npoints = { value = 20, source "
                "= \"memory\" }",
                8, "start-score is not below"},
        Mistake{"EvenSets", "sets = { value = 4, source = \"memory\" }", 7, "even"}),
    [](const auto& row) { return row.param.name; });

TEST(Profile, AMissingKeyIsNamed) {
    const auto errors = errors_of("id = \"bare\"\n");
    ASSERT_FALSE(errors.empty());
    EXPECT_NE(errors[0].message.find("missing key"), std::string::npos);
    EXPECT_EQ(errors[0].line, 1U);
}

TEST(Profile, AMissingKeyBelongsInItsTable) {
    std::string text = profile_text("international-2021");
    const std::string gone = "cap = { value = 0";
    const std::size_t at = text.find(gone);
    ASSERT_NE(at, std::string::npos);
    text.erase(at, text.find('\n', at) + 1 - at);
    const auto errors = errors_of(text);
    ASSERT_EQ(errors.size(), 1U);
    EXPECT_NE(errors[0].message.find("missing key \"match.cap\""), std::string::npos);
    const auto table =
        std::count(text.begin(), text.begin() + static_cast<long>(text.find("[match]")), '\n');
    const auto next =
        std::count(text.begin(), text.begin() + static_cast<long>(text.find("[roster]")), '\n');
    EXPECT_GT(errors[0].line, table + 1);
    EXPECT_LE(errors[0].line, next);
}

TEST(Profile, AnUnknownParentIsNamed) {
    const auto errors = errors_of("id = \"x\"\ninherits = \"nobody\"\n");
    ASSERT_EQ(errors.size(), 1U);
    EXPECT_EQ(errors[0].line, 2U);
    EXPECT_NE(errors[0].message.find("nobody"), std::string::npos);
    auto read = read_profile("id = \"x\"\ninherits = \"y\"\n", nullptr);
    EXPECT_TRUE(std::holds_alternative<std::vector<ProfileError>>(read));
}

TEST(Profile, AProfileWithoutAnIdIsRefused) {
    const auto errors = errors_of("title = 3\ninherits = \"us-domestic-2014\"\n");
    EXPECT_TRUE(errors.empty() || errors[0].message.find("no id") != std::string::npos);
}

TEST(Profile, ACircleOfInheritanceIsRefused) {
    const auto self = [](std::string_view) {
        return std::string{"id = \"x\"\ninherits = \"x\"\n"};
    };
    auto read = read_profile("id = \"x\"\ninherits = \"x\"\n", self);
    EXPECT_TRUE(std::holds_alternative<std::vector<ProfileError>>(read));
}

}  // namespace
}  // namespace courthand
