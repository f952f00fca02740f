// What people do about alerts, at one server and at two.
#include <gtest/gtest.h>

#include <condition_variable>
#include <mutex>
#include <thread>

#include "keeper_kit.h"
#include "server/domain/record_start.h"
#include "server/venue/ruling_notice.h"
#include "tests/testkit/eventually.h"

namespace courthand::server::venue {
namespace {

using testing::find_code;
using testing::illegal_replacement;
using testing::match_of;
using testing::ready_to_serve;

TEST_F(KeeperTest, ARulingIsKeptAndSentToTheTable) {
    start();
    keeper->on_rebuilt();
    const LiveMatch match = match_of(ready_to_serve + illegal_replacement);
    show(match);
    ASSERT_TRUE(shows(fault, v1::ALERT_STATE_OPEN));
    const std::string id = alert_of(fault).alert_id();
    const auto act = keeper->rule(id, true, "six at contact was wrong", "head official");
    ASSERT_TRUE(act.ok());
    EXPECT_EQ(act->state(), v1::ALERT_STATE_RULED);
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
    ASSERT_EQ(keeper->rule(id, true, "", "head official").status().code, StatusCode::unavailable);
    EXPECT_EQ(alert_of(fault).state(), v1::ALERT_STATE_OPEN) << "not kept, not ruled";
    store.fail_with(Status::fine());
    EXPECT_TRUE(rulings().empty());
    ASSERT_TRUE(keeper->rule(id, true, "", "head official").ok());
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

/// Two servers of one venue.
class TwoKeepers : public KeeperTest {
  protected:
    /// Both hear of the same fault; `id` is its alert at both.
    void both_show_one(std::string& id) {
        start();
        ASSERT_TRUE(other.start().ok());
        const LiveMatch match = match_of(ready_to_serve + illegal_replacement);
        for (VenueKeeper* each : {keeper.get(), &other}) {
            each->on_rebuilt();
            each->on_match_changed({MatchChanged::Cause::appended, match, 0, 0, {}, 0});
        }
        ASSERT_TRUE(shows(fault, v1::ALERT_STATE_OPEN));
        id = alert_of(fault).alert_id();
        ASSERT_TRUE(testkit::eventually([&] { return other.board().alert(id).has_value(); }));
    }

    VenueKeeper other{TournamentId{}, store, [this] { return now_of(clock); }, {}};
};

TEST_F(TwoKeepers, TwoServersOnOneAlertTheSecondClaimIsToldWhoWasFirst) {
    std::string id;
    ASSERT_NO_FATAL_FAILURE(both_show_one(id));
    ASSERT_TRUE(keeper->claim(id, "head official").ok());
    const auto second = other.claim(id, "deputy");
    ASSERT_EQ(second.status().code, StatusCode::not_now);
    EXPECT_NE(second.status().message.find("head official"), std::string::npos);
    EXPECT_EQ(other.board().alert(id)->claimed_by(), "head official");
    ASSERT_TRUE(other.rule(id, true, "seen", "deputy").ok());
    const auto late = keeper->rule(id, false, "", "head official");
    ASSERT_EQ(late.status().code, StatusCode::not_now) << "ruled once, by the first";
    EXPECT_EQ(rulings().size(), 1U);
}

TEST_F(TwoKeepers, AClaimAtOneServerIsShownAtTheOther) {
    std::string id;
    ASSERT_NO_FATAL_FAILURE(both_show_one(id));
    ASSERT_TRUE(other.claim(id, "deputy").ok());
    FeedItem word;
    word.kind = store.notices().front().kind;
    word.bytes = std::make_shared<const std::string>(store.notices().front().bytes);
    keeper->on_notice(word);
    EXPECT_TRUE(shows(fault, v1::ALERT_STATE_CLAIMED));
    EXPECT_EQ(alert_of(fault).claimed_by(), "deputy");
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
    testkit::HandClock clock;
    VenueKeeper keeper{TournamentId{}, store, [&] { return now_of(clock); }, {}};
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

}  // namespace
}  // namespace courthand::server::venue
