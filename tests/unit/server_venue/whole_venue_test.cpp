// A venue from the push of a table to the board of the head official and back, and over restarts,
// without network and database.
#include "whole_venue.h"

#include <fstream>
#include <iterator>

#include "match_kit.h"
#include "server/desk/event_opening.h"
#include "server/service/watch_session.h"
#include "server/testing/or_throw.h"

namespace courthand::server::testing {
namespace {

constexpr const char* fault = "libero-no-completed-rally";

class WholeVenueTest : public WholeVenue {
  protected:
    TestRecord faulty() {
        return record_of(ready_to_serve + illegal_replacement, new_match_id(), table.device);
    }
    /// What a watch of the table's court is sent from its beginning, until it waits.
    std::vector<v1::WatchResponse> watched_court() {
        service::WatchWish wish;
        wish.watched = service::WatchedCourt{1};
        wish.table = table.device;
        service::WatchSession session{wish,
                                      {stores.tournament().id, server().keeper, server().hub}};
        std::vector<v1::WatchResponse> all;
        while (true) {
            switch (session.next(all)) {
                case service::WatchSession::Next::messages:
                    break;
                case service::WatchSession::Next::wait:
                    return all;
                case service::WatchSession::Next::read_store:
                    throw_if_failed(session.read_store(stores.matches));
                    break;
            }
        }
    }
    std::vector<v1::RulingNotice> rulings_for_the_table() {
        std::vector<v1::RulingNotice> all;
        for (const v1::WatchResponse& response : watched_court())
            if (response.has_ruling()) all.push_back(response.ruling());
        return all;
    }
};

TEST_F(WholeVenueTest, APushComesToTheBoardAndARulingBackToTheTable) {
    start();
    const TestRecord record = faulty();
    EXPECT_TRUE(all_appended(push(record)));
    ASSERT_TRUE(shows(fault, v1::ALERT_STATE_OPEN));
    ASSERT_TRUE(card_shows(record.size()));
    EXPECT_EQ(keeper().board().card(1)->a().name(), "Harbour Lights");

    const std::string id = alert(fault)->alert_id();
    const auto claimed = keeper().claim(id, "head official");
    ASSERT_TRUE(claimed.ok()) << claimed.status().text();
    EXPECT_EQ(keeper().claim(id, "deputy").status().code, StatusCode::not_now);
    ASSERT_TRUE(keeper().rule(id, true, "six at contact was wrong", "head official").ok());
    EXPECT_EQ(alert(fault)->state(), v1::ALERT_STATE_RULED) << "before it is answered";
    ASSERT_TRUE(testkit::eventually([&] { return rulings_for_the_table().size() == 1; }));
    EXPECT_EQ(rulings_for_the_table().front().alert_id(), id);
    EXPECT_TRUE(testkit::eventually([&] { return keeper().board().card(1)->alerts_open() == 0; }));
}

TEST_F(WholeVenueTest, AnotherServerOnTheSameStoresGoesOn) {
    start();
    TestRecord record = faulty();
    ASSERT_TRUE(all_appended(push(record)));
    ASSERT_TRUE(shows(fault, v1::ALERT_STATE_OPEN));
    ASSERT_TRUE(keeper().claim(alert(fault)->alert_id(), "deputy").ok());
    ASSERT_TRUE(card_shows(record.size()));
    const v1::Alert before = *alert(fault);
    const v1::CourtCard card = *keeper().board().card(1);
    stop();
    start();
    ASSERT_TRUE(shows(fault, v1::ALERT_STATE_CLAIMED));
    EXPECT_EQ(alert(fault)->claimed_by(), "deputy");
    EXPECT_EQ(alert(fault)->since_us(), before.since_us());
    ASSERT_TRUE(card_shows(record.size()));
    EXPECT_EQ(keeper().board().card(1)->score().a(), card.score().a());
    // And the table goes on where it was.
    const std::uint32_t had = record.size();
    record.add(RallyWon{Team::B});
    EXPECT_TRUE(all_appended(push(record, had + 1)));
    EXPECT_TRUE(card_shows(record.size()));
    EXPECT_EQ(stores.alerts.lives().size(), 2U) << "opened and claimed, nothing twice";
}

TEST_F(WholeVenueTest, WhatCouldNotBeTakenIsToldAndGoesWhenItStandsInTheRecord) {
    start();
    TestRecord record = faulty();
    ASSERT_TRUE(all_appended(push(record)));
    record.add(RallyWon{Team::B});
    TestRecord elsewhere{record.match(), DeviceId{new_uuid()}};
    elsewhere.add_rallies(1);
    const auto refused = push(elsewhere);
    ASSERT_EQ(refused.results(0).cause(), v1::PushResult::CAUSE_NOT_ITS_DEVICE);
    ASSERT_TRUE(shows("entries-refused", v1::ALERT_STATE_OPEN));
    ASSERT_TRUE(testkit::eventually([&] { return stores.refused.exchange({})->size() == 1; }));
    EXPECT_TRUE(all_appended(push(record, record.size())));
    EXPECT_TRUE(testkit::eventually([&] {
        later(std::chrono::seconds{1});
        const auto one = alert("entries-refused");
        return one && one->state() == v1::ALERT_STATE_CLEARED;
    }));
    EXPECT_TRUE(testkit::eventually([&] { return stores.refused.exchange({})->empty(); }));
}

/// What the tests of the venue open from outside.
desk::EventScriptRead four_courts() {
    std::ifstream in{COURTHAND_FOUR_COURTS, std::ios::binary};
    const std::string text{std::istreambuf_iterator<char>{in}, {}};
    return value_or_throw(desk::read_event_script(text, "four_courts.event"));
}

TEST_F(WholeVenueTest, AnEventHasACardForEachCourt) {
    {
        start();
        throw_if_failed(server().open_event(four_courts()));
        stop();
    }
    start();
    const auto courts = server().desk.courts();
    ASSERT_TRUE(courts.ok());
    ASSERT_FALSE(courts->empty());
    EXPECT_TRUE(testkit::eventually(
        [&] { return keeper().board().news(std::nullopt).cards.size() == courts->size(); }));
}

}  // namespace
}  // namespace courthand::server::testing
