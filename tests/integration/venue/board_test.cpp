// From an entry at a table to the board of the head official, and back as a ruling.
#include <gtest/gtest.h>

#include <grpcpp/grpcpp.h>

#include "device_kit.h"

namespace courthand::server::testing {
namespace {

const std::string ready_to_serve =
    "# common practice, no source: a match ready to serve\n"
    "profile international-2025\n"
    "team A \"Harbour Lights\" players 1-6 11-14 21 22 captain 3\n"
    "team B \"Mill Lane\" players 31-38 41 captain 33\n"
    "toss serve A left A\n"
    "set 1\n"
    "lineup A 1 2 3 4 5 6 liberos 21 22\n"
    "lineup B 31 32 33 34 35 36 liberos 41 none\n"
    "checked A\nchecked B\n";
const std::string illegal_replacement =
    "libero A 21 for 5\nserve\nrally A\nlibero A 5 for 21\nlibero A 22 for 6\nserve\n";
constexpr const char* fault = "libero-no-completed-rally";

class BoardTest : public ::testing::Test {
  protected:
    void play(const std::string& script) {
        record = std::make_unique<TestRecord>(record_of(script, match, table.enrolled.id));
        push_all(table, *record, &opened);
    }
    void play_on(const std::string& whole_script) {
        go_on(*record, whole_script);
        push_all(table, *record);
    }
    static auto has(const char* code, v1::AlertState state) {
        return [=](const BoardWatch& watch) {
            const v1::Alert* alert = watch.alert(code);
            return alert && alert->state() == state;
        };
    }
    /// Devices connect anew, as their programs do when a connection breaks.
    void restart() {
        server.kill9();
        server.start_again();
        table = Device{server, table.enrolled};
        head = Device{server, head.enrolled};
    }
    std::string kept_lives() { return database.run("select count(*) from alert_life"); }

    TestDatabase database;
    ServerProcess server{{database.dsn(), {}, 0, {}}};
    Device table = Device::at(server, auth::Seat::table, 1);
    Device head = Device::at(server, auth::Seat::head);
    wire::Uuid match = new_match_id();
    v1::Match opened = test_match(match, 1);
    std::unique_ptr<TestRecord> record;
};

TEST_F(BoardTest, AnIllegalReplacementReachesTheHeadSeatWithItsEvidence) {
    BoardWatch board{head};
    ASSERT_TRUE(board.read());
    play(ready_to_serve + illegal_replacement);
    ASSERT_TRUE(board.until(has(fault, v1::ALERT_STATE_OPEN)));
    const v1::Alert alert = *board.alert(fault);
    EXPECT_EQ(alert.severity(), v1::SEVERITY_CRITICAL);
    EXPECT_EQ(alert.court(), 1U);
    EXPECT_EQ(alert.team(), v1::TEAM_LETTER_A);
    EXPECT_EQ(alert.match_id(), match.to_bytes());
    EXPECT_EQ(alert.score().a(), 1U);
    EXPECT_FALSE(alert.rule_reference().empty());
    EXPECT_EQ(alert.evidence().last_replacements_size(), 3);
    EXPECT_EQ(alert.evidence().after().numbers_size(), 6);
    EXPECT_FALSE(alert.evidence().remedy().empty());
    ASSERT_TRUE(board.until([](const BoardWatch& watch) {
        const v1::CourtCard* card = watch.card(1);
        return card && card->worst() == v1::SEVERITY_CRITICAL && card->alerts_open() == 1;
    }));
    EXPECT_EQ(board.card(1)->a().liberos_on(0).libero(), 22U);
    EXPECT_EQ(board.card(1)->head_seq(), record->size());
}

TEST_F(BoardTest, AClaimIsSeenByTheOtherHeadSeatAndTheSecondClaimIsTold) {
    play(ready_to_serve + illegal_replacement);
    BoardWatch first{head};
    ASSERT_TRUE(first.until(has(fault, v1::ALERT_STATE_OPEN)));
    Device deputy = Device::at(server, auth::Seat::head);
    BoardWatch second{deputy};
    ASSERT_TRUE(second.until(has(fault, v1::ALERT_STATE_OPEN)));

    v1::ClaimRequest request;
    request.set_alert_id(first.alert(fault)->alert_id());
    request.set_by("head official");
    v1::ClaimResponse response;
    ASSERT_TRUE(call(*head.venue, &v1::Venue::Stub::Claim, request, response).ok());
    EXPECT_TRUE(response.yours());
    ASSERT_TRUE(second.until(has(fault, v1::ALERT_STATE_CLAIMED)));
    EXPECT_EQ(second.alert(fault)->claimed_by(), "head official");

    request.set_by("deputy");
    ASSERT_TRUE(call(*deputy.venue, &v1::Venue::Stub::Claim, request, response).ok());
    EXPECT_FALSE(response.yours());
    EXPECT_EQ(response.alert().claimed_by(), "head official");
}

TEST_F(BoardTest, ARulingEndsTheAlertAndReachesTheTable) {
    play(ready_to_serve + illegal_replacement);
    BoardWatch board{head};
    ASSERT_TRUE(board.until(has(fault, v1::ALERT_STATE_OPEN)));
    grpc::ClientContext context;
    prepare(context);
    v1::WatchRequest watch;
    watch.set_match_id(match.to_bytes());
    const auto reader = table.sync->Watch(&context, watch);
    v1::WatchResponse news;
    ASSERT_TRUE(reader->Read(&news)) << "the table follows its match";

    v1::RuleRequest request;
    request.set_alert_id(board.alert(fault)->alert_id());
    request.set_decision(v1::DECISION_ACCEPT);
    request.set_note("six at contact was wrong");
    request.set_by("head official");
    v1::RuleResponse response;
    const auto status = call(*head.venue, &v1::Venue::Stub::Rule, request, response);
    ASSERT_TRUE(status.ok()) << status.error_message();
    EXPECT_EQ(response.alert().state(), v1::ALERT_STATE_RULED);
    EXPECT_TRUE(response.alert().accepted());
    ASSERT_TRUE(board.until(has(fault, v1::ALERT_STATE_RULED)));

    bool told = false;
    while (!told && reader->Read(&news)) told = news.has_ruling();
    context.TryCancel();
    ASSERT_TRUE(told) << "the table was not told of the ruling";
    EXPECT_EQ(news.ruling().reason(), fault);
    EXPECT_TRUE(news.ruling().accepted());
    EXPECT_EQ(news.ruling().note(), "six at contact was wrong");
    EXPECT_EQ(call(*head.venue, &v1::Venue::Stub::Rule, request, response).error_code(),
              grpc::StatusCode::FAILED_PRECONDITION)
        << "an alert is ruled once";
}

TEST_F(BoardTest, ARulingRecordedAtTheTableEndsTheAlert) {
    play(ready_to_serve + illegal_replacement);
    BoardWatch board{head};
    ASSERT_TRUE(board.until(has(fault, v1::ALERT_STATE_OPEN)));
    play_on(ready_to_serve + illegal_replacement + "ruling accept libero-no-completed-rally A\n");
    EXPECT_TRUE(board.until(has(fault, v1::ALERT_STATE_RULED)));
}

TEST_F(BoardTest, ACriticalAlertCannotBeShelvedAndAnUnknownOneIsNotFound) {
    play(ready_to_serve + illegal_replacement);
    BoardWatch board{head};
    ASSERT_TRUE(board.until(has(fault, v1::ALERT_STATE_OPEN)));
    v1::ShelveRequest request;
    request.set_alert_id(board.alert(fault)->alert_id());
    request.set_minutes(5);
    request.set_note("later");
    request.set_by("head official");
    v1::ShelveResponse response;
    const auto status = call(*head.venue, &v1::Venue::Stub::Shelve, request, response);
    EXPECT_EQ(status.error_code(), grpc::StatusCode::FAILED_PRECONDITION);
    EXPECT_NE(status.error_message().find("critical"), std::string::npos);
    request.set_alert_id("no such alert");
    EXPECT_EQ(call(*head.venue, &v1::Venue::Stub::Shelve, request, response).error_code(),
              grpc::StatusCode::NOT_FOUND);
}

TEST_F(BoardTest, ARestartRaisesNothingTwiceAndKeepsWhoIsOnTheWay) {
    play(ready_to_serve + illegal_replacement);
    std::string since;
    {
        BoardWatch board{head};
        ASSERT_TRUE(board.until(has(fault, v1::ALERT_STATE_OPEN)));
        since = std::to_string(board.alert(fault)->since_us());
        v1::ClaimRequest request;
        request.set_alert_id(board.alert(fault)->alert_id());
        request.set_by("head official");
        v1::ClaimResponse response;
        ASSERT_TRUE(call(*head.venue, &v1::Venue::Stub::Claim, request, response).ok());
    }
    const std::string before = kept_lives();
    EXPECT_EQ(before, "2");
    restart();
    BoardWatch board{head};
    ASSERT_TRUE(board.until(has(fault, v1::ALERT_STATE_CLAIMED)));
    EXPECT_EQ(std::to_string(board.alert(fault)->since_us()), since);
    EXPECT_EQ(board.alert(fault)->claimed_by(), "head official");
    // News of the match after the restart finds the alert as it was.
    play_on(ready_to_serve + illegal_replacement + "rally B\n");
    ASSERT_TRUE(board.until([&](const BoardWatch& watch) {
        return watch.card(1) && watch.card(1)->head_seq() == record->size();
    }));
    EXPECT_EQ(kept_lives(), before);
}

TEST_F(BoardTest, AWatcherGoesOnFromItsCursorAndStartsAnewAfterARestart) {
    play(ready_to_serve);
    std::string cursor;
    {
        BoardWatch board{head};
        ASSERT_TRUE(board.until([](const BoardWatch& watch) { return watch.card(1) != nullptr; }));
        cursor = board.cursor;
    }
    play_on(ready_to_serve + "serve\nrally A\n");
    {
        BoardWatch board{head, cursor};
        ASSERT_TRUE(board.until([](const BoardWatch& watch) {
            return watch.card(1) && watch.card(1)->score().a() == 1;
        }));
        EXPECT_EQ(board.snapshots, 0);
    }
    restart();
    BoardWatch board{head, cursor};
    ASSERT_TRUE(board.until([](const BoardWatch& watch) { return watch.card(1) != nullptr; }));
    EXPECT_GE(board.snapshots, 1);
}

TEST_F(BoardTest, AStoppingServerEndsOpenBoards) {
    BoardWatch board{head};
    ASSERT_TRUE(board.read());
    EXPECT_EQ(server.stop(), 0);
    EXPECT_EQ(board.finish().error_code(), grpc::StatusCode::UNAVAILABLE);
}

}  // namespace
}  // namespace courthand::server::testing
