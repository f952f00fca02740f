// Snapshots and changes of the board, as they arrive.
#include "venue/board_message.h"

#include <gtest/gtest.h>

#include "venue/board_pieces.h"
#include "venue/board_text.h"
#include "wire/fact_convert.h"
#include "wire/work_done.h"

namespace courthand::venue {
namespace {

v1::WatchBoardResponse snapshot() {
    v1::WatchBoardResponse news;
    news.set_snapshot(true);
    news.mutable_header()->set_server_time_us(1'778'940'300'000'000);
    for (const std::uint32_t number : {2U, 1U}) {
        auto& card = *news.add_cards();
        card.set_court(number);
        card.set_match_id(std::string(16, static_cast<char>(number)));
        card.set_stage(v1::STAGE_DEAD_BALL);
        card.set_set(2);
        card.mutable_score()->set_a(18);
        card.mutable_score()->set_b(16);
        card.set_serving(v1::TEAM_LETTER_B);
        card.mutable_a()->set_name("Harbour Lights");
        card.mutable_b()->set_name("Mill Lane");
    }
    auto& alert = *news.add_alerts();
    alert.set_alert_id("one");
    alert.set_code("libero-front-row");
    alert.set_severity(v1::SEVERITY_CRITICAL);
    alert.set_state(v1::ALERT_STATE_OPEN);
    alert.set_court(1);
    alert.set_text("A libero is in the front row");
    return news;
}

Board after(const v1::WatchBoardResponse& news, Board board = {}) {
    apply(news, board);
    return board;
}

TEST(BoardMessage, SnapshotForgetsWhatIsNotListed) {
    Board old;
    old.courts.resize(1);
    old.courts[0].court = 9;
    old.alerts.resize(1);
    const Board board = after(snapshot(), old);
    ASSERT_EQ(board.courts.size(), 2u);
    EXPECT_EQ(board.courts[0].court, 1u);  // in the order of the hall
    EXPECT_EQ(board.courts[0].stage, CourtStage::in_play);
    EXPECT_EQ(board.courts[0].score, (Score{18, 16}));
    EXPECT_EQ(board.courts[0].serving, Team::B);
    EXPECT_EQ(board.courts[0].match_id.size(), 36u);
    EXPECT_EQ(board.alerts.size(), 1u);
    EXPECT_EQ(board.as_of, Moment{1'778'940'300'000});
}

TEST(BoardMessage, ChangeReplacesAndRemoves) {
    v1::WatchBoardResponse news;
    auto& card = *news.add_cards();
    card.set_court(1);
    news.add_removed_courts(2);
    const Board board = after(news, after(snapshot()));
    ASSERT_EQ(board.courts.size(), 1u);
    EXPECT_EQ(board.courts[0].stage, CourtStage::free);
    EXPECT_EQ(board.alerts.size(), 1u);
}

TEST(BoardMessage, EndedAlertLeavesTheBoard) {
    for (const auto state : {v1::ALERT_STATE_RULED, v1::ALERT_STATE_CLEARED}) {
        v1::WatchBoardResponse news;
        auto& alert = *news.add_alerts();
        alert.set_alert_id("one");
        alert.set_state(state);
        EXPECT_TRUE(after(news, after(snapshot())).alerts.empty());
    }
}

TEST(BoardMessage, SeverityOfANewerServerIsShownAsTheWorst) {
    v1::Alert alert;
    alert.set_severity(static_cast<v1::Severity>(77));
    EXPECT_EQ(alert_of(alert).severity, Severity::critical);
}

TEST(BoardMessage, EvidenceCarriesTheEntryAndWhatCannotBeReadIsLeftEmpty) {
    v1::Alert alert;
    v1::Entry entry;
    const Record record{Fact{LiberoReplacement{Team::A, Jersey{21}, Jersey{5}}}};
    wire::to_proto(record, entry);
    auto& evidence = *alert.mutable_evidence();
    evidence.add_entries(12);
    evidence.add_raw()->set_data(entry.SerializeAsString());
    evidence.add_entries(13);
    evidence.add_raw()->set_data("not an entry");
    evidence.mutable_before()->add_numbers(-1);
    evidence.mutable_before()->add_numbers(300);
    const wire::WorkDone earlier = wire::work_done();
    const auto read = alert_of(alert);
    const wire::WorkDone now = wire::work_done();
    EXPECT_EQ(now.parses - earlier.parses, 2U) << "each once, and counted";
    EXPECT_EQ(now.hashes, earlier.hashes) << "nothing follows them here";
    const auto& entries = read.evidence.entries;
    ASSERT_EQ(entries.size(), 2u);
    ASSERT_TRUE(entries[0].content);
    EXPECT_EQ(*entries[0].content, record);
    EXPECT_FALSE(entries[1].content);
    for (const Jersey jersey : *read.evidence.before) EXPECT_FALSE(jersey.worn());
}

TEST(BoardMessage, AWishToTakeOverNamesTheDevice) {
    v1::Alert alert;
    EXPECT_EQ(alert_of(alert).asking_device, "");
    alert.set_asking_device("0123456789abcdef");
    EXPECT_EQ(bytes_of_id(alert_of(alert).asking_device), "0123456789abcdef");
}

TEST(BoardMessage, AnAlertNamesItsMatchAlsoWhenAnotherOneIsOnItsCourt) {
    v1::CourtCard card;
    card.set_court(3);
    card.set_match_id("0123456789abcdef");
    Board board{{court_of(card)}, {}, {}};
    v1::Alert alert;
    alert.set_court(3);
    EXPECT_FALSE(board.left_behind(alert_of(alert))) << "of the court itself";
    alert.set_match_id(card.match_id());
    alert.set_match_number(12);
    EXPECT_EQ(alert_of(alert).match_number, 12);
    EXPECT_FALSE(board.left_behind(alert_of(alert)));
    alert.set_match_id("fedcba9876543210");
    EXPECT_TRUE(board.left_behind(alert_of(alert)));
    board.alerts = {alert_of(alert)};
    EXPECT_NE(board_text(board, {LinkState::live, {}}).find("court  3  earlier match 12  "),
              std::string::npos);
    alert.set_match_name("E1");
    board.alerts = {alert_of(alert)};
    EXPECT_NE(board_text(board, {LinkState::live, {}}).find("court  3  earlier match E1  "),
              std::string::npos);
    card.set_match_name("E2");
    EXPECT_EQ(court_of(card).match_name, "E2");
    alert.set_court(4);
    EXPECT_FALSE(board.left_behind(alert_of(alert))) << "nothing is known of that court";
}

TEST(BoardPieces, AreShownTogetherWithTheLast) {
    v1::WatchBoardResponse first = snapshot();
    first.set_more(true);
    first.set_cursor("before");
    v1::WatchBoardResponse last;
    last.add_cards()->set_court(3);
    last.set_cursor("after");
    BoardPieces pieces;
    ASSERT_TRUE(pieces.add(first));
    EXPECT_FALSE(pieces.take()) << "half a board is not shown";
    ASSERT_TRUE(pieces.add(last));
    const auto whole = pieces.take();
    ASSERT_TRUE(whole);
    EXPECT_EQ(whole->cursor(), "after");
    EXPECT_EQ(after(*whole).courts.size(), 3u);
    ASSERT_TRUE(pieces.add(last));
    EXPECT_EQ(pieces.take()->cards_size(), 1) << "the next change stands alone";
}

TEST(BoardPieces, TooMuchIsNotTaken) {
    v1::WatchBoardResponse piece = snapshot();
    piece.set_more(true);
    BoardPieces pieces{2 * piece.ByteSizeLong()};
    EXPECT_TRUE(pieces.add(piece));
    EXPECT_TRUE(pieces.add(piece));
    EXPECT_FALSE(pieces.add(piece));
}

TEST(BoardMessage, IdsGoThereAndBack) {
    const std::string bytes = "0123456789abcdef";
    EXPECT_EQ(bytes_of_id(id_of_bytes(bytes)), bytes);
    EXPECT_EQ(id_of_bytes(""), "");
    EXPECT_EQ(id_of_bytes("short"), "");
    EXPECT_EQ(bytes_of_id("no id"), "");
}

TEST(BoardMessage, ColoursAreSixDigitsOrGrey) {
    EXPECT_EQ(colour_of_hex("1f3a5F").rgb, 0x1F3A5Fu);
    EXPECT_EQ(colour_of_hex("1f3a5"), Colour{});
    EXPECT_EQ(colour_of_hex("12345g"), Colour{});
}

TEST(BoardText, NamesScoreServiceAndAlerts) {
    const std::string text = board_text(after(snapshot()), {LinkState::live, {}});
    EXPECT_NE(text.find("court  1  in play   set 2  18 : 16"), std::string::npos) << text;
    EXPECT_NE(text.find("Mill Lane *"), std::string::npos) << text;
    EXPECT_NE(text.find("CRITICAL"), std::string::npos) << text;
    EXPECT_NE(text.find("A libero is in the front row"), std::string::npos) << text;
}

}  // namespace
}  // namespace courthand::venue
