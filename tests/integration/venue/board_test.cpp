// From an entry at a table to the board of the head official, and back as a ruling.
#include <gtest/gtest.h>

#include <grpcpp/grpcpp.h>

#include "device_kit.h"
#include "server/domain/record_start.h"
#include "server/store/postgres/pg_match_store.h"
#include "server/testing/ready_match.h"

namespace courthand::server::testing {
namespace {

const std::string illegal_replacement =
    "libero A 21 for 5\nserve\nrally A\nlibero A 5 for 21\nlibero A 22 for 6\nserve\n";
constexpr const char* fault = "libero-no-completed-rally";

std::string wire_hex(const std::string& bytes) {
    constexpr const char* digits = "0123456789abcdef";
    std::string hex;
    for (const char byte : bytes) {
        const auto value = static_cast<unsigned char>(byte);
        hex += digits[value >> 4U];
        hex += digits[value & 15U];
    }
    return hex;
}

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

TEST_F(BoardTest, AClaimAtOneServerIsShownAtTheOtherAndTheSecondOneIsTold) {
    // Both with the same authority, each with a name of its own.
    const std::filesystem::path data = server.data().string() + "-second";
    std::filesystem::create_directories(data);
    std::filesystem::copy(server.data() / "authority", data / "authority",
                          std::filesystem::copy_options::recursive);
    std::filesystem::permissions(data, std::filesystem::perms::owner_all);
    {
        ServerProcess other{{database.dsn(), data, 0, {}}};
        play(ready_to_serve + illegal_replacement);
        BoardWatch here{head};
        ASSERT_TRUE(here.until(has(fault, v1::ALERT_STATE_OPEN)));
        Device deputy{other, head.enrolled};
        BoardWatch there{deputy};
        ASSERT_TRUE(there.until(has(fault, v1::ALERT_STATE_OPEN)));
        EXPECT_EQ(here.alert(fault)->alert_id(), there.alert(fault)->alert_id());

        v1::ClaimRequest request;
        request.set_alert_id(here.alert(fault)->alert_id());
        request.set_by("head official");
        v1::ClaimResponse response;
        ASSERT_TRUE(call(*head.venue, &v1::Venue::Stub::Claim, request, response).ok());
        EXPECT_TRUE(response.yours());
        ASSERT_TRUE(there.until(has(fault, v1::ALERT_STATE_CLAIMED)));
        request.set_by("deputy");
        ASSERT_TRUE(call(*deputy.venue, &v1::Venue::Stub::Claim, request, response).ok());
        EXPECT_FALSE(response.yours());
        EXPECT_EQ(response.alert().claimed_by(), "head official");
        EXPECT_EQ(database.run("select count(*) from alert_life where what = 0"), "1")
            << "both saw it, one has raised it";
    }
    std::filesystem::remove_all(data);
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

TEST_F(BoardTest, ARulingReachesTheTableThoughTheServerWasKilledRightAfter) {
    play(ready_to_serve + illegal_replacement);
    std::string alert_id;
    {
        BoardWatch board{head};
        ASSERT_TRUE(board.until(has(fault, v1::ALERT_STATE_OPEN)));
        alert_id = board.alert(fault)->alert_id();
    }
    v1::WatchRequest watch;
    watch.set_match_id(match.to_bytes());
    {
        grpc::ClientContext context;
        prepare(context);
        const auto reader = table.sync->Watch(&context, watch);
        v1::WatchResponse news;
        while (watch.cursor().empty() && reader->Read(&news)) watch.set_cursor(news.cursor());
        context.TryCancel();
    }
    ASSERT_FALSE(watch.cursor().empty());
    v1::RuleRequest request;
    request.set_alert_id(alert_id);
    request.set_decision(v1::DECISION_OVERRULE);
    request.set_by("head official");
    v1::RuleResponse response;
    ASSERT_TRUE(call(*head.venue, &v1::Venue::Stub::Rule, request, response).ok());
    restart();

    grpc::ClientContext context;
    prepare(context);
    const auto reader = table.sync->Watch(&context, watch);
    v1::WatchResponse news;
    bool told = false;
    while (!told && reader->Read(&news)) told = news.has_ruling();
    context.TryCancel();
    ASSERT_TRUE(told) << "the ruling was lost";
    const v1::RulingNotice& ruling = news.ruling();
    EXPECT_EQ(ruling.alert_id(), alert_id);
    EXPECT_FALSE(ruling.accepted());
    ASSERT_GE(ruling.seq(), 1U);
    const Hash hash = hash_of(record->bytes()[ruling.seq() - 1]);
    EXPECT_EQ(ruling.entry_hash(), std::string(hash.begin(), hash.end()));
    EXPECT_EQ(database.run("select count(*) from feed where kind = 4"), "1");
}

TEST_F(BoardTest, ANameWithControlCharactersIsRefusedWithTheCure) {
    play(ready_to_serve + illegal_replacement);
    BoardWatch board{head};
    ASSERT_TRUE(board.until(has(fault, v1::ALERT_STATE_OPEN)));
    v1::RuleRequest request;
    request.set_alert_id(board.alert(fault)->alert_id());
    request.set_decision(v1::DECISION_ACCEPT);
    request.set_by("head official");
    request.set_note("bell \x07");
    v1::RuleResponse response;
    const auto status = call(*head.venue, &v1::Venue::Stub::Rule, request, response);
    EXPECT_EQ(status.error_code(), grpc::StatusCode::INVALID_ARGUMENT);
    EXPECT_EQ(status.error_message().find("note:"), 0U) << status.error_message();
    EXPECT_EQ(database.run("select count(*) from feed where kind = 4"), "0");
}

TEST_F(BoardTest, AWishToTakeOverIsAnsweredAndWhatTheOldTableStillSendsIsAFork) {
    play(ready_to_serve);
    Device spare = Device::at(server, auth::Seat::table, 1);
    postgres::Database connections{database.dsn()};
    postgres::PgMatchStore store{connections};
    const MatchKey key{(*store.tournaments())[0].id, MatchId{*uuid_from_bytes(match.to_bytes())}};
    ASSERT_TRUE(store.ask_take_over(key, spare.enrolled.id).ok());
    BoardWatch board{head};
    ASSERT_TRUE(board.until(has("take-over-asked", v1::ALERT_STATE_OPEN)));
    EXPECT_EQ(board.alert("take-over-asked")->asking_device(), to_bytes(spare.enrolled.id.value));

    v1::AnswerTakeOverRequest request;
    request.set_match_id(match.to_bytes());
    request.set_device_id(to_bytes(spare.enrolled.id.value));
    request.set_by("head official");
    v1::AnswerTakeOverResponse response;
    const auto answer = [&](Device& device) {
        return call(*device.venue, &v1::Venue::Stub::AnswerTakeOver, request, response);
    };
    EXPECT_EQ(answer(spare).error_code(), grpc::StatusCode::PERMISSION_DENIED)
        << "nobody lets himself in";
    ASSERT_TRUE(answer(head).ok());
    EXPECT_EQ(response.writer().device_id(), to_bytes(table.enrolled.id.value));
    ASSERT_TRUE(board.until(has("take-over-asked", v1::ALERT_STATE_CLEARED)));
    EXPECT_EQ(answer(head).error_code(), grpc::StatusCode::ABORTED) << "the wish is gone";

    ASSERT_TRUE(store.ask_take_over(key, spare.enrolled.id).ok());
    ASSERT_TRUE(board.until(has("take-over-asked", v1::ALERT_STATE_OPEN)));
    Device desk = Device::at(server, auth::Seat::desk);
    request.set_consent(true);
    ASSERT_TRUE(answer(desk).ok());
    EXPECT_EQ(response.writer().device_id(), to_bytes(spare.enrolled.id.value));
    ASSERT_TRUE(board.until(has("take-over-asked", v1::ALERT_STATE_CLEARED)));

    go_on(*record, ready_to_serve + "serve\n");
    v1::PushRequest late;
    late.set_match_id(match.to_bytes());
    late.add_entries()->set_data(record->bytes().back());
    v1::PushResponse pushed;
    ASSERT_TRUE(call(*table.sync, &v1::Sync::Stub::Push, late, pushed).ok());
    ASSERT_EQ(pushed.results_size(), 1);
    EXPECT_EQ(pushed.results(0).outcome(), v1::PushResult::OUTCOME_STORED_ON_BRANCH);
    ASSERT_TRUE(board.until(has("record-forked", v1::ALERT_STATE_OPEN)));
    EXPECT_TRUE(board.alert("record-forked")->alert_id().ends_with("/branch1"));
}

TEST_F(BoardTest, AWithdrawnDeviceIsNotLetGoOn) {
    play(ready_to_serve);
    Device spare = Device::at(server, auth::Seat::table, 1);
    postgres::Database connections{database.dsn()};
    postgres::PgMatchStore store{connections};
    const MatchKey key{(*store.tournaments())[0].id, MatchId{*uuid_from_bytes(match.to_bytes())}};
    ASSERT_TRUE(store.ask_take_over(key, spare.enrolled.id).ok());
    database.run("update device set revoked_at = now() where device_id = '" +
                 to_text(spare.enrolled.id) + "'");
    v1::AnswerTakeOverRequest request;
    request.set_match_id(match.to_bytes());
    request.set_device_id(to_bytes(spare.enrolled.id.value));
    request.set_consent(true);
    request.set_by("head official");
    v1::AnswerTakeOverResponse response;
    const auto answer = [&] {
        return call(*head.venue, &v1::Venue::Stub::AnswerTakeOver, request, response);
    };
    EXPECT_EQ(answer().error_code(), grpc::StatusCode::FAILED_PRECONDITION);
    EXPECT_EQ(store.match(key)->head.writer, table.enrolled.id) << "the good table goes on";
    request.set_consent(false);
    EXPECT_TRUE(answer().ok());
}

TEST_F(BoardTest, AThousandCourtsWithThousandsOfAlertsArriveInPieces) {
    constexpr std::size_t count = 4000;
    database.run(
        "insert into court (tournament_id, court) select tournament_id, n "
        "from tournament, generate_series(1, 1000) n on conflict do nothing");
    database.run("update tournament set desk_moved_at = null");
    std::string rows;
    for (std::size_t i = 0; i < count; ++i) {
        v1::Alert alert;
        alert.set_alert_id("stored/wrong-server/" + std::to_string(i));
        alert.set_code("wrong-server");
        alert.set_severity(v1::SEVERITY_CRITICAL);
        alert.set_court(static_cast<std::uint32_t>(i % 1000 + 1));
        alert.set_text(std::string(1500, 'x'));
        rows += (rows.empty() ? "('" : ",('") + alert.alert_id() + "','\\x" +
                wire_hex(alert.SerializeAsString()) + "')";
        if (i % 500 != 499) continue;
        database.run("with stored (id, body) as (values " + rows +
                     "), life as (insert into alert_life (tournament_id, alert_id, number, what, "
                     "at, kind, body) select tournament_id, id, 1, 0, now(), 'wrong-server', "
                     "body::bytea from stored, tournament) insert into alert_head (tournament_id, "
                     "alert_id, number, live) select tournament_id, id, 1, true "
                     "from stored, tournament");
        rows.clear();
    }
    restart();

    grpc::ClientContext context;
    prepare(context);
    const auto reader = head.venue->WatchBoard(&context, v1::WatchBoardRequest{});
    v1::WatchBoardResponse joined;
    v1::WatchBoardResponse piece;
    int pieces = 0;
    // The cards of the courts come as soon as the server has read them; the alerts are there first.
    while ((joined.alerts_size() < static_cast<int>(count) || joined.cards_size() < 1000) &&
           reader->Read(&piece)) {
        ++pieces;
        EXPECT_LT(piece.ByteSizeLong(), 1024U * 1024U);
        joined.MergeFrom(piece);
    }
    context.TryCancel();
    EXPECT_GE(joined.alerts_size(), static_cast<int>(count));
    EXPECT_GE(joined.cards_size(), 1000);
    EXPECT_GT(pieces, 5);
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
