// What another server heard of a device, on the board of this one.
#include <gtest/gtest.h>

#include "keeper_kit.h"
#include "match_kit.h"
#include "server/venue/alert_message.h"
#include "server/venue/venue_keeper.h"
#include "tests/testkit/eventually.h"

namespace courthand::server::venue {
namespace {

using std::chrono::seconds;
using testkit::eventually;

class Hearing : public ::testing::Test {
  protected:
    static alerts::Now at(int second) {
        testkit::HandClock clock;
        clock.set(seconds{second});
        return now_of(clock);
    }
    /// A server that has just started, with the match of court 1 in play.
    void start(int second) {
        clock.set(seconds{second});
        keeper = std::make_unique<VenueKeeper>(
            TournamentId{}, store, [this] { return now_of(clock); }, VenueKeeper::ReadRefusals{});
        ASSERT_TRUE(keeper->start().ok());
        keeper->set_courts({1, 2});
        keeper->on_match_changed({MatchChanged::Cause::rebuilt, match, 0, 0, {}, 0});
        keeper->on_rebuilt();
    }
    /// The other server heard a device of the court at this second.
    void learn(std::uint32_t court, int second) {
        const DeviceId device =
            court == 1 ? match.head.writer : DeviceId{testing::match_id(9).value};
        keeper->heard_devices().learn({}, {{device, court, at(second)}});
    }
    bool silent(v1::AlertState state) {
        const BoardNews news = keeper->board().news(std::nullopt);
        for (const v1::Alert& alert : news.alerts)
            if (alert.code() == "court-not-seen") return alert.state() == state;
        return false;
    }
    /// What was learnt before of the other court is on its card.
    bool seen(std::uint32_t court, int second) {
        const auto card = keeper->board().card(court);
        return card && card->last_seen_us() == microseconds(at(second).wall);
    }

    LiveMatch match = [] {
        LiveMatch live =
            testing::match_of(std::string{testing::ready_to_serve} + "serve\nrally A\n");
        live.head.writer = DeviceId{testing::match_id(7).value};
        return live;
    }();
    testkit::HandClock clock;
    alerts::MemoryAlertStore store;
    std::unique_ptr<VenueKeeper> keeper;
};

TEST_F(Hearing, ATableThatTalksToTheOtherServerIsNotSilentHere) {
    start(0);
    clock.set(seconds{81});
    ASSERT_TRUE(eventually([&] { return silent(v1::ALERT_STATE_OPEN); }));
    learn(1, 80);
    ASSERT_TRUE(eventually([&] { return seen(1, 80); }));
    EXPECT_TRUE(keeper->board().card(1)->table_staffed());
    clock.set(seconds{100});
    EXPECT_TRUE(eventually([&] { return silent(v1::ALERT_STATE_CLEARED); }));
    EXPECT_EQ(keeper->last_seen(match.head.writer), at(80).wall);
}

// A restart clears no such alert, whatever the table of the servers says of the time before.
TEST_F(Hearing, WhatWasHeardBeforeTheStartMakesNoSilentCourtSeen) {
    start(0);
    clock.set(seconds{81});
    ASSERT_TRUE(eventually([&] { return silent(v1::ALERT_STATE_OPEN); }));
    keeper.reset();
    start(100);
    learn(1, 10);
    learn(2, 100);
    ASSERT_TRUE(eventually([&] { return seen(2, 100); }));
    clock.set(seconds{120});
    learn(2, 120);
    ASSERT_TRUE(eventually([&] { return seen(2, 120); }));
    EXPECT_TRUE(silent(v1::ALERT_STATE_OPEN));
    EXPECT_EQ(keeper->last_seen(match.head.writer), at(10).wall) << "known all the same";
}

}  // namespace
}  // namespace courthand::server::venue
