// Two servers of one venue: a table that talks to one is alive at the other, too.
#include <gtest/gtest.h>

#include <chrono>

#include <grpcpp/grpcpp.h>

#include "device_kit.h"
#include "tests/testkit/eventually.h"

namespace courthand::server::testing {
namespace {

class TwoServers : public ::testing::Test {
  protected:
    /// Nothing: the other server has not heard of the device within the patience of a call.
    std::optional<std::int64_t> last_seen_at_other(const Device& device) {
        std::optional<std::int64_t> seen;
        EXPECT_TRUE(testkit::eventually([&] {
            v1::ListDevicesResponse devices;
            EXPECT_TRUE(
                call(*desk.desk, &v1::Desk::Stub::ListDevices, v1::ListDevicesRequest{}, devices)
                    .ok());
            for (const v1::Device& one : devices.devices())
                if (one.device_id() == to_bytes(device.enrolled.id.value) &&
                    one.last_seen_us() != 0)
                    seen = one.last_seen_us();
            return seen.has_value();
        }));
        return seen;
    }
    /// The table speaks with its server, as it does when it has nothing to send.
    static void speak(Device& device) {
        v1::FetchMatchRequest request;
        request.set_court(1);
        v1::FetchMatchResponse response;
        EXPECT_TRUE(call(*device.sync, &v1::Sync::Stub::FetchMatch, request, response).ok());
    }

    TestDatabase database;
    ServerProcess server{{database.dsn(), {}, 0, {}}};
    std::unique_ptr<ServerProcess> other = second_server(server);
    Device table = Device::at(server, auth::Seat::table, 1);
    Device spare = Device::at(*other, auth::Seat::table, 1);
    Device desk = Device::at(*other, auth::Seat::desk);
    Device head = Device::at(*other, auth::Seat::head);
};

TEST_F(TwoServers, ATableThatTalksToOneIsSeenAtTheOther) {
    const wire::Uuid match = new_match_id();
    const v1::Match opened = test_match(match, 1);
    push_all(table, TestRecord{match, table.enrolled.id}, &opened);
    speak(table);
    EXPECT_TRUE(last_seen_at_other(table));
    speak(table);
    BoardWatch board{head};
    EXPECT_TRUE(board.until([](const BoardWatch& watch) {
        const v1::CourtCard* card = watch.card(1);
        return card != nullptr && card->table_staffed();
    }));
}

// The other server called a living table silent beside the question whether a spare may go on.
TEST_F(TwoServers, BesideTheQuestionOfATakeOverStandsWhatEitherHeard) {
    TestRecord record{new_match_id(), table.enrolled.id};
    record.add_rallies(1);
    const v1::Match opened = test_match(record.match(), 1);
    push_all(table, record, &opened);
    v1::GrantWriterRequest ask;
    ask.set_match_id(record.match().to_bytes());
    ask.set_take_over(true);
    v1::GrantWriterResponse asked;
    ASSERT_TRUE(call(*spare.sync, &v1::Sync::Stub::GrantWriter, ask, asked).ok());
    ASSERT_EQ(asked.outcome(), v1::GrantWriterResponse::OUTCOME_ASKED);
    BoardWatch board{head};
    EXPECT_TRUE(board.until([](const BoardWatch& watch) {
        const v1::Alert* alert = watch.alert("take-over-asked");
        return alert != nullptr &&
               alert->text().find("was heard within the last minute") != std::string::npos;
    })) << board.alert("take-over-asked")->text();
}

TEST_F(TwoServers, WhatIsSharedIsOneRowForADeviceAndAgesOnTheDatabasesClock) {
    speak(table);
    ASSERT_TRUE(last_seen_at_other(table));
    const std::string row = " where device_id = '" + to_text(table.enrolled.id) + "'";
    EXPECT_EQ(database.run("select count(*) from device_seen" + row), "1");
    // A moment that the database's clock has not reached yet: it was set back.
    database.run("update device_seen set seen_at = now() + interval '1 hour'" + row);
    EXPECT_TRUE(testkit::eventually(
        [&] { return database.run("select seen_at <= now() from device_seen" + row) == "t"; }));
}

}  // namespace
}  // namespace courthand::server::testing
