// The streams a server knows: limits, age, revocation, without network.
#include <gtest/gtest.h>

#include <chrono>
#include <map>
#include <string>
#include <vector>

#include "server/auth/device_register.h"
#include "server/service/stream_registry.h"

namespace courthand::server::service {
namespace {

class Registry : public ::testing::Test {
  protected:
    StreamRegistry::Added open(DeviceId device, int name) {
        return streams.add(device, [this, name](const Status& why) { ended[name] = why; });
    }

    SteadyTime now{};
    StreamRegistry streams{[this] { return now; }};
    std::map<int, Status> ended;
    DeviceId one{new_uuid()};
    DeviceId two{new_uuid()};
};

TEST_F(Registry, TheOldestOfADeviceMakesRoom) {
    for (int i = 0; i < static_cast<int>(StreamRegistry::most_per_device); ++i)
        ASSERT_NE(open(one, i).token, 0U);
    ASSERT_NE(open(two, 100).token, 0U);
    EXPECT_TRUE(ended.empty());
    ASSERT_NE(open(one, 8).token, 0U);
    ASSERT_EQ(ended.size(), 1U);
    EXPECT_EQ(ended.at(0).code, StatusCode::exhausted);
    // The first is still going down when the next comes: the second makes room, not it again.
    ASSERT_NE(open(one, 9).token, 0U);
    EXPECT_EQ(ended.size(), 2U);
    EXPECT_TRUE(ended.contains(1));
}

TEST_F(Registry, AltogetherTheyAreLimitedToo) {
    for (std::size_t i = 0; i < StreamRegistry::most_streams; ++i)
        ASSERT_NE(open(DeviceId{new_uuid()}, 0).token, 0U);
    const auto refused = open(one, 1);
    EXPECT_EQ(refused.token, 0U);
    EXPECT_EQ(refused.refusal.code, StatusCode::exhausted);
    EXPECT_NE(refused.refusal.text().find("try again"), std::string::npos);
}

TEST_F(Registry, ARevokedDeviceIsTurnedAwayAlsoWhenItsCallWasOnTheWay) {
    ASSERT_NE(open(one, 1).token, 0U);
    ASSERT_NE(open(two, 2).token, 0U);
    streams.end_device(one, Status::failed(StatusCode::not_enrolled, "withdrawn"));
    EXPECT_EQ(ended.size(), 1U);
    EXPECT_EQ(open(one, 3).refusal.code, StatusCode::not_enrolled);
    EXPECT_NE(open(two, 4).token, 0U);
}

TEST_F(Registry, AStreamDoesNotGetOlderThanADay) {
    ASSERT_NE(open(one, 1).token, 0U);
    now += StreamRegistry::most_age - std::chrono::seconds{1};
    ASSERT_NE(open(one, 2).token, 0U);
    streams.tidy();
    EXPECT_TRUE(ended.empty());
    now += std::chrono::seconds{1};
    streams.tidy();
    EXPECT_EQ(ended.size(), 1U);
    EXPECT_EQ(ended.at(1).code, StatusCode::unavailable);
}

TEST_F(Registry, WhatDoesNotEndInTimeIsBrokenOffOnce) {
    int cut = 0;
    const auto added = streams.add(
        one, [](const Status&) {}, [&] { ++cut; });
    ASSERT_NE(added.token, 0U);
    streams.end_device(one, Status::failed(StatusCode::not_enrolled, "withdrawn"));
    streams.tidy();
    EXPECT_EQ(cut, 0) << "it may still say why";
    now += StreamRegistry::patience;
    streams.tidy();
    streams.tidy();
    EXPECT_EQ(cut, 1);
}

// At whatever moment between two looks the desk withdraws it, at this server or at another.
TEST_F(Registry, AStreamThatReadsNothingIsGoneASecondAfterItsDeviceWasWithdrawn) {
    using std::chrono::milliseconds;
    const milliseconds look = auth::DeviceRegister::look_every;
    for (milliseconds before{0}; before < look; before += milliseconds{50}) {
        SCOPED_TRACE(before.count());
        const DeviceId lost{new_uuid()};
        bool told = false;
        bool cut = false;
        const auto added = streams.add(
            lost, [&](const Status&) { told = true; }, [&] { cut = true; });
        ASSERT_NE(added.token, 0U);
        const SteadyTime withdrawn = now;
        // As `DeviceRegister` goes on: it looks, and then tidies.
        for (now += look - before; !cut && now - withdrawn < std::chrono::seconds{10};
             now += look) {
            streams.end_device(lost, Status::failed(StatusCode::not_enrolled, "withdrawn"));
            ASSERT_TRUE(told);
            streams.tidy();
            if (cut) break;
        }
        EXPECT_TRUE(cut);
        EXPECT_LE(now - withdrawn, StreamRegistry::gone_within);
        streams.remove(added.token);
    }
}

TEST_F(Registry, ADeviceHasOnlySoManyConnections) {
    ConnectionLedger& connections = streams.connections();
    std::vector<ConnectionLedger::Entered> calls;
    for (std::size_t i = 0; i + 1 < ConnectionLedger::most_per_device; ++i)
        calls.push_back(connections.enter(one, "ipv4:192.0.2.7:" + std::to_string(i)));
    const auto stream = streams.add({one, "ipv4:192.0.2.7:100"}, [](const Status&) {});
    ASSERT_NE(stream.token, 0U);
    EXPECT_EQ(connections.open(one), ConnectionLedger::most_per_device);
    const auto refused = streams.add({one, "ipv4:192.0.2.7:101"}, [](const Status&) {});
    EXPECT_EQ(refused.token, 0U);
    EXPECT_EQ(refused.refusal.code, StatusCode::exhausted);
    EXPECT_NE(refused.refusal.text().find("close"), std::string::npos);
    EXPECT_FALSE(connections.enter(one, "ipv4:192.0.2.7:102").ok());
    EXPECT_NE(streams.add({one, "ipv4:192.0.2.7:100"}, [](const Status&) {}).token, 0U)
        << "a connection that is open already";
    EXPECT_NE(open(two, 1).token, 0U) << "another device has its own count";
    calls.pop_back();
    EXPECT_NE(streams.add({one, "ipv4:192.0.2.7:101"}, [](const Status&) {}).token, 0U);
}

TEST_F(Registry, AConnectionIsFreeWhenItsLastStreamIsGone) {
    const auto first = streams.add({one, "a"}, [](const Status&) {});
    const auto second = streams.add({one, "a"}, [](const Status&) {});
    streams.remove(first.token);
    EXPECT_EQ(streams.connections().open(one), 1U);
    streams.remove(second.token);
    EXPECT_EQ(streams.connections().open(one), 0U);
}

TEST_F(Registry, WhatIsRemovedIsNotEnded) {
    const auto added = open(one, 1);
    streams.remove(added.token);
    streams.end_all();
    EXPECT_TRUE(ended.empty());
    EXPECT_EQ(open(two, 2).refusal.code, StatusCode::unavailable);
}

}  // namespace
}  // namespace courthand::server::service
