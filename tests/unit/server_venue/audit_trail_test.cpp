// The audit without a database.
#include <gtest/gtest.h>

#include <atomic>
#include <stdexcept>
#include <thread>

#include "server/audit/audit_trail.h"
#include "tests/testkit/eventually.h"
#include "tests/testkit/told_faults.h"

namespace courthand::server::audit {
namespace {

using testkit::eventually;

/// A store that can be away.
class MovingStore final : public AuditStore {
  public:
    Status add(const AuditEntry& entry) override {
        if (throws) throw std::runtime_error{"no memory"};
        if (away) return Status::failed(StatusCode::unavailable, "away", "wait");
        const Status kept = store_->add(entry);
        if (!unconfirmed) return kept;
        ++in_doubt;
        if (slow) std::this_thread::sleep_for(std::chrono::milliseconds{1100});
        return Status::failed(StatusCode::in_doubt, "not confirmed", "look");
    }
    Result<std::vector<AuditEntry>> list(std::uint64_t before, std::size_t most) override {
        return store_->list(before, most);
    }
    std::vector<AuditEntry> all() { return *list(0, 100000); }
    /// Waits until so many are kept.
    bool has(std::size_t count) {
        return eventually([&] { return all().size() >= count; }) && all().size() == count;
    }

    std::atomic<bool> away = false;
    std::atomic<bool> throws = false;
    std::atomic<bool> unconfirmed = false;  ///< it keeps, and does not say so
    std::atomic<bool> slow = false;         ///< in saying so
    std::atomic<int> in_doubt = 0;

  private:
    std::unique_ptr<AuditStore> store_ = make_memory_audit_store();
};

class Trail : public ::testing::Test {
  protected:
    AuditEntry entry(std::string act, std::string detail = {}) {
        return {0,
                {},
                auth::Caller{DeviceId{new_uuid()}, auth::Seat::desk, 0},
                std::move(act),
                {},
                std::move(detail),
                false};
    }

    std::atomic<std::int64_t> seconds = 0;
    MovingStore store;
    std::unique_ptr<AuditTrail> trail = std::make_unique<AuditTrail>(
        store, [this] { return SteadyTime{std::chrono::seconds{seconds}}; });
};

TEST_F(Trail, AnActIsKeptWhenTheCallReturns) {
    trail->act(entry("grant"));
    ASSERT_EQ(store.all().size(), 1U);
    EXPECT_EQ(store.all().front().act, "grant");
    EXPECT_NE(store.all().front().at, auth::Instant{});
}

TEST_F(Trail, AnActOfAnHourWithoutDatabaseIsKeptLater) {
    store.away = true;
    trail->act(entry("grant"));
    EXPECT_TRUE(store.all().empty());
    store.away = false;
    EXPECT_TRUE(store.has(1));
}

// A database whose standby is lost keeps each row and does not confirm it: it had one more of it
// every few seconds.
TEST_F(Trail, ARowThatIsKeptButNotConfirmedStandsThereOnce) {
    store.unconfirmed = true;
    trail->act(entry("grant"));
    trail->refused("address", entry("enrol", "no such code"));
    EXPECT_TRUE(eventually([&] { return store.in_doubt >= 4; }));
    store.unconfirmed = false;
    trail.reset();
    EXPECT_EQ(store.all().size(), 2U);
}

// The server must stop before it is killed.
TEST_F(Trail, AStoreThatWasJustWaitedForInVainIsNotWaitedForAgainAtTheEnd) {
    store.unconfirmed = store.slow = true;
    trail->refused("address", entry("enrol", "no such code"));
    EXPECT_TRUE(eventually([&] { return store.in_doubt > 0; }));
    trail.reset();
    EXPECT_EQ(store.in_doubt, 1);
}

// The act is kept with its row, and nobody can say so: that row stands, and no other beside it.
TEST_F(Trail, AnActInDoubtThatWasDoneIsNotARefusalToo) {
    std::optional<AuditTrail::Act> act{std::in_place, *trail, entry("grant")};
    const Uuid row = act->id();
    AuditEntry done = entry("grant");
    done.id = row;
    ASSERT_TRUE(store.add(done).ok());
    act.reset();
    AuditEntry refused = entry("grant", "not confirmed");
    refused.id = row;
    trail->refused("device", refused);
    trail.reset();
    ASSERT_EQ(store.all().size(), 1U);
    EXPECT_FALSE(store.all().front().refused);
}

TEST_F(Trail, WhoIsRefusedAgainAndAgainGetsAFewLinesAndOneThatCounts) {
    for (std::uint32_t i = 0; i < AuditTrail::most_refusals_a_minute + 25; ++i)
        trail->refused("ipv4:192.0.2.7", entry("enrol", "no such code"));
    trail->refused("ipv4:192.0.2.8", entry("enrol", "another address has its own count"));
    EXPECT_TRUE(store.has(AuditTrail::most_refusals_a_minute + 1));
    seconds = 61;
    EXPECT_TRUE(store.has(AuditTrail::most_refusals_a_minute + 2));
    const AuditEntry last = store.all().front();
    EXPECT_TRUE(last.refused);
    EXPECT_EQ(last.detail, "25 more refusals within a minute; the last: no such code");
    trail->refused("ipv4:192.0.2.7", entry("enrol", "a new minute"));
    EXPECT_TRUE(store.has(AuditTrail::most_refusals_a_minute + 3));
}

TEST_F(Trail, ManyAddressesShareOneCountInTheEnd) {
    for (std::size_t i = 0; i < AuditTrail::most_sources + 500; ++i)
        trail->refused("address " + std::to_string(i), entry("enrol"));
    trail.reset();
    const std::size_t kept = store.all().size();
    EXPECT_LE(kept, AuditTrail::most_sources + AuditTrail::most_refusals_a_minute + 1);
    EXPECT_GE(kept, AuditTrail::most_sources);
}

TEST_F(Trail, WhatIsTooMuchWhileTheDatabaseIsAwayIsCounted) {
    store.away = true;
    for (std::size_t i = 0; i < AuditTrail::most_waiting + 7; ++i) trail->act(entry("claim"));
    store.away = false;
    ASSERT_TRUE(store.has(AuditTrail::most_waiting + 1));
    EXPECT_NE(store.all().front().detail.find("7 lines were lost"), std::string::npos)
        << store.all().front().detail;
}

// Its last try was made where nothing caught what it threw.
TEST_F(Trail, AStoreThatThrowsEndsNothing) {
    const testing::ToldFaults faults;
    store.throws = true;
    trail->refused("address", entry("enrol"));
    trail.reset();
    EXPECT_TRUE(store.all().empty());
}

TEST_F(Trail, TextIsCutAtALetterAndHasNoControlCharacters) {
    std::string words(499, 'a');
    words += "\xC3\xA9";  // its second byte would be number 501
    trail->act(entry("claim", words));
    EXPECT_EQ(store.all().front().detail, std::string(499, 'a'));
    trail->act(entry("claim", "one\ntwo\x7F"));
    EXPECT_EQ(store.all().front().detail, "one two ");
}

}  // namespace
}  // namespace courthand::server::audit
