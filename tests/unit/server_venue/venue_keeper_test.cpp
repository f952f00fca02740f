// What holds in a venue comes to its board and goes from it.
#include <gtest/gtest.h>

#include <thread>

#include "keeper_kit.h"
#include "server/venue/alert_message.h"

namespace courthand::server::venue {
namespace {

using testing::illegal_replacement;
using testing::match_of;
using testing::ready_to_serve;

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

TEST_F(KeeperTest, ASecondForkRaisesAnotherAlert) {
    start();
    keeper->on_rebuilt();
    LiveMatch match = match_of(ready_to_serve);
    match.branches = {1};
    keeper->on_branch_stored({match, 1, {}, 1, 5, {}, 0});
    ASSERT_TRUE(shows("record-forked", v1::ALERT_STATE_OPEN));
    ASSERT_TRUE(
        keeper->rule(alert_of("record-forked").alert_id(), false, "", "head official").ok());
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
        clock.set(std::chrono::seconds{second += 60});
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
    clock.set(std::chrono::seconds{300});
    show(match, MatchChanged::Cause::described);
    ASSERT_TRUE(comes([](const BoardNews& news) {
        const v1::Alert* alert = alert_in(news, "take-over-asked");
        return alert && alert->text().find("not been heard for 5 min") != std::string::npos;
    })) << alert_of("take-over-asked").text();
    const v1::Alert alert = alert_of("take-over-asked");
    EXPECT_EQ(alert.asking_device(), to_bytes(match.asked->device.value));
    EXPECT_EQ(alert.severity(), v1::SEVERITY_HIGH);
    EXPECT_EQ(alert.match_id(), to_bytes(match.key.match.value));
    EXPECT_EQ(keeper->rule(alert.alert_id(), true, "", "head official").status().code,
              StatusCode::not_now)
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
    clock.set(std::chrono::seconds{20});
    EXPECT_TRUE(shows("entries-refused", v1::ALERT_STATE_CLEARED));
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
    clock.set(std::chrono::seconds{81});
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
    clock.set_wall_back(std::chrono::hours{1});
    clock.set(std::chrono::seconds{20});
    keeper->on_device_seen({{}, {}, 1, {}});
    const auto back = microseconds(now_of(clock).wall);
    ASSERT_TRUE(comes([&](const BoardNews& news) {
        return news.cards.front().last_seen_us() == back;
    })) << "the card follows the clock";
    clock.set(std::chrono::seconds{81});
    EXPECT_TRUE(shows("court-not-seen", v1::ALERT_STATE_OPEN));
}

TEST_F(KeeperTest, AnEmptyCourtHasACard) {
    start();
    keeper->on_rebuilt();
    keeper->set_courts({1, 4});
    EXPECT_TRUE(comes([](const BoardNews& news) { return news.cards.size() == 2; }));
    EXPECT_TRUE(keeper->board().card(4)->match_id().empty());
}

// The board shows one of them, and nobody was told of the other.
TEST_F(KeeperTest, TwoMatchesInPlayOnOneCourtAreToldToTheDesk) {
    start();
    keeper->on_rebuilt();
    const auto rally = ready_to_serve + "serve\nrally A\n";
    const auto on_court = [&](std::uint8_t number, std::uint32_t court) {
        LiveMatch match = match_of(rally, number);
        match.plan.key = match.key;
        match.plan.court = court;
        show(match, MatchChanged::Cause::described);
    };
    on_court(4, 3);
    on_court(7, 3);
    const auto becomes = [this](v1::AlertState state) {
        return comes([this, state, second = 0](const BoardNews& news) mutable {
            clock.set(std::chrono::seconds{second += 10});
            const v1::Alert* alert = alert_in(news, "court-crowded");
            return alert && alert->state() == state;
        });
    };
    ASSERT_TRUE(becomes(v1::ALERT_STATE_OPEN));
    EXPECT_NE(alert_of("court-crowded").text().find("Court 3: match 4, match 7"), std::string::npos)
        << alert_of("court-crowded").text();
    EXPECT_EQ(alert_of("court-crowded").court(), 3U);
    on_court(7, 5);
    EXPECT_TRUE(becomes(v1::ALERT_STATE_CLEARED));
}

TEST_F(KeeperTest, TheNextMatchOfACourtIsNotInPlayYet) {
    start();
    keeper->on_rebuilt();
    keeper->set_courts({3});
    LiveMatch now = match_of(ready_to_serve + "serve\nrally A\n", 4);
    LiveMatch next = match_of(
        "# common practice, no source: teams only\n"
        "profile international-2025\n"
        "team A \"Harbour Lights\" players 1-6 captain 3\n",
        7);
    for (LiveMatch* match : {&now, &next}) {
        match->plan.key = match->key;
        match->plan.court = 3;
        show(*match, MatchChanged::Cause::described);
    }
    // Silence is told in the same rounds, after them.
    ASSERT_TRUE(comes([this, second = 0](const BoardNews& news) mutable {
        clock.set(std::chrono::seconds{second += 10});
        return alert_in(news, "court-not-seen") != nullptr;
    }));
    EXPECT_EQ(alert_of("court-crowded").court(), 0U) << alert_of("court-crowded").text();
}

}  // namespace
}  // namespace courthand::server::venue
