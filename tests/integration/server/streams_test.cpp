// Open streams: ended by a revocation on every server, and no more of them than a device needs.
#include <gtest/gtest.h>

#include <chrono>

#include "courthand/v1/desk.grpc.pb.h"
#include "courthand/v1/venue.grpc.pb.h"
#include "server/service/stream_registry.h"
#include "server/testing/server_process.h"
#include "server/testing/test_database.h"
#include "test_client.h"
#include "tests/testkit/eventually.h"

namespace courthand::server::testing {
namespace {

using testkit::eventually;

class Streams : public ::testing::Test {
  protected:
    EnrolledDevice device(auth::Seat seat, std::uint32_t court = 0) {
        return enrol_device(database_.dsn(), server_.data(), seat, court);
    }

    TestDatabase database_;
    ServerProcess server_{ServerOptions{database_.dsn(), {}, 0, {}}};
};

void revoke(TestClient& desk, const EnrolledDevice& device) {
    v1::RevokeDeviceRequest request;
    request.set_device_id(to_bytes(device.id.value));
    request.set_reason("lost");
    v1::RevokeDeviceResponse response;
    grpc::ClientContext context;
    desk.prepare(context);
    const auto status =
        v1::Desk::NewStub(desk.channel())->RevokeDevice(&context, request, &response);
    ASSERT_TRUE(status.ok()) << status.error_message();
}

v1::WatchRequest watch_court(std::uint32_t court) {
    v1::WatchRequest request;
    request.set_court(court);
    return request;
}

// S3: Sync streams stayed open, and the board heard only of revocations by its own process. Each of
// these reads would wait for ever if its stream did not end.
TEST_F(Streams, OfARevokedDeviceEndOnEveryServer) {
    const auto second = second_server(server_);
    const EnrolledDevice table = device(auth::Seat::table, 1);
    const EnrolledDevice head = device(auth::Seat::head);
    TestClient desk{server_.address(), device(auth::Seat::desk)};
    for (const std::string& address : {server_.address(), second->address()}) {
        SCOPED_TRACE(address);
        const EnrolledDevice lost = device(auth::Seat::table, 1);
        const EnrolledDevice lost_head = device(auth::Seat::head);
        TestClient client{address, lost};
        TestClient watcher{address, lost_head};
        TestWatch watch{client, watch_court(1)};
        ASSERT_TRUE(watch.read());
        grpc::ClientContext board_context;
        watcher.prepare(board_context);
        const auto board = v1::Venue::NewStub(watcher.channel())->WatchBoard(&board_context, {});
        v1::WatchBoardResponse news;
        ASSERT_TRUE(board->Read(&news));

        revoke(desk, lost);
        revoke(desk, lost_head);
        EXPECT_EQ(watch.finish().error_code(), grpc::StatusCode::UNAUTHENTICATED);
        while (board->Read(&news)) {
        }
        const grpc::Status ended = board->Finish();
        EXPECT_EQ(ended.error_code(), grpc::StatusCode::UNAUTHENTICATED);
        EXPECT_NE(ended.error_message().find("code"), std::string::npos) << "the cure";
        TestWatch again{client, watch_court(1)};
        EXPECT_EQ(again.finish().error_code(), grpc::StatusCode::UNAUTHENTICATED);
    }
    // Others are not touched.
    TestClient good{second->address(), table};
    TestWatch watch{good, watch_court(1)};
    EXPECT_TRUE(watch.read());
}

// S7: no limit on the streams of a device.
TEST_F(Streams, BeyondTheLimitOfADeviceTheOldestEndsWithTheCure) {
    TestClient table{server_.address(), device(auth::Seat::table, 1)};
    std::vector<std::unique_ptr<TestWatch>> watches;
    for (std::size_t i = 0; i <= service::StreamRegistry::most_per_device; ++i) {
        watches.push_back(std::make_unique<TestWatch>(table, watch_court(1)));
        ASSERT_TRUE(watches.back()->read()) << i;
    }
    const grpc::Status oldest = watches.front()->finish();
    EXPECT_EQ(oldest.error_code(), grpc::StatusCode::RESOURCE_EXHAUSTED);
    EXPECT_NE(oldest.error_message().find("close"), std::string::npos) << oldest.error_message();
    ASSERT_TRUE(watches[1]->read_until([](const TestWatch& watch) {
        return watch.responses.back().has_bookmark();
    })) << "the second oldest stays";
    TestClient other{server_.address(), device(auth::Seat::table, 1)};
    TestWatch theirs{other, watch_court(1)};
    EXPECT_TRUE(theirs.read()) << "another device has its own count";
}

/// The board of a head seat; true when an alert on refused entries comes to this state.
bool board_shows_refused(TestClient& head, v1::AlertState state) {
    grpc::ClientContext context;
    head.prepare(context);
    const auto board = v1::Venue::NewStub(head.channel())->WatchBoard(&context, {});
    v1::WatchBoardResponse news;
    bool shown = false;
    while (!shown && board->Read(&news)) {
        for (const v1::Alert& alert : news.alerts())
            shown = shown || (alert.code() == "entries-refused" && alert.state() == state);
    }
    context.TryCancel();
    return shown;
}

// Refused entries were shown only on the server that refused them.
TEST_F(Streams, WhatOneServerRefusedIsSeenAtTheOtherAndGoesWhenEitherTakesIt) {
    const auto second = second_server(server_);
    const EnrolledDevice device_of_table = device(auth::Seat::table, 1);
    const EnrolledDevice official = device(auth::Seat::head);
    TestClient at_first{server_.address(), device_of_table};
    TestClient at_second{second->address(), device_of_table};
    TestClient head_at_first{server_.address(), official};
    TestClient head_at_second{second->address(), official};
    const wire::Uuid match = new_match_id();
    TestRecord record{match, device_of_table.id};
    record.add_rallies(1);
    const auto refused = at_first.push(record, 1, 2);
    ASSERT_TRUE(refused.status.ok()) << refused.status.error_message();
    ASSERT_EQ(refused.response.results(0).outcome(), v1::PushResult::OUTCOME_INVALID);
    EXPECT_TRUE(board_shows_refused(head_at_first, v1::ALERT_STATE_OPEN));
    EXPECT_TRUE(board_shows_refused(head_at_second, v1::ALERT_STATE_OPEN));
    EXPECT_EQ(database_.run("select count(*) from refused_entry"), "1");

    const v1::Match opened = test_match(match, 1);
    const auto taken = at_second.push(record, 1, 2, &opened);
    ASSERT_TRUE(taken.status.ok()) << taken.status.error_message();
    EXPECT_TRUE(board_shows_refused(head_at_second, v1::ALERT_STATE_CLEARED));
    EXPECT_TRUE(board_shows_refused(head_at_first, v1::ALERT_STATE_CLEARED));
    EXPECT_EQ(database_.run("select count(*) from refused_entry"), "0");
}

// Whichever way the entry came into the record: the device that was refused need not say so.
TEST_F(Streams, ARefusedEntryThatAnotherDeviceHandsOnIsRefusedNoMore) {
    const EnrolledDevice maker = device(auth::Seat::table, 1);
    TestClient table{server_.address(), maker};
    TestClient spare{server_.address(), device(auth::Seat::table, 1)};
    const wire::Uuid match = new_match_id();
    TestRecord record{match, maker.id};
    record.add_rallies(1);
    ASSERT_TRUE(table.push(record, 1, 2).status.ok());
    const auto rows = [&] { return database_.run("select count(*) from refused_entry"); };
    ASSERT_TRUE(eventually([&] { return rows() == "1"; }));
    const v1::Match opened = test_match(match, 1);
    TestRecord nothing{match, maker.id};
    ASSERT_TRUE(spare.push(nothing, 1, 0, &opened).status.ok());
    ASSERT_TRUE(spare.hand_on(record, 1, 2, maker).status.ok());
    EXPECT_TRUE(eventually([&] { return rows() == "0"; }));
}

// S7: no limit on the connections of a device.
TEST_F(Streams, BeyondTheConnectionsOfADeviceACallIsRefusedWithTheCure) {
    const EnrolledDevice table = device(auth::Seat::table, 1);
    std::vector<std::unique_ptr<TestClient>> clients;
    std::vector<std::unique_ptr<TestWatch>> watches;
    for (std::size_t i = 0; i < service::ConnectionLedger::most_per_device; ++i) {
        clients.push_back(std::make_unique<TestClient>(server_.address(), table));
        watches.push_back(std::make_unique<TestWatch>(*clients.back(), watch_court(1)));
        ASSERT_TRUE(watches.back()->read()) << i;
    }
    TestClient more{server_.address(), table};
    TestWatch refused{more, watch_court(1)};
    const grpc::Status why = refused.finish();
    EXPECT_EQ(why.error_code(), grpc::StatusCode::RESOURCE_EXHAUSTED);
    EXPECT_NE(why.error_message().find("close the program"), std::string::npos)
        << why.error_message();
    const wire::Uuid match = new_match_id();
    const v1::Match opened = test_match(match, 1);
    TestRecord record{match, table.id};
    record.add_rallies(1);
    EXPECT_EQ(more.push(record, 1, 2, &opened).status.error_code(),
              grpc::StatusCode::RESOURCE_EXHAUSTED);
    EXPECT_EQ(more.fetch(match).status.error_code(), grpc::StatusCode::RESOURCE_EXHAUSTED);
    EXPECT_TRUE(clients.front()->push(record, 1, 2, &opened).status.ok())
        << "what is connected goes on";
    watches.pop_back();
    EXPECT_TRUE(eventually([&] { return more.fetch(match).status.ok(); }))
        << "one that is gone makes room";
}

}  // namespace
}  // namespace courthand::server::testing
