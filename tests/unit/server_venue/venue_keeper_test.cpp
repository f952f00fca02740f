// Board and alerts put together, on a store in memory and a clock that is a number.
#include <gtest/gtest.h>

#include <atomic>
#include <condition_variable>
#include <thread>

#include "courthand/v1/sync.pb.h"
#include "match_kit.h"
#include "server/domain/record_start.h"
#include "server/venue/alert_message.h"
#include "server/venue/board_pieces.h"
#include "server/venue/history_part.h"
#include "server/venue/ruling_notice.h"
#include "server/venue/venue_keeper.h"

namespace courthand::server::venue {
namespace {

using std::chrono::seconds;
using testing::find_code;
using testing::illegal_replacement;
using testing::match_of;
using testing::ready_to_serve;

class HandClock {
  public:
    alerts::Now now() const {
        const auto since = std::chrono::hours{1000} + seconds{second_.load()};
        return {ServerTime{} + since - std::chrono::hours{hours_back_.load()},
                alerts::Steady{} + since};
    }
    void set(int second) { second_ = second; }
    void set_wall_back(int hours) { hours_back_ = hours; }

  private:
    std::atomic<int> second_{0};
    std::atomic<int> hours_back_{0};
};

/// A keeper that can be stopped and started again on the same store.
class KeeperTest : public ::testing::Test {
  protected:
    void start() {
        keeper = std::make_unique<VenueKeeper>(
            TournamentId{}, store, [this] { return clock.now(); },
            [this] { return refusals.now(); });
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
    /// What a card says of the match: when its table was last heard is another matter, and comes by
    /// itself with the next tick.
    static v1::CourtCard without_presence(v1::CourtCard card) {
        card.clear_last_seen_us();
        card.clear_table_staffed();
        return card;
    }
    v1::Alert alert_of(const std::string& code) {
        const BoardNews news = keeper->board().news(std::nullopt);
        const v1::Alert* alert = alert_in(news, code);
        return alert ? *alert : v1::Alert{};
    }

    HandClock clock;
    /// The notices of rulings that have their place in the feed.
    std::vector<v1::RulingNotice> rulings() const {
        std::vector<v1::RulingNotice> all;
        for (const FeedNotice& notice : store.notices()) {
            if (notice.kind != FeedItem::Kind::ruling) continue;
            EXPECT_TRUE(all.emplace_back().ParseFromString(notice.bytes));
        }
        return all;
    }

    alerts::MemoryAlertStore store;
    Refusals refusals;
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
    const LiveMatch match = match_of(ready_to_serve + illegal_replacement);
    show(match);
    ASSERT_TRUE(shows(fault, v1::ALERT_STATE_OPEN));
    const std::string id = alert_of(fault).alert_id();
    const auto act = keeper->rule(id, true, "six at contact was wrong", "head official");
    ASSERT_TRUE(std::holds_alternative<v1::Alert>(act));
    EXPECT_EQ(std::get<v1::Alert>(act).state(), v1::ALERT_STATE_RULED);
    ASSERT_EQ(rulings().size(), 1U);
    const v1::RulingNotice ruling = rulings().front();
    EXPECT_EQ(ruling.reason(), fault);
    EXPECT_EQ(ruling.team(), v1::TEAM_LETTER_A);
    EXPECT_TRUE(ruling.accepted());
    EXPECT_NE(ruling.seq(), 0U);
    const Hash hash = hash_of(*match.record->bytes_of(ruling.seq()));
    EXPECT_EQ(ruling.entry_hash(), std::string(hash.begin(), hash.end())) << "the very entry";
}

TEST_F(KeeperTest, ARulingAndItsNoticeAreKeptTogetherOrNotAtAll) {
    start();
    keeper->on_rebuilt();
    show(match_of(ready_to_serve + illegal_replacement));
    ASSERT_TRUE(shows(fault, v1::ALERT_STATE_OPEN));
    const std::string id = alert_of(fault).alert_id();
    store.fail_with(Status::failed(StatusCode::unavailable, "the database is away"));
    ASSERT_TRUE(std::holds_alternative<Status>(keeper->rule(id, true, "", "head official")));
    EXPECT_EQ(alert_of(fault).state(), v1::ALERT_STATE_OPEN) << "not kept, not ruled";
    store.fail_with(Status::fine());
    EXPECT_TRUE(rulings().empty());
    ASSERT_TRUE(std::holds_alternative<v1::Alert>(keeper->rule(id, true, "", "head official")));
    EXPECT_EQ(rulings().size(), 1U);
    EXPECT_EQ(store.lives().back().what, alerts::LifeEntry::What::ruled);
}

TEST_F(KeeperTest, AnAlertThatWasRaisedAndRuledAgainSendsAnotherNotice) {
    alerts::Alert alert;
    alert.condition = *find_code(testing::conditions(ready_to_serve + illegal_replacement), fault);
    alerts::LifeEntry ruled;
    ruled.id = alert.condition.id;
    ruled.what = alerts::LifeEntry::What::ruled;
    ruled.number = 2;
    const auto first = notices_of(alert, ruled);
    ASSERT_EQ(first.size(), 2U);
    ASSERT_EQ(first.front().kind, FeedItem::Kind::ruling);
    EXPECT_EQ(notices_of(alert, ruled).front().id, first.front().id) << "a retry adds nothing";
    ruled.number = 5;
    EXPECT_NE(notices_of(alert, ruled).front().id, first.front().id);
}

TEST_F(KeeperTest, ASecondForkRaisesAnotherAlert) {
    start();
    keeper->on_rebuilt();
    LiveMatch match = match_of(ready_to_serve);
    match.branches = {1};
    keeper->on_branch_stored({match, 1, {}, 1, 5, {}, 0});
    ASSERT_TRUE(shows("record-forked", v1::ALERT_STATE_OPEN));
    ASSERT_TRUE(std::holds_alternative<v1::Alert>(
        keeper->rule(alert_of("record-forked").alert_id(), false, "", "head official")));
    match.branches = {1, 2};
    keeper->on_branch_stored({match, 2, {}, 1, 7, {}, 0});
    EXPECT_TRUE(comes([](const BoardNews& news) {
        return std::any_of(news.alerts.begin(), news.alerts.end(), [](const v1::Alert& alert) {
            return alert.code() == "record-forked" && alert.state() == v1::ALERT_STATE_OPEN &&
                   alert.alert_id().ends_with("branch2");
        });
    }));
}

TEST_F(KeeperTest, AForkThatTurnsOutToBeNoneTakesItsAlertAway) {
    start();
    keeper->on_rebuilt();
    LiveMatch match = match_of(ready_to_serve);
    match.branches = {1};
    keeper->on_branch_stored({match, 1, {}, 1, 5, {}, 0});
    ASSERT_TRUE(shows("record-forked", v1::ALERT_STATE_OPEN));
    match.branches = {};
    show(match, MatchChanged::Cause::described);
    // The fork is gone from when the keeper looks, which may be after the clock was set.
    EXPECT_TRUE(comes([this, second = 0](const BoardNews& news) mutable {
        clock.set(second += 60);
        const v1::Alert* alert = alert_in(news, "record-forked");
        return alert && alert->state() == v1::ALERT_STATE_CLEARED;
    }));
}

TEST_F(KeeperTest, AWishToTakeOverIsShownAndGoesWithTheAnswer) {
    start();
    keeper->on_rebuilt();
    LiveMatch match = match_of(ready_to_serve);
    match.head.writer = DeviceId{testing::match_id(7).value};
    match.asked = TakeOverAsked{DeviceId{testing::match_id(8).value}, {}};
    keeper->on_device_seen({{}, match.head.writer, 1, {}});
    clock.set(300);
    show(match, MatchChanged::Cause::described);
    ASSERT_TRUE(comes([](const BoardNews& news) {
        const v1::Alert* alert = alert_in(news, "take-over-asked");
        return alert && alert->text().find("not been heard for 5 min") != std::string::npos;
    })) << alert_of("take-over-asked").text();
    const v1::Alert alert = alert_of("take-over-asked");
    EXPECT_EQ(alert.asking_device(), to_bytes(match.asked->device.value));
    EXPECT_EQ(alert.severity(), v1::SEVERITY_HIGH);
    EXPECT_EQ(alert.match_id(), to_bytes(match.key.match.value));
    EXPECT_TRUE(std::holds_alternative<alerts::ActRefusal>(
        keeper->rule(alert.alert_id(), true, "", "head official")))
        << "it is answered with yes or no";
    match.asked.reset();
    show(match, MatchChanged::Cause::described);
    EXPECT_TRUE(shows("take-over-asked", v1::ALERT_STATE_CLEARED));
}

TEST_F(KeeperTest, RefusedEntriesAreShownUntilTheServerHasTakenThem) {
    start();
    keeper->on_rebuilt();
    show(match_of(ready_to_serve));
    Refusals::Refusal refusal;
    refusal.match = testing::match_id(1);
    refusal.device = DeviceId{testing::match_id(3).value};
    refusal.court = 1;
    refusal.number = 11;
    refusal.cause = Cause::other_court;
    refusals.refused(refusal);
    ASSERT_TRUE(shows("entries-refused", v1::ALERT_STATE_OPEN));
    EXPECT_NE(alert_of("entries-refused").text().find("entry 11"), std::string::npos);
    EXPECT_EQ(alert_of("entries-refused").court(), 1U);
    refusals.taken(refusal.match, refusal.device);
    std::this_thread::sleep_for(2 * VenueKeeper::beat);
    clock.set(20);
    EXPECT_TRUE(shows("entries-refused", v1::ALERT_STATE_CLEARED));
}

TEST_F(KeeperTest, TwoServersOnOneAlertTheSecondClaimIsToldWhoWasFirst) {
    start();
    VenueKeeper other{TournamentId{}, store, [this] { return clock.now(); }, {}};
    ASSERT_TRUE(other.start().ok());
    const LiveMatch match = match_of(ready_to_serve + illegal_replacement);
    for (VenueKeeper* each : {keeper.get(), &other}) {
        each->on_rebuilt();
        each->on_match_changed({MatchChanged::Cause::appended, match, 0, 0, {}, 0});
    }
    ASSERT_TRUE(shows(fault, v1::ALERT_STATE_OPEN));
    const std::string id = alert_of(fault).alert_id();
    for (int beat = 0; beat < 200 && !other.board().alert(id); ++beat)
        std::this_thread::sleep_for(std::chrono::milliseconds{20});
    ASSERT_TRUE(std::holds_alternative<v1::Alert>(keeper->claim(id, "head official")));
    const auto second = other.claim(id, "deputy");
    ASSERT_TRUE(std::holds_alternative<alerts::ActRefusal>(second));
    EXPECT_NE(std::get<alerts::ActRefusal>(second).message.find("head official"),
              std::string::npos);
    EXPECT_EQ(other.board().alert(id)->claimed_by(), "head official");
    ASSERT_TRUE(std::holds_alternative<v1::Alert>(other.rule(id, true, "seen", "deputy")));
    const auto late = keeper->rule(id, false, "", "head official");
    ASSERT_TRUE(std::holds_alternative<alerts::ActRefusal>(late)) << "ruled once, by the first";
    EXPECT_EQ(rulings().size(), 1U);
}

TEST_F(KeeperTest, AClaimAtOneServerIsShownAtTheOther) {
    start();
    VenueKeeper other{TournamentId{}, store, [this] { return clock.now(); }, {}};
    ASSERT_TRUE(other.start().ok());
    const LiveMatch match = match_of(ready_to_serve + illegal_replacement);
    for (VenueKeeper* each : {keeper.get(), &other}) {
        each->on_rebuilt();
        each->on_match_changed({MatchChanged::Cause::appended, match, 0, 0, {}, 0});
    }
    ASSERT_TRUE(shows(fault, v1::ALERT_STATE_OPEN));
    const std::string id = alert_of(fault).alert_id();
    for (int beat = 0; beat < 200 && !other.board().alert(id); ++beat)
        std::this_thread::sleep_for(std::chrono::milliseconds{20});
    ASSERT_TRUE(std::holds_alternative<v1::Alert>(other.claim(id, "deputy")));
    FeedItem word;
    word.kind = store.notices().front().kind;
    word.bytes = std::make_shared<const std::string>(store.notices().front().bytes);
    keeper->on_notice(word);
    EXPECT_TRUE(shows(fault, v1::ALERT_STATE_CLAIMED));
    EXPECT_EQ(alert_of(fault).claimed_by(), "deputy");
}

TEST_F(KeeperTest, ADatabaseThatWentBackIsReadAnew) {
    start();
    keeper->on_rebuilt();
    show(match_of(ready_to_serve + illegal_replacement));
    ASSERT_TRUE(shows(fault, v1::ALERT_STATE_OPEN));
    const MatchId match = testing::match_id(1);
    ASSERT_EQ(keeper->open_alerts(match), 1U);
    ASSERT_TRUE(comes([this](const BoardNews&) { return store.lives().size() == 1; }));
    store.forget_all();  // the backup is older: neither the entry nor the alert is in it
    keeper->on_begun_anew();
    show(match_of(ready_to_serve), MatchChanged::Cause::rebuilt);
    keeper->on_rebuilt();
    EXPECT_TRUE(shows(fault, v1::ALERT_STATE_CLEARED));
    EXPECT_EQ(keeper->open_alerts(match), 0U);
    // It happens again, and is an alert from its first step on.
    show(match_of(ready_to_serve + illegal_replacement));
    ASSERT_TRUE(shows(fault, v1::ALERT_STATE_OPEN));
    for (int beat = 0; beat < 200 && store.lives().empty(); ++beat)
        std::this_thread::sleep_for(std::chrono::milliseconds{20});
    ASSERT_EQ(store.lives().size(), 1U);
    EXPECT_EQ(store.lives().front().number, 1U);
}

TEST_F(KeeperTest, AStartReadsOnlyAlertsThatLiveAndThoseThatHoldAgain) {
    // A thousand faults of matches long finished, and one that still waits.
    std::vector<alerts::LifeEntry> old;
    for (int i = 0; i < 1000; ++i) {
        alerts::LifeEntry opened;
        opened.id = "old/" + std::to_string(i);
        opened.number = 1;
        opened.condition.emplace();
        alerts::LifeEntry ruled = opened;
        ruled.number = 2;
        ruled.what = alerts::LifeEntry::What::ruled;
        ruled.condition.reset();
        ruled.ends = true;
        old.push_back(opened);
        old.push_back(ruled);
    }
    ASSERT_TRUE(store.append(old, {}).ok());
    const LiveMatch match = match_of(ready_to_serve + illegal_replacement);
    start();
    keeper->on_rebuilt();
    show(match);
    ASSERT_TRUE(shows(fault, v1::ALERT_STATE_OPEN));
    ASSERT_TRUE(std::holds_alternative<v1::Alert>(
        keeper->rule(alert_of(fault).alert_id(), true, "", "head official")));
    restart_with(match);
    ASSERT_TRUE(comes([](const BoardNews& news) { return news.cards.size() == 1; }));
    ASSERT_TRUE(shows(fault, v1::ALERT_STATE_RULED)) << "not raised again";
    EXPECT_EQ(store.loaded(), 2U) << "the two steps of the one whose condition holds";
}

TEST_F(KeeperTest, ASpareTabletDoesNotSpeakForTheTableThatWrites) {
    start();
    keeper->on_rebuilt();
    LiveMatch match = match_of(ready_to_serve + "serve\nrally A\n");
    match.head.writer = DeviceId{testing::match_id(7).value};
    show(match);
    keeper->on_device_seen({{}, match.head.writer, 1, {}});
    ASSERT_TRUE(comes([](const BoardNews& news) {
        return news.cards.size() == 1 && news.cards.front().table_staffed();
    }));
    clock.set(81);
    keeper->on_device_seen({{}, DeviceId{testing::match_id(8).value}, 1, {}});
    EXPECT_TRUE(shows("court-not-seen", v1::ALERT_STATE_OPEN));
}

TEST_F(KeeperTest, AWallClockSetBackFreezesNeitherSilenceNorLastSeen) {
    start();
    keeper->on_rebuilt();
    show(match_of(ready_to_serve + "serve\nrally A\n"));
    keeper->on_device_seen({{}, {}, 1, {}});
    ASSERT_TRUE(comes([](const BoardNews& news) {
        return news.cards.size() == 1 && news.cards.front().table_staffed();
    }));
    clock.set_wall_back(1);
    clock.set(20);
    keeper->on_device_seen({{}, {}, 1, {}});
    const auto back = microseconds(clock.now().wall);
    ASSERT_TRUE(comes([&](const BoardNews& news) {
        return news.cards.front().last_seen_us() == back;
    })) << "the card follows the clock";
    clock.set(81);
    EXPECT_TRUE(shows("court-not-seen", v1::ALERT_STATE_OPEN));
}

/// A store that answers an append only when it is let go.
class SlowStore final : public alerts::AlertStore {
  public:
    Status append(std::span<const alerts::LifeEntry>, std::span<const FeedNotice>) override {
        std::unique_lock lock{mutex_};
        entered_ = true;
        changed_.notify_all();
        changed_.wait(lock, [this] { return open_; });
        return Status::fine();
    }
    Result<std::vector<alerts::LifeEntry>> load_live() override { return none(); }
    Result<std::vector<alerts::LifeEntry>> load(std::span<const alerts::AlertId>) override {
        return none();
    }
    void wait_for_append() {
        std::unique_lock lock{mutex_};
        changed_.wait(lock, [this] { return entered_; });
    }
    void let_go() {
        const std::scoped_lock lock{mutex_};
        open_ = true;
        changed_.notify_all();
    }

  private:
    static std::vector<alerts::LifeEntry> none() { return {}; }
    std::mutex mutex_;
    std::condition_variable changed_;
    bool entered_ = false;
    bool open_ = false;
};

TEST(VenueKeeper, ReadersDoNotWaitForTheDatabase) {
    SlowStore store;
    HandClock clock;
    VenueKeeper keeper{TournamentId{}, store, [&] { return clock.now(); }, {}};
    ASSERT_TRUE(keeper.start().ok());
    keeper.on_rebuilt();
    const LiveMatch match = match_of(ready_to_serve + illegal_replacement);
    keeper.on_match_changed({MatchChanged::Cause::appended, match, 0, 0, {}, 0});
    store.wait_for_append();
    // The thread of the keeper stands in the database now; this would hang with a common lock.
    EXPECT_EQ(keeper.open_alerts(match.key.match), 1U);
    EXPECT_TRUE(keeper.board().card(1));
    EXPECT_FALSE(keeper.last_seen({}));
    EXPECT_EQ(keeper.board().news(std::nullopt).alerts.size(), 1U) << "shown before it is kept";
    store.let_go();
}

TEST_F(KeeperTest, ARestartNeitherRaisesAgainNorForgetsWhoIsOnTheWay) {
    const LiveMatch match = match_of(ready_to_serve + illegal_replacement);
    start();
    keeper->on_rebuilt();
    show(match);
    ASSERT_TRUE(shows(fault, v1::ALERT_STATE_OPEN));
    const v1::Alert before = alert_of(fault);
    ASSERT_TRUE(std::holds_alternative<v1::Alert>(keeper->claim(before.alert_id(), "deputy")));
    const std::size_t kept = store.lives().size();

    clock.set(500);
    restart_with(match);
    ASSERT_TRUE(shows(fault, v1::ALERT_STATE_CLAIMED));
    EXPECT_EQ(alert_of(fault).since_us(), before.since_us());
    EXPECT_EQ(alert_of(fault).claimed_by(), "deputy");
    ASSERT_TRUE(comes([](const BoardNews& news) { return news.cards.size() == 1; }));
    EXPECT_EQ(store.lives().size(), kept);
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
    const v1::CourtCard card = without_presence(*keeper->board().card(1));
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
    EXPECT_EQ(without_presence(*keeper->board().card(1)).SerializeAsString(),
              card.SerializeAsString());
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
