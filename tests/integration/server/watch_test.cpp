// Watch = snapshot and stream in one call, with two clients over TLS.
#include <gtest/gtest.h>

#include "courthand/match/signatures.h"
#include "courthand/v1/desk.grpc.pb.h"
#include "server/testing/put_back.h"
#include "server/testing/server_process.h"
#include "server/testing/test_database.h"
#include "test_client.h"

namespace courthand::server::testing {
namespace {

class Watch : public ::testing::Test {
  protected:
    EnrolledDevice device(auth::Seat seat, std::uint32_t court) {
        return enrol_device(database_.dsn(), server_.data(), seat, court);
    }

    /// As the desk does.
    void move_to_court(const wire::Uuid& match, std::uint32_t court) {
        const EnrolledDevice desk = device(auth::Seat::desk, 0);
        const auto stub = v1::Desk::NewStub(grpc::CreateChannel(
            server_.address(),
            grpc::SslCredentials({desk.authority_pem, desk.key_pem, desk.certificate_pem})));
        v1::AssignCourtRequest request;
        request.set_match_id(match.to_bytes());
        request.set_court(court);
        v1::AssignCourtResponse response;
        grpc::ClientContext context;
        head_.prepare(context);
        const auto status = stub->AssignCourt(&context, request, &response);
        ASSERT_TRUE(status.ok()) << status.error_message();
    }

    TestDatabase database_;
    ServerProcess server_{ServerOptions{database_.dsn(), {}, 0, {}}};
    TestClient table_{server_.address(), device(auth::Seat::table, 1)};
    TestClient head_{server_.address(), device(auth::Seat::head, 0)};
};

v1::WatchRequest watch_court(std::uint32_t court) {
    v1::WatchRequest request;
    request.set_court(court);
    return request;
}

TEST_F(Watch, GivesASnapshotAndThenEveryEntryOnce) {
    TestRecord record{new_match_id(), table_.device().id};
    record.add_rallies(300);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(table_.push(record, 1, 500, &match).status.ok());
    TestWatch watch{head_, watch_court(1)};
    ASSERT_TRUE(watch.read_until([](const TestWatch& w) { return w.snapshot_complete; }));
    ASSERT_TRUE(table_.push(record, 501, 600).status.ok());
    ASSERT_TRUE(watch.read_until([](const TestWatch& w) { return w.entries.size() >= 600; }));
    EXPECT_EQ(watch.entries, record.bytes());
    const auto& part = watch.responses.front().snapshot();
    EXPECT_EQ(part.match().first().name(), "Harbour Lights");
    EXPECT_EQ(part.profile().profile_id(), "international-2025");
    EXPECT_NE(part.profile().hash(), 0u);
    EXPECT_EQ(part.writer().number(), 1u);
}

TEST_F(Watch, OfNothingIsOneCompletePartAndNewMatchesFollow) {
    TestWatch watch{head_, watch_court(1)};
    ASSERT_TRUE(watch.read());
    EXPECT_TRUE(watch.snapshot_complete);
    EXPECT_FALSE(watch.cursor.empty());
    TestRecord record{new_match_id(), table_.device().id};
    record.add_rallies(1);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(table_.push(record, 1, 2, &match).status.ok());
    ASSERT_TRUE(watch.read_until([](const TestWatch& w) { return w.entries.size() == 2; }));
    EXPECT_TRUE(watch.responses[1].has_change());
    EXPECT_EQ(watch.responses[1].change().match().match_id(), record.match().to_bytes());
}

TEST_F(Watch, ResumesAfterItsCursorWithoutGapOrDouble) {
    TestRecord record{new_match_id(), table_.device().id};
    record.add_rallies(10);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(table_.push(record, 1, 10, &match).status.ok());
    std::vector<std::string> entries;
    std::string cursor;
    {
        TestWatch watch{head_, watch_match(record.match())};
        ASSERT_TRUE(watch.read_until([](const TestWatch& w) { return w.snapshot_complete; }));
        entries = watch.entries;
        cursor = watch.cursor;
    }
    ASSERT_TRUE(table_.push(record, 11, 20).status.ok());
    TestWatch watch{head_, watch_match(record.match(), cursor)};
    ASSERT_TRUE(watch.read_until([](const TestWatch& w) { return w.entries.size() == 10; }));
    entries.insert(entries.end(), watch.entries.begin(), watch.entries.end());
    EXPECT_EQ(entries, record.bytes());
    EXPECT_FALSE(watch.snapshot_complete);
}

TEST_F(Watch, ResumesAfterARestartOfTheServer) {
    TestRecord record{new_match_id(), table_.device().id};
    record.add_rallies(10);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(table_.push(record, 1, 10, &match).status.ok());
    std::string cursor;
    {
        TestWatch watch{head_, watch_match(record.match())};
        ASSERT_TRUE(watch.read_until([](const TestWatch& w) { return w.snapshot_complete; }));
        cursor = watch.cursor;
    }
    server_.kill9();
    server_.start_again();
    ASSERT_TRUE(table_.push_until_answered(record, 11, 20).status.ok());
    TestWatch watch{head_, watch_match(record.match(), cursor)};
    ASSERT_TRUE(watch.read_until([](const TestWatch& w) { return w.entries.size() == 10; }));
    EXPECT_EQ(watch.entries.front(), record.bytes()[10]);
    EXPECT_FALSE(watch.resync);
}

TEST_F(Watch, WithACursorOfAnotherFeedIsToldToStartAgain) {
    TestRecord record{new_match_id(), table_.device().id};
    record.add_rallies(2);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(table_.push(record, 1, 4, &match).status.ok());
    for (const std::string& cursor : {std::string("rubbish"), std::string(25, '\1')}) {
        TestWatch watch{head_, watch_match(record.match(), cursor)};
        ASSERT_TRUE(watch.read_until([](const TestWatch& w) { return w.snapshot_complete; }));
        EXPECT_TRUE(watch.responses.front().has_resync());
        EXPECT_FALSE(watch.responses.front().resync().message().empty());
        EXPECT_EQ(watch.entries, record.bytes());
    }
}

TEST_F(Watch, AfterTheDatabaseWasPutBackStartsAgain) {
    TestRecord record{new_match_id(), table_.device().id};
    record.add_rallies(2);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(table_.push(record, 1, 4, &match).status.ok());
    std::string cursor;
    {
        TestWatch watch{head_, watch_match(record.match())};
        ASSERT_TRUE(watch.read_until([](const TestWatch& w) { return w.snapshot_complete; }));
        cursor = watch.cursor;
    }
    cursor.back() = static_cast<char>(cursor.back() + 50);  // a position that is not there
    TestWatch watch{head_, watch_match(record.match(), cursor)};
    ASSERT_TRUE(watch.read_until([](const TestWatch& w) { return w.snapshot_complete; }));
    EXPECT_TRUE(watch.resync);
    EXPECT_EQ(watch.entries, record.bytes());
}

// Fault 3.
TEST_F(Watch, OfADatabaseThatWentBackUnderARunningServerStartsAgain) {
    TestRecord record{new_match_id(), table_.device().id};
    record.add_rallies(5);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(table_.push(record, 1, 6, &match).status.ok());
    const std::string kept = database_.run("select feed_head from tournament");
    ASSERT_TRUE(table_.push(record, 7, 10).status.ok());
    TestWatch watch{head_, watch_match(record.match())};
    ASSERT_TRUE(watch.read_until([](const TestWatch& w) { return w.snapshot_complete; }));
    ASSERT_EQ(watch.entries.size(), 10u);

    put_back(database_, std::stoull(kept));
    record.cut_after(6);
    record.add_rallies(1);
    const auto pushed = table_.push_until_answered(record, 7, 8);
    ASSERT_TRUE(pushed.status.ok()) << pushed.status.error_message();
    EXPECT_EQ(pushed.response.results(0).outcome(), v1::PushResult::OUTCOME_APPENDED);
    EXPECT_EQ(pushed.response.head_seq(), 8u);

    ASSERT_TRUE(watch.read_until([](const TestWatch& w) { return w.resync; }));
    watch.entries.clear();
    ASSERT_TRUE(watch.read_until([](const TestWatch& w) { return w.entries.size() >= 8; }));
    EXPECT_EQ(watch.entries, record.bytes());
    EXPECT_EQ(table_.fetch_record(record.match()), record.bytes());
    server_.wait_for_log("event=feed-went-back");
}

// Fault 17: what a start reads does not grow with what was ever played.
TEST_F(Watch, AfterARestartOnlyMatchesInPlayAreFolded) {
    TestRecord over{new_match_id(), table_.device().id};
    over.add_rallies(20);
    over.add(Default{Team::B});
    const v1::Match first = test_match(over.match());
    ASSERT_TRUE(table_.push(over, 1, over.size(), &first).status.ok());
    EXPECT_EQ(server_.stop(), 0);
    EXPECT_EQ(database_.run("select count(*) from match_snapshot"), "1");
    server_.start_again();
    TestRecord played{new_match_id(), table_.device().id};
    played.add_rallies(3);
    const v1::Match second = test_match(played.match());
    ASSERT_TRUE(table_.push_until_answered(played, 1, 6, &second).status.ok());
    server_.kill9();
    server_.start_again();
    server_.wait_for_log("event=records-folded matches=1 entries=6 from_snapshots=1");

    // The match that rests is there for who asks, and goes on when its table does.
    EXPECT_EQ(table_.fetch_record(over.match()), over.bytes());
    TestWatch watch{head_, watch_match(over.match())};
    ASSERT_TRUE(watch.read_until([](const TestWatch& w) { return w.snapshot_complete; }));
    EXPECT_EQ(watch.entries, over.bytes());
    EXPECT_EQ(watch.responses.front().snapshot().match().status(), v1::MATCH_STATUS_FINISHED);
    const std::uint32_t before = over.size();
    for (const Signer signer : closing_signers) over.add(Signature{signer});
    ASSERT_TRUE(table_.push_until_answered(over, before + 1, over.size()).status.ok());
    ASSERT_TRUE(watch.read_until(
        [&](const TestWatch& w) { return w.entries.size() == over.bytes().size(); }));
    EXPECT_EQ(table_.fetch(over.match()).response.match().status(), v1::MATCH_STATUS_SIGNED);
}

TEST_F(Watch, OfACourtFollowsWhateverIsPlayedThere) {
    v1::WatchRequest request;
    request.set_court(7);
    TestWatch watch{head_, request};
    ASSERT_TRUE(watch.read());
    TestClient third{server_.address(), device(auth::Seat::table, 3)};
    TestClient seventh{server_.address(), device(auth::Seat::table, 7)};
    TestRecord elsewhere{new_match_id(), third.device().id};
    elsewhere.add_rallies(1);
    const v1::Match there = test_match(elsewhere.match(), 3);
    ASSERT_TRUE(third.push(elsewhere, 1, 2, &there).status.ok());
    TestRecord record{new_match_id(), seventh.device().id};
    record.add_rallies(2);
    const v1::Match here = test_match(record.match(), 7);
    ASSERT_TRUE(seventh.push(record, 1, 4, &here).status.ok());
    ASSERT_TRUE(watch.read_until([](const TestWatch& w) { return w.entries.size() >= 4; }));
    EXPECT_EQ(watch.entries, record.bytes());
}

TEST_F(Watch, OfAMatchEndsForATableWhenTheMatchLeavesItsCourt) {
    TestRecord record{new_match_id(), table_.device().id};
    record.add_rallies(4);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(table_.push(record, 1, 4, &match).status.ok());
    TestClient spare{server_.address(), device(auth::Seat::table, 1)};
    TestWatch looks_on{spare, watch_match(record.match())};
    TestWatch writes{table_, watch_match(record.match())};
    for (TestWatch* watch : {&looks_on, &writes})
        ASSERT_TRUE(watch->read_until([](const TestWatch& w) { return w.snapshot_complete; }));
    move_to_court(record.match(), 2);
    while (looks_on.read()) {
    }
    const grpc::Status end = looks_on.finish();
    EXPECT_EQ(end.error_code(), grpc::StatusCode::PERMISSION_DENIED) << end.error_message();
    EXPECT_NE(end.error_message().find("court 1"), std::string::npos) << end.error_message();
    // The device that writes it goes on.
    ASSERT_TRUE(table_.push(record, 5, record.size()).status.ok());
    EXPECT_TRUE(
        writes.read_until([&](const TestWatch& w) { return w.entries.size() == record.size(); }));
}

TEST_F(Watch, ABookmarkMovesTheCursorPastWhatWasNotWatched) {
    TestRecord watched{new_match_id(), table_.device().id};
    watched.add_rallies(1);
    const v1::Match match = test_match(watched.match());
    ASSERT_TRUE(table_.push(watched, 1, 2, &match).status.ok());
    TestWatch watch{head_, watch_match(watched.match())};
    ASSERT_TRUE(watch.read_until([](const TestWatch& w) { return w.snapshot_complete; }));
    const std::string before = watch.cursor;
    TestClient far{server_.address(), device(auth::Seat::table, 2)};
    TestRecord other{new_match_id(), far.device().id};
    other.add_rallies(5);
    const v1::Match elsewhere = test_match(other.match(), 2);
    ASSERT_TRUE(far.push(other, 1, 10, &elsewhere).status.ok());
    ASSERT_TRUE(
        watch.read_until([&](const TestWatch& w) { return w.responses.back().has_bookmark(); }));
    EXPECT_NE(watch.cursor, before);
    EXPECT_EQ(watch.entries, watched.bytes());
}

TEST_F(Watch, BranchesAreSentAsBranches) {
    TestClient other{server_.address(), device(auth::Seat::table, 1)};
    TestRecord record{new_match_id(), table_.device().id};
    record.add_rallies(1);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(table_.push(record, 1, 2, &match).status.ok());
    TestWatch watch{head_, watch_match(record.match())};
    ASSERT_TRUE(watch.read_until([](const TestWatch& w) { return w.snapshot_complete; }));
    TestRecord forked{record.match(), other.device().id};
    forked.add_rallies(1);
    ASSERT_TRUE(other.push(forked, 1, 2).status.ok());
    ASSERT_TRUE(watch.read_until([](const TestWatch& w) { return w.branch_entries.size() == 2; }));
    EXPECT_EQ(watch.branch_entries, forked.bytes());
    EXPECT_EQ(watch.entries, record.bytes());
}

TEST_F(Watch, OpenStreamsDoNotHoldUpACleanStop) {
    TestWatch one{head_, watch_court(1)};
    TestWatch two{table_, watch_court(1)};
    ASSERT_TRUE(one.read());
    ASSERT_TRUE(two.read());
    EXPECT_EQ(server_.stop(), 0);
    EXPECT_EQ(one.finish().error_code(), grpc::StatusCode::UNAVAILABLE);
    EXPECT_EQ(two.finish().error_code(), grpc::StatusCode::UNAVAILABLE);
    EXPECT_NE(server_.log().find("event=stopped"), std::string::npos);
}

TEST_F(Watch, OnOneServerShowsWhatWasPushedToAnother) {
    // Both share the database and the venue authority.
    ServerOptions options{database_.dsn(), server_.data() / "second", 0, {}};
    std::filesystem::create_directories(options.data);
    std::filesystem::copy(server_.data() / "authority", options.data / "authority",
                          std::filesystem::copy_options::recursive);
    ServerProcess second{options};
    TestClient elsewhere{second.address(), head_.device()};
    TestWatch watch{elsewhere, watch_court(1)};
    ASSERT_TRUE(watch.read());
    TestRecord record{new_match_id(), table_.device().id};
    record.add_rallies(50);
    const v1::Match match = test_match(record.match());
    for (std::uint32_t n = 1; n <= record.size(); ++n)
        ASSERT_TRUE(table_.push(record, n, n, &match).status.ok());
    ASSERT_TRUE(watch.read_until([](const TestWatch& w) { return w.entries.size() >= 100; }));
    EXPECT_EQ(watch.entries, record.bytes());
}

}  // namespace
}  // namespace courthand::server::testing
