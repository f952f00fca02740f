#include <gtest/gtest.h>

#include <set>

#include "courthand/rules/reason.h"

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

}  // namespace
}  // namespace courthand
