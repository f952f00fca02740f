// A keeper of the venue on a store in memory and a clock that is a number.
#pragma once

#include <gtest/gtest.h>

#include <atomic>
#include <condition_variable>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "courthand/v1/sync.pb.h"
#include "match_kit.h"
#include "server/venue/venue_keeper.h"

namespace courthand::server::venue {

class HandClock {
  public:
    alerts::Now now() const {
        const auto since = std::chrono::hours{1000} + std::chrono::seconds{second_.load()};
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

/// What `testing::illegal_replacement` is an alert of.
inline constexpr const char* fault = "libero-no-completed-rally";

}  // namespace courthand::server::venue
