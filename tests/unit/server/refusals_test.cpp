// Entries that were refused, for the people who can help.
#include "server/domain/refusals.h"

#include <gtest/gtest.h>

namespace courthand::server {
namespace {

TEST(RefusedEntries, OfOneDeviceHideNobodyElse) {
    Refusals refusals;
    const auto refuse = [&](DeviceId device, std::int64_t second) {
        refusals.refused({MatchId{new_uuid()}, device, 1, 1, Cause::other_court, "elsewhere",
                          ServerTime{std::chrono::seconds{second}}});
    };
    const DeviceId faulty{new_uuid()};
    for (std::int64_t i = 0; i < 2000; ++i) refuse(faulty, i);
    EXPECT_EQ(refusals.now().size(), Refusals::most_of_a_device);
    for (const auto& refusal : refusals.now())
        EXPECT_GE(refusal.since, ServerTime{std::chrono::seconds{1992}}) << "the oldest gave way";
    refuse(DeviceId{new_uuid()}, 1);
    EXPECT_EQ(refusals.now().size(), Refusals::most_of_a_device + 1);
}

// Two servers and what lies between them, by hand.
TEST(RefusedEntries, AreToldOnceAndTheOthersAreLearnt) {
    Refusals here;
    const Refusals::Refusal mine{
        MatchId{new_uuid()}, DeviceId{new_uuid()}, 1, 4, Cause::full, "full", ServerTime{}};
    const Refusals::Refusal theirs{
        MatchId{new_uuid()}, DeviceId{new_uuid()}, 2, 7, Cause::id_used, "used", ServerTime{}};
    here.refused(mine);
    const Refusals::Changes first = here.untold();
    ASSERT_EQ(first.size(), 1U);
    here.learn(first, {mine, theirs});
    EXPECT_TRUE(here.untold().empty());
    EXPECT_EQ(here.now().size(), 2U);
    here.taken(theirs.match, theirs.device);
    EXPECT_EQ(here.now().size(), 1U);
    const Refusals::Changes second = here.untold();
    ASSERT_EQ(second.size(), 1U);
    EXPECT_FALSE(second.begin()->second) << "it is no more";
    // Before that is told, an older reading must not bring it back.
    here.learn({}, {mine, theirs});
    EXPECT_EQ(here.now().size(), 1U);
    here.learn(second, {});
    EXPECT_TRUE(here.now().empty());
    here.taken(mine.match, mine.device);
    EXPECT_TRUE(here.untold().empty()) << "a push of what was never refused tells nothing";
}

// The first cause stayed, though the desk had cured it and another stood in the way by then.
TEST(RefusedEntries, AnotherCauseIsNewsAndALaterEntryIsNot) {
    Refusals refusals;
    Refusals::Refusal refusal{MatchId{new_uuid()}, DeviceId{new_uuid()}, 1, 4, Cause::unknown_match,
                              "unknown",           ServerTime{}};
    refusal.entry.value = new_uuid();
    refusals.refused(refusal);
    refusals.learn(refusals.untold(), refusals.now());
    Refusals::Refusal later = refusal;
    later.number = 9;
    later.entry.value = new_uuid();
    later.since += std::chrono::seconds{5};
    refusals.refused(later);
    EXPECT_TRUE(refusals.untold().empty());
    EXPECT_EQ(refusals.now(), std::vector{refusal}) << "the first is to be helped";
    later.cause = Cause::other_court;
    refusals.refused(later);
    ASSERT_EQ(refusals.untold().size(), 1U);
    ASSERT_EQ(refusals.now().size(), 1U);
    EXPECT_EQ(refusals.now().front().cause, Cause::other_court);
    EXPECT_EQ(refusals.now().front().number, 9U);
    EXPECT_EQ(refusals.now().front().since, refusal.since);
    Refusals::Refusal other_content = refusals.now().front();
    other_content.hash.fill(7);
    refusals.refused(other_content);
    EXPECT_EQ(refusals.now(), std::vector{other_content});
}

}  // namespace
}  // namespace courthand::server
