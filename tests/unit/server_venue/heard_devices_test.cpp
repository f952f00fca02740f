// When devices were heard last, here and at the other servers of the venue.
#include "server/venue/heard_devices.h"

#include <gtest/gtest.h>

namespace courthand::server::venue {
namespace {

using Heard = HeardDevices::Heard;
using std::chrono::seconds;

/// So long after the start of the test, on both clocks.
alerts::Now at(seconds time) {
    return {alerts::Instant{} + time, alerts::Steady{} + time};
}

const DeviceId table{new_uuid()};
const DeviceId other{new_uuid()};

std::optional<seconds> last(const HeardDevices& devices, DeviceId device) {
    const auto heard = devices.last(device);
    if (!heard) return std::nullopt;
    return std::chrono::duration_cast<seconds>(heard->steady.time_since_epoch());
}

TEST(HeardDevices, TheNewestOfAllServersCounts) {
    HeardDevices here;
    EXPECT_FALSE(here.last(table));
    here.heard({table, 1, at(seconds{10})});
    here.learn({}, {{table, 1, at(seconds{4})}, {other, 2, at(seconds{7})}});
    EXPECT_EQ(last(here, table), seconds{10}) << "heard here since";
    EXPECT_EQ(last(here, other), seconds{7});
    here.learn({}, {{table, 1, at(seconds{15})}});
    EXPECT_EQ(last(here, table), seconds{15});
    EXPECT_EQ(last(here, other), seconds{7}) << "not forgotten";
}

TEST(HeardDevices, WhatWasHeardIsToldOnceAndWhatWasLearntIsNot) {
    HeardDevices here;
    here.heard({table, 1, at(seconds{10})});
    const std::vector<Heard> told = here.untold();
    ASSERT_EQ(told.size(), 1U);
    EXPECT_EQ(told.front().device, table);
    here.learn(told, {{table, 1, at(seconds{10})}, {other, 2, at(seconds{7})}});
    EXPECT_TRUE(here.untold().empty());
    // Heard again while the first was told.
    here.heard({table, 1, at(seconds{11})});
    here.learn(told, {});
    ASSERT_EQ(here.untold().size(), 1U);
    EXPECT_EQ(here.untold().front().at.steady, at(seconds{11}).steady);
}

TEST(HeardDevices, NewsIsTakenOnceAndTheSameMomentReadBackIsNone) {
    HeardDevices here;
    here.heard({table, 1, at(seconds{10})});
    EXPECT_EQ(here.take_news().size(), 1U);
    alerts::Now back = at(seconds{10});
    back.steady += std::chrono::milliseconds{3};
    here.learn(here.untold(), {{table, 1, back}});
    EXPECT_TRUE(here.take_news().empty());
    here.learn({}, {{table, 1, at(seconds{12})}});
    ASSERT_EQ(here.take_news().size(), 1U);
    EXPECT_TRUE(here.take_news().empty());
}

TEST(HeardDevices, OfMoreThanAVenueHasTheOneHeardLongestAgoIsForgotten) {
    HeardDevices here;
    here.heard({table, 1, at(seconds{1})});
    for (std::size_t i = 0; i < HeardDevices::most; ++i)
        here.heard({DeviceId{new_uuid()}, 1, at(seconds{2})});
    EXPECT_FALSE(here.last(table));
    EXPECT_EQ(here.untold().size(), HeardDevices::most);
}

}  // namespace
}  // namespace courthand::server::venue
