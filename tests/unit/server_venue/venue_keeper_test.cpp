// Board and alerts put together, on a store in memory and a clock that is a number.
#include <gtest/gtest.h>

#include <atomic>
#include <condition_variable>

#include "match_kit.h"
#include "server/venue/history_part.h"
#include "server/venue/venue_keeper.h"

namespace courthand::server::venue {
namespace {

using std::chrono::seconds;
using testing::illegal_replacement;
using testing::match_of;
using testing::ready_to_serve;

class HandClock {
  public:
    ServerTime now() const {
        return ServerTime{} + std::chrono::hours{1000} + seconds{second_.load()};
    }
    void set(int second) { second_ = second; }

  private:
    std::atomic<int> second_{0};
};

/// A keeper that can be stopped and started again on the same store.
class KeeperTest : public ::testing::Test {
  protected:
    void start() {
        keeper = std::make_unique<VenueKeeper>(
            TournamentId{}, *store, [this] { return clock.now(); },
            [this](const v1::RulingNotice& notice) {
                const std::scoped_lock lock{mutex};
                rulings.push_back(notice);
                return Status::fine();
            });
        listener = keeper->board().listen([this] { changed.notify_all(); });
        ASSERT_TRUE(keeper->start().ok());
    }
    void restart_with(const LiveMatch& match) {
        keeper.reset();
        start();
        show(match, MatchChanged::Cause::rebuilt);
        keeper->on_rebuilt();
    }
    void show(const LiveMatch& match, MatchChanged::Cause cause = MatchChanged::Cause::appended) {
        keeper->on_match_changed({cause, match, 0, 0, {}, 0});
    }

    /// Waits until the board shows it; the limit only ends a test that has failed.
    template <class Holds>
    bool comes(Holds holds) {
        std::unique_lock lock{wait_mutex};
        for (int beat = 0; beat < 200; ++beat) {
            if (holds(keeper->board().news(std::nullopt))) return true;
            changed.wait_for(lock, std::chrono::milliseconds{50});
        }
        return false;
    }
    static const v1::Alert* alert_in(const BoardNews& news, const std::string& code) {
        for (const v1::Alert& alert : news.alerts)
            if (alert.code() == code) return &alert;
        return nullptr;
    }
    bool shows(const std::string& code, v1::AlertState state) {
        return comes([&](const BoardNews& news) {
            const v1::Alert* alert = alert_in(news, code);
            return alert && alert->state() == state;
        });
    }
    v1::Alert alert_of(const std::string& code) {
        const BoardNews news = keeper->board().news(std::nullopt);
        const v1::Alert* alert = alert_in(news, code);
        return alert ? *alert : v1::Alert{};
    }

    HandClock clock;
    std::unique_ptr<alerts::AlertStore> store = alerts::make_memory_alert_store();
    std::mutex mutex;
    std::vector<v1::RulingNotice> rulings;
    std::mutex wait_mutex;
    std::condition_variable changed;
    std::unique_ptr<VenueKeeper> keeper;
    std::uint64_t listener = 0;
};

constexpr const char* fault = "libero-no-completed-rally";

TEST_F(KeeperTest, TheCardShowsScoreLiberosAndTheWorstAlert) {
    start();
    keeper->on_rebuilt();
    show(match_of(ready_to_serve + illegal_replacement));
    ASSERT_TRUE(shows(fault, v1::ALERT_STATE_OPEN));
    ASSERT_TRUE(comes([](const BoardNews& news) {
        return news.cards.size() == 1 && news.cards.front().alerts_open() == 1;
    }));
    const v1::CourtCard card = *keeper->board().card(1);
    EXPECT_EQ(card.score().a(), 1U);
    EXPECT_EQ(card.worst(), v1::SEVERITY_CRITICAL);
    EXPECT_EQ(card.a().name(), "Harbour Lights");
    ASSERT_EQ(card.a().liberos_on_size(), 1);
    EXPECT_EQ(card.a().liberos_on(0).libero(), 22U);
    EXPECT_EQ(card.a().liberos_on(0).for_player(), 6U);
    const v1::Alert alert = alert_of(fault);
    EXPECT_EQ(alert.court(), 1U);
    EXPECT_EQ(alert.evidence().last_replacements_size(), 3);
}

TEST_F(KeeperTest, ARulingIsKeptAndSentToTheTable) {
    start();
    keeper->on_rebuilt();
    show(match_of(ready_to_serve + illegal_replacement));
    ASSERT_TRUE(shows(fault, v1::ALERT_STATE_OPEN));
    const std::string id = alert_of(fault).alert_id();
    const auto act = keeper->rule(id, true, "six at contact was wrong", "head official");
    ASSERT_TRUE(std::holds_alternative<v1::Alert>(act));
    EXPECT_EQ(std::get<v1::Alert>(act).state(), v1::ALERT_STATE_RULED);
    const std::scoped_lock lock{mutex};
    ASSERT_EQ(rulings.size(), 1U);
    EXPECT_EQ(rulings.front().reason(), fault);
    EXPECT_EQ(rulings.front().team(), v1::TEAM_LETTER_A);
    EXPECT_TRUE(rulings.front().accepted());
    EXPECT_NE(rulings.front().seq(), 0U);
}

TEST_F(KeeperTest, ARestartNeitherRaisesAgainNorForgetsWhoIsOnTheWay) {
    const LiveMatch match = match_of(ready_to_serve + illegal_replacement);
    start();
    keeper->on_rebuilt();
    show(match);
    ASSERT_TRUE(shows(fault, v1::ALERT_STATE_OPEN));
    const v1::Alert before = alert_of(fault);
    ASSERT_TRUE(std::holds_alternative<v1::Alert>(keeper->claim(before.alert_id(), "deputy")));
    const std::size_t kept = store->load()->size();

    clock.set(500);
    restart_with(match);
    ASSERT_TRUE(shows(fault, v1::ALERT_STATE_CLAIMED));
    EXPECT_EQ(alert_of(fault).since_us(), before.since_us());
    EXPECT_EQ(alert_of(fault).claimed_by(), "deputy");
    ASSERT_TRUE(comes([](const BoardNews& news) { return news.cards.size() == 1; }));
    EXPECT_EQ(store->load()->size(), kept);
}

TEST_F(KeeperTest, AMatchThatRestsLooksTheSameAlsoAfterAStart) {
    LiveMatch match = match_of(ready_to_serve + illegal_replacement);
    start();
    keeper->on_rebuilt();
    show(match);
    ASSERT_TRUE(shows(fault, v1::ALERT_STATE_OPEN));
    const v1::Alert before = alert_of(fault);
    ASSERT_TRUE(comes([](const BoardNews& news) {
        return news.cards.size() == 1 && news.cards.front().alerts_open() == 1;
    }));
    const v1::CourtCard card = *keeper->board().card(1);
    const std::string part = keeper->snapshot_part(match.key.match);
    keeper->on_rests(match.key.match);
    EXPECT_EQ(keeper->snapshot_part(match.key.match), part);
    // The desk names a team differently: no record is needed for it.
    match.record.reset();
    match.plan.first.name = "Harbour Lights II";
    show(match, MatchChanged::Cause::described);
    ASSERT_TRUE(comes([](const BoardNews& news) {
        return news.cards.size() == 1 && news.cards.front().a().name() == "Harbour Lights II";
    }));
    EXPECT_EQ(alert_of(fault).evidence().last_replacements_size(), 3);

    match.plan.first.name = "Harbour Lights";
    keeper.reset();
    start();
    MatchChanged change{MatchChanged::Cause::rebuilt, match, 0, 0, {}, 0};
    change.snapshot_part = part;
    keeper->on_match_changed(change);
    keeper->on_rebuilt();
    ASSERT_TRUE(shows(fault, v1::ALERT_STATE_OPEN));
    const v1::Alert after = alert_of(fault);
    EXPECT_EQ(after.evidence().SerializeAsString(), before.evidence().SerializeAsString());
    EXPECT_EQ(after.text(), before.text());
    EXPECT_EQ(after.since_us(), before.since_us());
    ASSERT_TRUE(comes([](const BoardNews& news) {
        return news.cards.size() == 1 && news.cards.front().alerts_open() == 1;
    }));
    EXPECT_EQ(keeper->board().card(1)->SerializeAsString(), card.SerializeAsString());
}

TEST(HistoryPart, TellsTheSameOfAMatchThatRests) {
    LiveMatch match = match_of(ready_to_serve + illegal_replacement + "redesignate A 14 for 21\n");
    alerts::MatchHistory history;
    history.follow(match);
    const auto expected = alerts::conditions_of(match, history, testing::names);
    ASSERT_FALSE(expected.empty());
    const std::string part = history_part(history);
    match.record.reset();
    EXPECT_EQ(alerts::conditions_of(match, history_of_part(part), testing::names), expected);
    EXPECT_EQ(history_part(history_of_part(part)), part);
}

TEST_F(KeeperTest, AnEmptyCourtHasACard) {
    start();
    keeper->on_rebuilt();
    keeper->set_courts({1, 4});
    EXPECT_TRUE(comes([](const BoardNews& news) { return news.cards.size() == 2; }));
    EXPECT_TRUE(keeper->board().card(4)->match_id().empty());
}

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
