// A keeper of the venue on a store in memory and a clock that is a number.
#pragma once

#include <gtest/gtest.h>

#include <memory>
#include <string>
#include <vector>

#include "courthand/v1/sync.pb.h"
#include "match_kit.h"
#include "server/venue/venue_keeper.h"
#include "tests/testkit/eventually.h"
#include "tests/testkit/hand_clock.h"

namespace courthand::server::venue {

/// What the keeper reads from the test's clock.
[[nodiscard]] inline alerts::Now now_of(testkit::HandClock& clock) {
    const auto steady = clock.steady();
    return {ServerTime{} + clock.wall(), alerts::Steady{} + steady};
}

/// A keeper that can be stopped and started again on the same store.
class KeeperTest : public ::testing::Test {
  protected:
    void start() {
        keeper = std::make_unique<VenueKeeper>(
            TournamentId{}, store, [this] { return now_of(clock); },
            [this] { return refusals.now(); });
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

    /// Waits until the board shows it.
    template <class Holds>
    ::testing::AssertionResult comes(Holds holds) {
        return testkit::eventually([&] { return holds(keeper->board().news(std::nullopt)); });
    }
    static const v1::Alert* alert_in(const BoardNews& news, const std::string& code) {
        for (const v1::Alert& alert : news.alerts)
            if (alert.code() == code) return &alert;
        return nullptr;
    }
    ::testing::AssertionResult shows(const std::string& code, v1::AlertState state) {
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

    testkit::HandClock clock;
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
    std::unique_ptr<VenueKeeper> keeper;
};

/// What `testing::illegal_replacement` is an alert of.
inline constexpr const char* fault = "libero-no-completed-rally";

}  // namespace courthand::server::venue
