// The cards of the courts, without thread, store and clock.
#include <gtest/gtest.h>

#include "server/venue/alert_message.h"
#include "server/venue/court_cards.h"

namespace courthand::server::venue {
namespace {

alerts::Now at(int second) {
    const auto since = std::chrono::hours{1000} + std::chrono::seconds{second};
    return {alerts::Instant{} + since, alerts::Steady{} + since};
}

template <class Id>
Id id_of(std::uint8_t number) {
    Id id;
    id.value.bytes[15] = number;
    return id;
}

/// Being played, with so many entries.
MatchView played(std::uint8_t number, std::uint32_t court, std::uint32_t entries = 1) {
    MatchView view;
    view.plan.key.match = id_of<MatchId>(number);
    view.plan.number = number;
    view.plan.court = court;
    view.card.set_match_id(to_bytes(view.plan.key.match.value));
    view.card.set_head_seq(entries);
    view.begun = entries > 0;
    view.stage = view.begun ? Stage::dead_ball : Stage::before_match;
    view.writer = id_of<DeviceId>(7);
    return view;
}

class CourtCardsTest : public ::testing::Test {
  protected:
    std::string on_court(std::uint32_t court) {
        (void)cards.renew(at(0));
        const auto card = board.card(court);
        return card ? card->match_id() : std::string{"no card"};
    }
    bool staffed(std::uint32_t court, int second) {
        cards.find_unstaffed(at(second));
        (void)cards.renew(at(second));
        return board.card(court)->table_staffed();
    }

    Board board;
    alerts::CourtAlerts open_{2, Severity::high, 0};
    MatchId asked_;  ///< for which match the alerts were asked for last
    CourtCards cards{board, [this](std::uint32_t, MatchId match) {
                         asked_ = match;
                         return open_;
                     }};
};

TEST_F(CourtCardsTest, OnlyCardsThatChangedAreRenewed) {
    cards.set_courts({1, 2});
    EXPECT_EQ(cards.renew(at(0)), (std::set<std::uint32_t>{1, 2}));
    EXPECT_TRUE(cards.renew(at(0)).empty());
    EXPECT_EQ(board.card(2)->alerts_open(), 2U);
    EXPECT_EQ(board.card(2)->worst(), v1::SEVERITY_HIGH);
    open_ = {};
    cards.changed({2});
    EXPECT_EQ(cards.renew(at(0)), std::set<std::uint32_t>{2});
    EXPECT_EQ(board.card(2)->alerts_open(), 0U);
}

TEST_F(CourtCardsTest, AMatchThatMovesLeavesOneCardAndComesToTheOther) {
    cards.set_courts({1, 2});
    EXPECT_TRUE(cards.put(played(4, 1, 3))) << "it has entries";
    EXPECT_FALSE(cards.put(played(4, 1, 3))) << "no new ones";
    EXPECT_TRUE(cards.put(played(4, 1, 4)));
    EXPECT_EQ(on_court(1), to_bytes(id_of<MatchId>(4).value));
    EXPECT_FALSE(cards.put(played(4, 2, 4)));
    EXPECT_EQ(on_court(1), "");
    EXPECT_EQ(on_court(2), to_bytes(id_of<MatchId>(4).value));
}

TEST_F(CourtCardsTest, ACardTellsTheAlertsOfItsOwnMatchApartFromThoseOfTheMatchBefore) {
    cards.set_courts({1});
    MatchView over = played(4, 1, 9);
    over.stage = Stage::match_over;
    (void)cards.put(over);
    EXPECT_EQ(on_court(1), to_bytes(id_of<MatchId>(4).value));
    EXPECT_EQ(asked_, id_of<MatchId>(4)) << "as long as nothing follows, it is the court's match";
    (void)cards.put(played(5, 1));
    open_ = {0, std::nullopt, 2};
    EXPECT_EQ(on_court(1), to_bytes(id_of<MatchId>(5).value));
    EXPECT_EQ(asked_, id_of<MatchId>(5));
    EXPECT_EQ(board.card(1)->alerts_open(), 0U);
    EXPECT_EQ(board.card(1)->worst(), v1::SEVERITY_UNSPECIFIED);
    EXPECT_EQ(board.card(1)->alerts_elsewhere(), 2U);
}

TEST_F(CourtCardsTest, ACourtThatTheVenueHasNoMoreGoesWithItsLastMatch) {
    cards.set_courts({1});
    (void)cards.put(played(4, 3));
    cards.set_courts({});
    EXPECT_EQ(on_court(1), "no card");
    EXPECT_NE(on_court(3), "no card");
    cards.forget_matches();
    EXPECT_EQ(on_court(3), "no card");
}

TEST_F(CourtCardsTest, ATableIsThereAsLongAsItIsHeard) {
    cards.set_courts({1});
    (void)cards.put(played(4, 1));
    cards.heard({id_of<DeviceId>(8), 1, at(0)});
    EXPECT_FALSE(staffed(1, 0)) << "a spare tablet says nothing";
    cards.heard({id_of<DeviceId>(7), 1, at(1)});
    EXPECT_TRUE(staffed(1, 1));
    EXPECT_EQ(board.card(1)->last_seen_us(), microseconds(at(1).wall));
    EXPECT_TRUE(staffed(1, 30));
    EXPECT_FALSE(staffed(1, 31));
    cards.heard({id_of<DeviceId>(7), 1, at(35)});
    EXPECT_TRUE(staffed(1, 36));
}

TEST_F(CourtCardsTest, LastSeenMovesInStepsSoThatAQuietCourtSendsNoCard) {
    cards.set_courts({1});
    cards.heard({id_of<DeviceId>(7), 1, at(0)});
    EXPECT_TRUE(staffed(1, 0));
    for (int second = 1; second < 10; ++second) {
        cards.heard({id_of<DeviceId>(7), 1, at(second)});
        EXPECT_TRUE(staffed(1, second));
    }
    EXPECT_EQ(board.card(1)->last_seen_us(), microseconds(at(0).wall));
    cards.heard({id_of<DeviceId>(7), 1, at(10)});
    EXPECT_TRUE(staffed(1, 10));
    EXPECT_EQ(board.card(1)->last_seen_us(), microseconds(at(10).wall));
}

TEST_F(CourtCardsTest, OnlyMatchesThatArePlayedCrowdACourt) {
    (void)cards.put(played(4, 1));
    (void)cards.put(played(5, 1, 0));
    EXPECT_TRUE(cards.crowded().empty()) << "the other one waits";
    MatchView over = played(6, 1);
    over.stage = Stage::match_over;
    (void)cards.put(over);
    MatchView cancelled = played(7, 1);
    cancelled.plan.status = PlanStatus::cancelled;
    (void)cards.put(cancelled);
    (void)cards.put(played(8, 0));
    (void)cards.put(played(9, 0));
    EXPECT_TRUE(cards.crowded().empty()) << "no court is no court";
    (void)cards.put(played(5, 1));
    ASSERT_EQ(cards.crowded().size(), 1U);
    EXPECT_EQ(cards.crowded().front().court, 1U);
    EXPECT_EQ(cards.crowded().front().text.find("Court 1: match 4, match 5 are all being played"),
              0U)
        << cards.crowded().front().text;
    MatchView named = played(5, 1);
    named.plan.name = "E1";
    (void)cards.put(named);
    EXPECT_EQ(cards.crowded().front().text.find("Court 1: match 4, E1 are all being played"), 0U);
    (void)cards.put(played(5, 2));
    EXPECT_TRUE(cards.crowded().empty());
}

}  // namespace
}  // namespace courthand::server::venue
