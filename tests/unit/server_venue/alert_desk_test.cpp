// The desk of alerts on a store that is away, slow to be reached, or shared with another server.
#include <gtest/gtest.h>

#include <functional>
#include <future>
#include <utility>

#include "server/venue/alert_desk.h"

namespace courthand::server::venue {
namespace {

using alerts::Condition;
using alerts::Kind;
using alerts::LifeEntry;
using alerts::Now;
using What = LifeEntry::What;

Now at(int second) {
    const auto since = std::chrono::hours{1000} + std::chrono::seconds{second};
    return {alerts::Instant{} + since, alerts::Steady{} + since};
}

std::vector<Condition> faults(std::size_t count, Kind kind = Kind::wrong_server) {
    std::vector<Condition> all;
    for (std::size_t i = 0; i < count; ++i) {
        Condition& made = all.emplace_back();
        made.id = "m/" + std::to_string(i);
        made.kind = kind;
        made.code = alerts::row_of(kind).word;
        made.court = 1;
        made.pressing = true;
    }
    return all;
}

const Status away = Status::failed(StatusCode::unavailable, "the database is away");

/// A store at which something else happens before it does what it is asked for.
class Interrupted final : public alerts::AlertStore {
  public:
    using Happens = std::function<void()>;
    Status append(std::span<const LifeEntry> entries,
                  std::span<const FeedNotice> notices) override {
        if (before_append) before_append();
        return kept.append(entries, notices);
    }
    Status append_act(const LifeEntry& entry, std::span<const FeedNotice> notices) override {
        if (before_act) std::exchange(before_act, {})();
        return kept.append({&entry, 1}, notices);
    }
    Result<std::vector<LifeEntry>> load_live() override { return kept.load_live(); }
    Result<std::vector<LifeEntry>> load(std::span<const alerts::AlertId> ids) override {
        auto read = kept.load(ids);
        if (after_load) std::exchange(after_load, {})();
        return read;
    }

    alerts::MemoryAlertStore kept;
    Happens before_append;
    Happens before_act;  ///< once
    Happens after_load;  ///< once
};

struct OnMemory {
    explicit OnMemory(alerts::AlertStore& store) : desk{store, board} {}
    std::string claimed_by(const std::string& id) const {
        const auto alert = board.alert(id);
        return alert ? alert->claimed_by() : std::string{};
    }
    Board board;
    AlertDesk desk;
};

TEST(AlertDesk, WhatHappensWhileTheDatabaseIsAwayIsKeptWhenItIsBack) {
    alerts::MemoryAlertStore store;
    OnMemory venue{store};
    store.fail_with(away);
    venue.desk.observe("m", faults(3), at(0));
    EXPECT_FALSE(venue.desk.keep(at(0)).ok());
    EXPECT_EQ(venue.desk.size(), 3U) << "people see them all the same";
    store.fail_with(Status::fine());
    EXPECT_TRUE(venue.desk.keep(at(1)).ok());
    EXPECT_EQ(store.lives().size(), 3U);
    EXPECT_EQ(venue.desk.waiting(), 0U);
}

TEST(AlertDesk, WhatWaitsForTheDatabaseIsBounded) {
    alerts::MemoryAlertStore store;
    OnMemory venue{store};
    store.fail_with(away);
    venue.desk.observe("m", faults(LifeOutbox::most_waiting + 50), at(0));
    EXPECT_EQ(venue.desk.waiting(), LifeOutbox::most_waiting);
    store.fail_with(Status::fine());
    EXPECT_TRUE(venue.desk.keep(at(1)).ok());
    EXPECT_EQ(store.lives().size(), LifeOutbox::most_waiting);
}

TEST(AlertDesk, WhereAnotherServerWasFirstItsWordHoldsAndTheOthersAreKept) {
    alerts::MemoryAlertStore store;
    OnMemory first{store};
    OnMemory second{store};
    first.desk.observe("m", faults(1), at(0));
    ASSERT_TRUE(first.desk.keep(at(0)).ok());
    second.desk.observe("m", faults(3), at(5));
    ASSERT_TRUE(second.desk.keep(at(5)).ok());
    EXPECT_EQ(store.lives().size(), 3U);
    second.desk.show();
    first.desk.show();
    EXPECT_EQ(second.board.alert("m/0")->since_us(), first.board.alert("m/0")->since_us())
        << "as the first server saw it";
    second.desk.tick(at(6));
    EXPECT_EQ(second.desk.waiting(), 0U) << "nothing is raised again";
}

TEST(AlertDesk, AnAlertThatHasLeftMemoryIsStillKnownToHaveEnded) {
    alerts::MemoryAlertStore store;
    OnMemory venue{store};
    venue.desk.observe("m", faults(1), at(0));
    ASSERT_TRUE(venue.desk.rule("m/0", true, "", "head official", at(1)).ok());
    OnMemory after_a_start{store};
    ASSERT_TRUE(after_a_start.desk.load(at(9)).ok());
    EXPECT_EQ(after_a_start.desk.size(), 0U);
    const auto again = after_a_start.desk.rule("m/0", true, "", "head official", at(9));
    EXPECT_EQ(again.status().code, StatusCode::not_now);
    EXPECT_EQ(after_a_start.desk.size(), 0U) << "it was only looked up";
}

TEST(AlertDesk, AnActIsOnTheBoardWhenItIsAnsweredAndTellsWhereCardsChange) {
    alerts::MemoryAlertStore store;
    OnMemory venue{store};
    int told = 0;
    (void)venue.board.listen([&] { ++told; });
    venue.desk.observe("m", faults(2), at(0));
    ASSERT_TRUE(venue.desk.claim("m/1", "deputy", at(1)).ok());
    EXPECT_EQ(venue.claimed_by("m/1"), "deputy");
    EXPECT_EQ(told, 1);
    EXPECT_EQ(venue.desk.take_places().courts, std::set<std::uint32_t>{1});
    EXPECT_TRUE(venue.desk.take_places().courts.empty());
    EXPECT_EQ(store.lives().size(), 2U) << "raised and claimed; the other alert can wait";
    EXPECT_EQ(venue.desk.waiting(), 1U);
}

// Both were done under one lock: whoever ruled waited for what the thread was keeping.
TEST(AlertDesk, AnActDoesNotWaitForWhatIsBeingKept) {
    Interrupted store;
    OnMemory venue{store};
    venue.desk.observe("m", faults(1), at(0));
    ASSERT_TRUE(venue.desk.keep(at(0)).ok());
    std::promise<void> entered;
    std::promise<void> let_go;
    store.before_append = [&, open = let_go.get_future().share()] {
        entered.set_value();
        open.wait();
    };
    venue.desk.observe("m", faults(2), at(1));
    const auto kept = std::async(std::launch::async, [&] { return venue.desk.keep(at(1)); });
    entered.get_future().wait();
    // These would hang behind a common lock.
    EXPECT_EQ(venue.desk.of_court(1, {}).open, 2U);
    EXPECT_TRUE(venue.desk.claim("m/0", "deputy", at(2)).ok());
    EXPECT_EQ(venue.claimed_by("m/0"), "deputy");
    venue.desk.observe("m", {}, at(3));
    venue.desk.show();
    let_go.set_value();
    kept.wait();
    EXPECT_EQ(venue.desk.waiting(), 0U);
}

TEST(AlertDesk, AnActThatWasKeptStandsThoughTheAlertEndedInMemoryMeanwhile) {
    Interrupted store;
    OnMemory venue{store};
    venue.desk.observe("m", faults(1, Kind::switch_missed), at(0));
    venue.desk.tick(at(10));
    ASSERT_TRUE(venue.desk.keep(at(10)).ok());
    ASSERT_TRUE(venue.desk.knows("m/0"));
    store.before_act = [&] {
        venue.desk.observe("m", {}, at(11));
        venue.desk.tick(at(100));
    };
    const auto acted = venue.desk.claim("m/0", "deputy", at(11));
    ASSERT_TRUE(acted.ok()) << acted.status().text();
    EXPECT_EQ(acted->claimed_by(), "deputy");
    EXPECT_EQ(venue.claimed_by("m/0"), "deputy");
    // What had ended is judged anew, behind the claim.
    venue.desk.tick(at(101));
    venue.desk.tick(at(200));
    ASSERT_TRUE(venue.desk.keep(at(200)).ok());
    const auto lives = store.kept.lives();
    ASSERT_EQ(lives.size(), 3U);
    EXPECT_EQ(lives[1].what, What::claimed);
    EXPECT_EQ(lives[2].what, What::cleared);
}

TEST(AlertDesk, ALifeThatMovedOnWhileItWasReadIsReadAgain) {
    Interrupted store;
    OnMemory venue{store};
    OnMemory other{store.kept};
    venue.desk.observe("m", faults(1), at(0));
    ASSERT_TRUE(venue.desk.keep(at(0)).ok());
    other.desk.observe("m", faults(1), at(0));
    ASSERT_TRUE(other.desk.acknowledge("m/0", "there", at(1)).ok());
    // Between what was read of the store and its place in the book somebody acts here.
    store.after_load = [&] { EXPECT_TRUE(venue.desk.claim("m/0", "here", at(2)).ok()); };
    ASSERT_TRUE(venue.desk.hear("m/0", 2, at(2)).ok());
    venue.desk.show();
    EXPECT_EQ(venue.claimed_by("m/0"), "here");
}

TEST(AlertDesk, ManyThreadsOnOneAlertLeaveOneOfThemOnTheWay) {
    alerts::MemoryAlertStore store;
    OnMemory venue{store};
    venue.desk.observe("m", faults(1), at(0));
    std::vector<std::future<bool>> claims;
    for (int i = 0; i < 8; ++i)
        claims.push_back(std::async(std::launch::async, [&, i] {
            return venue.desk.claim("m/0", "official " + std::to_string(i), at(1)).ok();
        }));
    std::size_t first = 0;
    for (auto& claim : claims) first += claim.get() ? 1U : 0U;
    EXPECT_EQ(first, 1U);
    const auto lives = store.lives();
    ASSERT_EQ(lives.size(), 2U);
    EXPECT_EQ(venue.claimed_by("m/0"), lives[1].by);
}

}  // namespace
}  // namespace courthand::server::venue
