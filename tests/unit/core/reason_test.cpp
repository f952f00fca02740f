#include <gtest/gtest.h>

#include <set>
#include <string>

#include "courthand/rules/reason.h"
#include "courthand/rules/remedy_words.h"

namespace courthand {
namespace {

TEST(Reason, WordsAreDistinctAndLeadBack) {
    std::set<std::string_view> words;
    for (std::size_t i = 0; i < reason_count; ++i) {
        const auto reason = static_cast<Reason>(i);
        const ReasonRow& row = describe(reason);
        EXPECT_EQ(reason_of(row.word), reason);
        EXPECT_TRUE(words.insert(row.word).second) << row.word;
        EXPECT_FALSE(row.text.empty()) << row.word;
    }
}

TEST(Reason, EachNamesARuleInAtLeastOneFamily) {
    for (std::size_t i = 0; i < reason_count; ++i) {
        const ReasonRow& row = describe(static_cast<Reason>(i));
        bool any = false;
        for (const std::string_view ref : row.reference) any |= !ref.empty();
        EXPECT_TRUE(any) << row.word;
    }
}

TEST(Reason, EachAlertIsMadeBySomeReason) {
    std::set<RuleAlert> made;
    for (const ReasonRow& row : reason_table) made.insert(row.alert);
    EXPECT_EQ(made.size(), rule_alert_count);
}

TEST(Reason, WhatIsSaidOnceCostsNothing) {
    for (const ReasonRow& row : reason_table)
        EXPECT_TRUE(row.life != Life::notice || row.costs == Costs::nothing) << row.word;
}

TEST(Reason, WhatMerelyIsSoEndsWhenItIsSoNoLonger) {
    for (const ReasonRow& row : reason_table) {
        if (row.life != Life::condition) continue;
        EXPECT_NE(row.lasts, Lasts::in_place) << row.word;
        EXPECT_NE(row.lasts, Lasts::until_answered) << row.word;
        EXPECT_NE(row.lasts, Lasts::on_the_sheet) << row.word;
    }
}

TEST(Reason, AnUnknownWordIsNone) {
    EXPECT_EQ(reason_of("libero-asleep"), std::nullopt);
}

// One wording for every seat: it names the team that is meant, and says what goes with the act.
TEST(Remedy, IsSaidWithTheTeamsItConcerns) {
    struct Said {
        Remedy remedy;
        const char* words;
    };
    const PerTeam<std::string> names{"Harbour Lights", "Mill Lane"};
    const Said all[] = {
        {{Action::point_and_service, Team::B}, "point and service to Mill Lane"},
        {{Action::point_and_service, Team::B, 1, false},
         "point and service to Mill Lane; 1 point of Harbour Lights cancelled"},
        {{Action::point_and_service, Team::B, 2, true},
         "point and service to Mill Lane; 2 points of Harbour Lights cancelled; the places before "
         "the fault are restored"},
        {{Action::undo, Team::A, 0, true},
         "the act is taken back, no sanction; the places before the fault are restored"},
        {{Action::delay_penalty, Team::A},
         "delay penalty for Harbour Lights: point and service to Mill Lane"},
        {{Action::incomplete, Team::A}, "Harbour Lights cannot go on"},
    };
    for (const Said& said : all) EXPECT_EQ(remedy_words(said.remedy, Team::A, names), said.words);
    std::set<std::string> words;
    for (int i = 0; i <= static_cast<int>(Action::ask); ++i)
        EXPECT_TRUE(words.insert(remedy_words({static_cast<Action>(i)}, Team::A, names)).second);
    EXPECT_EQ(words.count(""), 0U);
}

}  // namespace
}  // namespace courthand
