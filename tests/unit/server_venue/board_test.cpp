// The board and what is sent of it.
#include <gtest/gtest.h>

#include "server/venue/board.h"
#include "server/venue/board_pieces.h"

namespace courthand::server::venue {
namespace {

TEST(Board, AWatcherIsSentOnlyWhatChanged) {
    Board board;
    v1::CourtCard card;
    card.set_court(1);
    board.put(card);
    card.set_court(2);
    board.put(card);
    const BoardNews all = board.news(std::nullopt);
    EXPECT_TRUE(all.snapshot);
    EXPECT_EQ(all.cards.size(), 2U);
    EXPECT_TRUE(board.news(all.version).empty());
    board.put(card);
    EXPECT_TRUE(board.news(all.version).empty()) << "the same card is no change";
    card.mutable_score()->set_a(1);
    board.put(card);
    board.remove_court(1);
    const BoardNews news = board.news(all.version);
    EXPECT_FALSE(news.snapshot);
    ASSERT_EQ(news.cards.size(), 1U);
    EXPECT_EQ(news.cards.front().court(), 2U);
    EXPECT_EQ(news.removed_courts, std::vector<std::uint32_t>{1});
}

// What waits for one reader is bounded by the board, not by how much happens while it is slow.
TEST(Board, ASlowReaderIsSentTheLatestOfEachCardAndAlertOnce) {
    Board board;
    BoardVersion slow = board.news(std::nullopt).version;
    for (std::uint32_t change = 1; change <= 10000; ++change) {
        v1::CourtCard card;
        card.set_court(change % 10 + 1);
        card.mutable_score()->set_a(change);
        board.put(card);
        v1::Alert alert;
        alert.set_alert_id("alert " + std::to_string(change % 10));
        alert.set_state(v1::ALERT_STATE_OPEN);
        alert.set_text(std::to_string(change));
        board.put(alert);
    }
    const BoardNews news = board.news(slow);
    EXPECT_EQ(news.cards.size(), 10U);
    EXPECT_EQ(news.alerts.size(), 10U);
    for (const v1::CourtCard& card : news.cards) EXPECT_GT(card.score().a(), 9990U);
    // Another reader is not concerned: what it was sent is its own.
    EXPECT_EQ(board.news(std::nullopt).cards.size(), 10U);
    EXPECT_TRUE(board.news(news.version).empty());
}

TEST(Board, ListenersAreToldOnceForManyChanges) {
    Board board;
    int told = 0;
    (void)board.listen([&] { ++told; });
    for (std::uint32_t court = 1; court <= 100; ++court) {
        v1::CourtCard card;
        card.set_court(court);
        board.put(card);
    }
    board.tell();
    board.tell();
    EXPECT_EQ(told, 1);
}

v1::Alert alert_numbered(std::size_t number, v1::AlertState state, std::size_t text = 0) {
    v1::Alert alert;
    alert.set_alert_id("alert " + std::to_string(number));
    alert.set_state(state);
    alert.set_court(static_cast<std::uint32_t>(number % 1000 + 1));
    alert.set_text(std::string(text, 'x'));
    return alert;
}

TEST(Board, OfEndedAlertsTheLastAreHeldAndOldWatchersStartAnew) {
    Board board;
    board.put(alert_numbered(0, v1::ALERT_STATE_OPEN));
    const BoardVersion early = board.news(std::nullopt).version;
    for (std::size_t i = 1; i <= Board::most_ended + 1; ++i)
        board.put(alert_numbered(i, v1::ALERT_STATE_CLEARED));
    EXPECT_FALSE(board.alert("alert 1")) << "the oldest has left memory";
    EXPECT_TRUE(board.news(early).snapshot) << "this watcher would never hear that it ended";
    EXPECT_FALSE(board.news(early + 1).snapshot);
    EXPECT_EQ(board.news(std::nullopt).alerts.size(), 1 + Board::ended_shown);
}

TEST(BoardPieces, AThousandCourtsAndThousandsOfAlertsGoOutInPiecesBelowOneMebibyte) {
    Board board;
    for (std::uint32_t court = 1; court <= 1000; ++court) {
        v1::CourtCard card;
        card.set_court(court);
        card.mutable_a()->set_name(std::string(60, 'a'));
        board.put(card);
    }
    for (std::size_t i = 0; i < 5000; ++i) board.put(alert_numbered(i, v1::ALERT_STATE_OPEN, 1200));
    auto pieces = pieces_of(board.news(std::nullopt), {}, {"before", "after"});
    ASSERT_GT(pieces.size(), 5U);
    v1::WatchBoardResponse joined;
    for (const v1::WatchBoardResponse& piece : pieces) {
        EXPECT_LT(piece.ByteSizeLong(), most_piece_bytes);
        const bool last = &piece == &pieces.back();
        EXPECT_EQ(piece.snapshot(), &piece == &pieces.front());
        EXPECT_EQ(piece.more(), !last);
        EXPECT_EQ(piece.cursor(), last ? "after" : "before")
            << "who is cut off in between starts where he was";
        joined.MergeFrom(piece);
    }
    EXPECT_EQ(joined.cards_size(), 1000);
    EXPECT_EQ(joined.alerts_size(), 5000);
}

TEST(BoardPieces, OnlyTheCourtsThatAreWatchedAndNothingIsOnePiece) {
    Board board;
    board.put(alert_numbered(4, v1::ALERT_STATE_OPEN));
    board.put(alert_numbered(7, v1::ALERT_STATE_OPEN));
    const auto pieces = pieces_of(board.news(std::nullopt), {8}, {});
    ASSERT_EQ(pieces.size(), 1U);
    ASSERT_EQ(pieces.front().alerts_size(), 1);
    EXPECT_EQ(pieces.front().alerts(0).court(), 8U);
    EXPECT_EQ(pieces_of(BoardNews{}, {}, {}).size(), 1U) << "a sign of life";
}

TEST(Board, ACursorIsOfOneBoardOnly) {
    Board board;
    Board other;
    EXPECT_EQ(board.version_of(board.cursor(77)), 77U);
    EXPECT_FALSE(other.version_of(board.cursor(77)));
    EXPECT_FALSE(board.version_of(""));
    EXPECT_FALSE(board.version_of("nonsense"));
}

}  // namespace
}  // namespace courthand::server::venue
