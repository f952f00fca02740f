// What the stores of refused entries, of devices heard and of the audit promise.
#pragma once

#include <algorithm>

#include "server/domain/record_start.h"
#include "stores_contract.h"

namespace courthand::server::testing {

class RefusedInStore : public VenueStores {
  protected:
    using Refusal = Refusals::Refusal;
    static Refusal refusal(MatchId match, DeviceId device, int minute = 0) {
        Refusal made;
        made.match = match;
        made.device = device;
        made.court = 2;
        made.number = 7;
        made.cause = Cause::other_court;
        made.message = "not here";
        made.since = ServerTime{} + std::chrono::hours{500'000} + std::chrono::minutes{minute};
        made.entry = EntryId{new_uuid()};
        made.hash = hash_of("bytes of entry 7");
        return made;
    }
    static Refusals::Changes change(const Refusal& refusal) {
        return {{{refusal.match, refusal.device}, refusal}};
    }
    std::vector<Refusal> exchange(const Refusals::Changes& changes = {}) {
        auto all = stores_.refused.exchange(changes);
        EXPECT_TRUE(all.ok()) << all.status().text();
        return all.ok() ? *std::move(all) : std::vector<Refusal>{};
    }
};

TEST_F(RefusedInStore, AreSharedAsTheyWereToldUntilTheyAreTakenBack) {
    const Refusal one = refusal(MatchId{new_uuid()}, DeviceId{new_uuid()});
    EXPECT_EQ(exchange(change(one)), std::vector{one});
    EXPECT_EQ(exchange(), std::vector{one});
    EXPECT_TRUE(exchange({{{one.match, one.device}, std::nullopt}}).empty());
}

TEST_F(RefusedInStore, AnotherCauseTakesThePlaceAndTheTimeStays) {
    const Refusal first = refusal(MatchId{new_uuid()}, DeviceId{new_uuid()});
    (void)exchange(change(first));
    Refusal later = refusal(first.match, first.device, 9);
    later.cause = Cause::id_used;
    (void)exchange(change(later));
    later.since = first.since;
    EXPECT_EQ(exchange(), std::vector{later});
}

TEST_F(RefusedInStore, OfOneDeviceTheNewestStay) {
    const DeviceId device{new_uuid()};
    const Refusal other = refusal(MatchId{new_uuid()}, DeviceId{new_uuid()});
    (void)exchange(change(other));
    for (int i = 0; i < static_cast<int>(Refusals::most_of_a_device) + 2; ++i)
        (void)exchange(change(refusal(MatchId{new_uuid()}, device, i)));
    const auto all = exchange();
    EXPECT_EQ(all.size(), Refusals::most_of_a_device + 1);
    const bool newest = std::all_of(all.begin(), all.end(), [&](const Refusal& one) {
        return one.device != device || one.since >= refusal({}, {}, 2).since;
    });
    EXPECT_TRUE(newest);
}

TEST_F(RefusedInStore, WhatStandsInARecordByNowIsForgotten) {
    MatchPlan plan;
    plan.key = {twin_->tournament(), MatchId{new_uuid()}};
    plan.profile = "international-2025";
    ASSERT_TRUE(stores_.matches.create_match(plan).ok());
    const DeviceId device{new_uuid()};
    Refusal one = refusal(plan.key.match, device);
    AppendItem item;
    item.match = plan.key.match;
    item.id = one.entry;
    item.device = device;
    item.epoch = 1;
    item.number = 1;
    item.previous = start_hash(item.match);
    item.bytes = std::make_shared<const std::string>("bytes of entry 7");
    item.hash = one.hash;
    EXPECT_EQ(exchange(change(one)).size(), 1U);
    ASSERT_TRUE(stores_.matches.append(twin_->tournament(), {&item, 1}).ok());
    EXPECT_TRUE(exchange().empty());
}

class HeardInStore : public VenueStores {
  protected:
    using Heard = venue::HeardDevices::Heard;
    static Heard heard(DeviceId device, std::chrono::milliseconds ago) {
        const alerts::Now now = alerts::system_now();
        return {device, 2, {now.wall - ago, now.steady - ago}};
    }
    std::vector<Heard> exchange(const std::vector<Heard>& untold = {}) {
        auto all = stores_.heard.exchange(untold);
        EXPECT_TRUE(all.ok()) << all.status().text();
        return all.ok() ? *std::move(all) : std::vector<Heard>{};
    }
};

TEST_F(HeardInStore, TheNewestOfAllServersCounts) {
    using std::chrono::seconds;
    const DeviceId one{new_uuid()};
    const DeviceId other{new_uuid()};
    (void)exchange({heard(one, seconds{30}), heard(other, seconds{10})});
    (void)exchange({heard(one, seconds{5})});
    const auto all = exchange({heard(one, seconds{60})});
    ASSERT_EQ(all.size(), 2U);
    EXPECT_EQ(all.front().device, one) << "the one heard last comes first";
    EXPECT_EQ(all.front().court, 2U);
    const auto age = alerts::system_now().steady - all.front().at.steady;
    EXPECT_GE(age, seconds{4});
    EXPECT_LT(age, seconds{30});
}

TEST_F(HeardInStore, ADeviceOfYesterdayIsForgotten) {
    (void)exchange({heard(DeviceId{new_uuid()}, std::chrono::hours{25})});
    EXPECT_TRUE(exchange().empty());
}

class AuditRows : public VenueStores {
  protected:
    static audit::AuditEntry row(const std::string& act) {
        audit::AuditEntry made;
        made.at = auth::Instant{} + std::chrono::hours{500'000};
        made.who = auth::Caller{DeviceId{new_uuid()}, auth::Seat::table, 3};
        made.act = act;
        made.subject = "a match";
        made.detail = "a word";
        made.id = new_uuid();
        return made;
    }
};

TEST_F(AuditRows, AreListedFromTheNewestPageByPage) {
    for (const char* act : {"one", "two", "three"}) ASSERT_TRUE(stores_.audit.add(row(act)).ok());
    const auto page = stores_.audit.list(0, 2);
    ASSERT_TRUE(page.ok());
    ASSERT_EQ(page->size(), 2U);
    EXPECT_EQ(page->front().act, "three");
    EXPECT_EQ(page->front().who->court, 3U);
    EXPECT_EQ(page->front().detail, "a word");
    const auto rest = stores_.audit.list(page->back().number, 2);
    ASSERT_EQ(rest->size(), 1U);
    EXPECT_EQ(rest->front().act, "one");
}

TEST_F(AuditRows, WhoBeginsToWriteWithoutAGrantHasOne) {
    MatchPlan plan;
    plan.key = {twin_->tournament(), MatchId{new_uuid()}};
    plan.profile = "international-2025";
    ASSERT_TRUE(stores_.matches.create_match(plan).ok());
    const DeviceId device{new_uuid()};
    AppendItem item;
    item.match = plan.key.match;
    item.device = device;
    item.epoch = 1;
    item.previous = start_hash(item.match);
    for (EntryNumber number = 1; number <= 2; ++number) {
        item.id = EntryId{new_uuid()};
        item.number = number;
        item.bytes = std::make_shared<const std::string>(to_text(item.id));
        item.hash = hash_of(*item.bytes);
        ASSERT_TRUE(stores_.matches.append(twin_->tournament(), {&item, 1}).ok());
        item.previous = item.hash;
    }
    const auto rows = stores_.audit.list(0, 9);
    ASSERT_TRUE(rows.ok());
    ASSERT_EQ(rows->size(), 1U) << "once for an epoch";
    EXPECT_EQ(rows->front().act, "begin-writing");
    EXPECT_EQ(rows->front().who->device, device);
    EXPECT_EQ(rows->front().who->seat, auth::Seat::table);
    EXPECT_EQ(rows->front().subject, to_text(item.match));
    EXPECT_EQ(rows->front().detail, "epoch 1, from entry 1: sent the first entry");
    EXPECT_FALSE(rows->front().refused);
}

TEST_F(AuditRows, ARowThatIsSentAgainStandsThereOnce) {
    audit::AuditEntry one = row("one");
    ASSERT_TRUE(stores_.audit.add(one).ok());
    ASSERT_TRUE(stores_.audit.add(one).ok());
    EXPECT_EQ(stores_.audit.list(0, 9)->size(), 1U);
    one.id = {};
    ASSERT_TRUE(stores_.audit.add(one).ok());
    ASSERT_TRUE(stores_.audit.add(one).ok());
    EXPECT_EQ(stores_.audit.list(0, 9)->size(), 3U) << "without an id each is a new one";
}

}  // namespace courthand::server::testing
