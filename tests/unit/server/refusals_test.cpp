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

}  // namespace
}  // namespace courthand::server
