// A keeper that starts again, or whose database went back.
#include <gtest/gtest.h>

#include <thread>

#include "keeper_kit.h"
#include "server/venue/history_part.h"
#include "tests/testkit/eventually.h"

namespace courthand::server::venue {
namespace {

using testing::illegal_replacement;
using testing::match_of;
using testing::ready_to_serve;

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
    ASSERT_TRUE(testkit::eventually([&] { return !store.lives().empty(); }));
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
    ASSERT_TRUE(keeper->rule(alert_of(fault).alert_id(), true, "", "head official").ok());
    restart_with(match);
    ASSERT_TRUE(comes([](const BoardNews& news) { return news.cards.size() == 1; }));
    ASSERT_TRUE(shows(fault, v1::ALERT_STATE_RULED)) << "not raised again";
    EXPECT_EQ(store.loaded(), 2U) << "the two steps of the one whose condition holds";
}

TEST_F(KeeperTest, ARestartNeitherRaisesAgainNorForgetsWhoIsOnTheWay) {
    const LiveMatch match = match_of(ready_to_serve + illegal_replacement);
    start();
    keeper->on_rebuilt();
    show(match);
    ASSERT_TRUE(shows(fault, v1::ALERT_STATE_OPEN));
    const v1::Alert before = alert_of(fault);
    ASSERT_TRUE(keeper->claim(before.alert_id(), "deputy").ok());
    const std::size_t kept = store.lives().size();

    clock.set(std::chrono::seconds{500});
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

}  // namespace
}  // namespace courthand::server::venue
