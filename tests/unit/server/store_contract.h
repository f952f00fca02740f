// What every twin of the store promises. Each test program gives `Twin` a way to make its store.
#pragma once

#include <gtest/gtest.h>

#include <memory>
#include <string>
#include <vector>

#include "server/domain/record_start.h"
#include "server/store/append_plan.h"
#include "server/store/match_store.h"
#include "server/testing/or_throw.h"

namespace courthand::server::testing {

/// Made anew for each test; owns whatever the store needs.
class StoreTwin {
  public:
    virtual ~StoreTwin() = default;
    virtual MatchStore& store() = 0;
    /// As after a restore from a backup: what follows is of another generation.
    virtual void renew_generation(TournamentId tournament) = 0;
};
[[nodiscard]] std::unique_ptr<StoreTwin> make_twin();

class StoreContract : public ::testing::Test {
  protected:
    StoreContract() {
        tournament_ = value_or_throw(store().create_tournament(TournamentId{new_uuid()}, "Cup")).id;
    }
    MatchStore& store() { return twin_->store(); }

    MatchId new_match() {
        MatchPlan plan;
        plan.key = {tournament_, MatchId{new_uuid()}};
        plan.first.name = "Harbour Lights";
        plan.second.name = "Mill Lane";
        plan.court = 3;
        plan.profile = "international-2025";
        plan.profile_hash = 0xfedcba9876543210U;
        (void)value_or_throw(store().create_match(plan));
        return plan.key.match;
    }

    /// A chain of entries; what their bytes say does not matter to the store.
    std::vector<AppendItem> chain(MatchId match, DeviceId device, std::size_t count,
                                  EntryNumber first = 1, Hash previous = {}, Epoch epoch = 1) {
        if (first == 1) previous = start_hash(match);
        std::vector<AppendItem> items;
        for (std::size_t i = 0; i < count; ++i) {
            AppendItem item;
            item.match = match;
            item.id = EntryId{new_uuid()};
            item.device = device;
            item.epoch = epoch;
            item.number = first + static_cast<EntryNumber>(i);
            item.previous = previous;
            // Bytes of every value, also zero, quote and backslash.
            std::string bytes = to_text(item.id) + std::string("\0\\\"'{}\xff\x80", 8);
            item.hash = hash_of(bytes);
            item.bytes = std::make_shared<const std::string>(std::move(bytes));
            previous = item.hash;
            items.push_back(std::move(item));
        }
        return items;
    }
    std::vector<Fate> fates(const std::vector<AppendItem>& items) {
        std::vector<Fate> all;
        for (const auto& result : value_or_throw(store().append(tournament_, items)))
            all.push_back(result.fate);
        return all;
    }
    MatchHead head_of(MatchId match) {
        return value_or_throw(store().match({tournament_, match})).head;
    }
    MatchHead take_over(MatchId match, DeviceId device) {
        return value_or_throw(
            store().grant_writer({{tournament_, match}, device, GrantWish::How::taken_over, ""}));
    }
    /// The first `count` of `items`, and the rest.
    static std::vector<AppendItem> first(const std::vector<AppendItem>& items, std::size_t count) {
        return {items.begin(), items.begin() + static_cast<std::ptrdiff_t>(count)};
    }
    static std::vector<AppendItem> rest(const std::vector<AppendItem>& items, std::size_t from) {
        return {items.begin() + static_cast<std::ptrdiff_t>(from), items.end()};
    }
    /// Every position once, the numbers of the record in order, and its hashes as they are chained.
    void expect_whole_feed(MatchId match, const std::vector<AppendItem>& record) {
        const auto all = feed();
        EntryNumber number = 0;
        for (std::size_t i = 0; i < all.size(); ++i) {
            EXPECT_EQ(all[i].position, i + 1);
            if (all[i].kind != FeedItem::Kind::entry || all[i].match != match) continue;
            ASSERT_LT(number, record.size());
            EXPECT_EQ(all[i].hash, record[number].hash);
            EXPECT_EQ(all[i].branch, 0u);
            EXPECT_EQ(all[i].number, ++number);
        }
        EXPECT_EQ(number, record.size());
    }
    std::vector<FeedItem> feed() {
        FeedQuery query;
        query.tournament = tournament_;
        return value_or_throw(store().read_feed(query)).items;
    }

    std::unique_ptr<StoreTwin> twin_ = make_twin();
    TournamentId tournament_;
    DeviceId device_{new_uuid()};
};

TEST_F(StoreContract, AMatchThatHasBegunKeepsItsTeams) {
    const MatchKey key{tournament_, new_match()};
    MatchPlan plan = value_or_throw(store().match(key)).plan;
    plan.first = {TeamId{new_uuid()}, "Ropewalk", "", ""};
    EXPECT_EQ(value_or_throw(store().change_unbegun(plan)).first.name, "Ropewalk");
    plan.status = PlanStatus::confirmed;
    (void)value_or_throw(store().change_match(plan));
    EXPECT_EQ(value_or_throw(store().match(key)).plan.status, PlanStatus::confirmed);
    (void)value_or_throw(store().grant_writer({key, device_, GrantWish::How::granted, ""}));
    (void)fates(chain(key.match, device_, 1));
    plan.first.name = "Tidewater";
    EXPECT_EQ(store().change_unbegun(plan).status().code, StatusCode::conflict);
    EXPECT_EQ(value_or_throw(store().match(key)).plan.first.name, "Ropewalk");
    EXPECT_EQ(value_or_throw(store().change_match(plan)).first.name, "Tidewater");
    plan.key.match = MatchId{new_uuid()};
    EXPECT_EQ(store().change_unbegun(plan).status().code, StatusCode::not_found);
}

TEST_F(StoreContract, KeepsThePlanOfAMatchAsItWasGiven) {
    MatchPlan plan;
    plan.key = {tournament_, MatchId{new_uuid()}};
    plan.first = {TeamId{new_uuid()}, "Quayside \"One\"", "Quay\\side", "1f3a5f"};
    plan.second = {{}, "Saltmarsh", "", ""};
    plan.name = "Pool A, \"first\" match";
    plan.court = 12;
    plan.format.sets = 3;
    plan.format.cap = 27;
    plan.format.switch_at = 0;
    plan.profile = "us-domestic-2014";
    plan.profile_hash = 0x8000000000000001U;
    plan.status = PlanStatus::called;
    plan.scheduled_at = ServerTime{std::chrono::microseconds{1'767'225'600'123'456}};
    const MatchPlan made = value_or_throw(store().create_match(plan));
    EXPECT_EQ(made.number, 1u);
    const StoredMatch kept = value_or_throw(store().match(plan.key));
    EXPECT_EQ(kept.plan.first, plan.first);
    EXPECT_EQ(kept.plan.second, plan.second);
    EXPECT_EQ(kept.plan.name, plan.name);
    EXPECT_EQ(kept.plan.court, 12u);
    EXPECT_EQ(kept.plan.format, plan.format);
    EXPECT_EQ(kept.plan.profile, plan.profile);
    EXPECT_EQ(kept.plan.profile_hash, plan.profile_hash);
    EXPECT_EQ(kept.plan.status, PlanStatus::called);
    EXPECT_EQ(kept.plan.scheduled_at, plan.scheduled_at);
    EXPECT_EQ(kept.head.hash, start_hash(plan.key.match));
    EXPECT_EQ(kept.head.epoch, 0u);
    EXPECT_EQ(store().create_match(plan).status().code, StatusCode::already_exists);
    MatchPlan named = kept.plan;
    named.name = "A1";
    (void)value_or_throw(store().change_match(named));
    EXPECT_EQ(value_or_throw(store().match(plan.key)).plan.name, "A1");
}

TEST_F(StoreContract, NumbersPlannedMatchesAndLeavesOthersOut) {
    (void)new_match();
    MatchPlan opened;
    opened.key = {tournament_, MatchId{new_uuid()}};
    opened.first.name = "A";
    opened.second.name = "B";
    opened.profile = "international-2025";
    opened.opened_at_table = true;
    EXPECT_EQ(value_or_throw(store().create_match(opened)).number, 0u);
    const MatchId second = new_match();
    EXPECT_EQ(value_or_throw(store().match({tournament_, second})).plan.number, 2u);
}

TEST_F(StoreContract, TheFirstWriterOfAMatchTakesEpochOne) {
    const MatchId match = new_match();
    auto items = chain(match, device_, 3);
    const auto results = value_or_throw(store().append(tournament_, items));
    EXPECT_EQ(results[2].head.last, 3u);
    EXPECT_EQ(results[2].head.writer, device_);
    EXPECT_TRUE(results[2].head.self_granted);
    EXPECT_EQ(value_or_throw(store().match({tournament_, match})).head, results[2].head);
}

TEST_F(StoreContract, TheFeedHoldsTheBytesInTheOrderOfCommit) {
    const MatchId match = new_match();
    const auto items = chain(match, device_, 5);
    (void)fates({items.begin(), items.begin() + 2});
    (void)fates({items.begin() + 2, items.end()});
    const auto all = feed();
    ASSERT_EQ(all.size(), 6u);  // the match was described first
    EXPECT_EQ(all[0].kind, FeedItem::Kind::described);
    for (std::size_t i = 0; i < items.size(); ++i) {
        EXPECT_EQ(all[i + 1].position, i + 2);
        EXPECT_EQ(all[i + 1].kind, FeedItem::Kind::entry);
        EXPECT_EQ(*all[i + 1].bytes, *items[i].bytes);
        EXPECT_EQ(all[i + 1].hash, items[i].hash);
        EXPECT_EQ(all[i + 1].number, items[i].number);
        EXPECT_EQ(all[i + 1].device, device_);
    }
}

TEST_F(StoreContract, RepeatedEntriesAreRecognisedAndKeepTheirPosition) {
    const MatchId match = new_match();
    auto items = chain(match, device_, 2);
    const auto first = value_or_throw(store().append(tournament_, items));
    auto more = chain(match, device_, 1, 3, items.back().hash);
    items.push_back(more.front());
    items.push_back(items.front());  // twice in one batch
    const auto again = value_or_throw(store().append(tournament_, items));
    EXPECT_EQ(again[0].fate, Fate::already_had);
    EXPECT_EQ(again[1].position, first[1].position);
    EXPECT_EQ(again[2].fate, Fate::appended);
    EXPECT_EQ(again[3].fate, Fate::already_had);
    EXPECT_EQ(feed().size(), 4u);
}

TEST_F(StoreContract, AGapNamesTheWantedNumberAndChangesNothing) {
    const MatchId match = new_match();
    const auto items = chain(match, device_, 4);
    (void)fates({items.begin(), items.begin() + 1});
    const auto results = value_or_throw(store().append(tournament_, {items.data() + 2, 2}));
    EXPECT_EQ(results[0].fate, Fate::gap);
    EXPECT_EQ(results[0].wanted, 2u);
    EXPECT_EQ(results[1].fate, Fate::gap);
    EXPECT_EQ(feed().size(), 2u);
}

TEST_F(StoreContract, ForksOfTheWriterAndEntriesOfOthersGoToNumberedBranches) {
    const MatchId match = new_match();
    const auto items = chain(match, device_, 3);
    (void)fates(items);
    const auto fork = chain(match, device_, 3, 3, items[1].hash);
    const auto forked = value_or_throw(store().append(tournament_, fork));
    EXPECT_EQ(forked[0].fate, Fate::branched);
    EXPECT_EQ(forked[2].fate, Fate::branched) << "it follows the branch, it is no gap";
    EXPECT_EQ(forked[2].branch, 1u);
    const DeviceId other{new_uuid()};
    const auto strange = chain(match, other, 1, 4, items[2].hash);
    const auto kept = value_or_throw(store().append(tournament_, strange));
    EXPECT_EQ(kept[0].fate, Fate::branched);
    EXPECT_EQ(kept[0].branch, 2u);
    const auto again = value_or_throw(store().append(tournament_, strange));
    EXPECT_EQ(again[0].fate, Fate::already_had);
    EXPECT_EQ(again[0].branch, 2u);
    EXPECT_EQ(value_or_throw(store().match({tournament_, match})).head.last, 3u);
    const auto all = feed();
    EXPECT_EQ(all.back().kind, FeedItem::Kind::branch);
    EXPECT_EQ(all.back().branch, 2u);
    EXPECT_EQ(*all.back().bytes, *strange[0].bytes);
}

// The first may have been ruled: what forks off elsewhere is news, and its alert is another.
TEST_F(StoreContract, AnotherForkOfTheSameDeviceAndEpochIsABranchOfItsOwn) {
    const MatchId match = new_match();
    const auto items = chain(match, device_, 3);
    (void)fates(items);
    const auto branches_of = [&](const std::vector<AppendItem>& fork) {
        std::vector<std::uint32_t> branches;
        for (const auto& result : value_or_throw(store().append(tournament_, fork)))
            branches.push_back(result.branch);
        return branches;
    };
    const auto fork = chain(match, device_, 3, 3, items[1].hash);
    EXPECT_EQ(branches_of(first(fork, 2)), (std::vector<std::uint32_t>{1, 1}));
    const auto another = chain(match, device_, 2, 3, items[1].hash);
    EXPECT_EQ(branches_of(another), (std::vector<std::uint32_t>{2, 2}));
    EXPECT_EQ(branches_of(rest(fork, 2)), std::vector<std::uint32_t>{1}) << "it goes on with it";
    EXPECT_EQ(branches_of(chain(match, device_, 1, 5, another[1].hash)),
              std::vector<std::uint32_t>{2});
    EXPECT_EQ(value_or_throw(store().match({tournament_, match})).branches,
              (std::vector<std::uint32_t>{1, 2}));
}

TEST_F(StoreContract, AWriterThatForksWithoutEndMakesSoManyBranchesOnly) {
    const MatchId match = new_match();
    const auto items = chain(match, device_, 3);
    (void)fates(items);
    for (int i = 0; i < 40; ++i)
        EXPECT_EQ(fates(chain(match, device_, 1, 3, items[1].hash)), std::vector{Fate::branched});
    EXPECT_EQ(value_or_throw(store().match({tournament_, match})).branches.size(), 32U);
    const auto beyond =
        value_or_throw(store().append(tournament_, chain(match, device_, 1, 3, items[1].hash)));
    EXPECT_EQ(beyond[0].branch, 32U) << "the last of its branches";
    // Another device is told apart all the same.
    const auto other = value_or_throw(
        store().append(tournament_, chain(match, DeviceId{new_uuid()}, 1, 3, items[1].hash)));
    EXPECT_EQ(other[0].branch, 33U);
}

// What a fenced device wrote stays where it is: neither its next push nor a grant that it is given
// later brings it into the record, though it follows there.
TEST_F(StoreContract, TheBranchOfAFencedDeviceIsNotPromoted) {
    const MatchId match = new_match();
    const auto items = chain(match, device_, 2);
    (void)fates(items);
    const DeviceId other{new_uuid()};
    (void)take_over(match, other);
    const auto fenced = chain(match, device_, 2, 3, items[1].hash);
    EXPECT_EQ(fates(fenced), std::vector<Fate>(2, Fate::branched));
    EXPECT_EQ(fates(fenced), std::vector<Fate>(2, Fate::already_had));
    EXPECT_EQ(take_over(match, device_).epoch, 3u);
    EXPECT_EQ(fates(fenced), std::vector<Fate>(2, Fate::already_had)) << "of an epoch that is over";
    EXPECT_EQ(head_of(match).last, 2u);
    EXPECT_EQ(fates(chain(match, device_, 1, 5, fenced[1].hash, 3)), std::vector{Fate::branched})
        << "its new epoch cannot stand on them either";
    const auto next = chain(match, device_, 1, 3, items[1].hash, 3);
    EXPECT_EQ(fates(next), std::vector{Fate::appended});
    EXPECT_EQ(head_of(match).hash, next[0].hash);
    EXPECT_EQ(value_or_throw(store().match({tournament_, match})).branches,
              (std::vector<std::uint32_t>{1, 2}));
}

TEST_F(StoreContract, AGrantFencesTheWriterBefore) {
    const MatchId match = new_match();
    GrantWish wish;
    wish.key = {tournament_, match};
    wish.device = device_;
    const MatchHead first = value_or_throw(store().grant_writer(wish));
    EXPECT_EQ(first.epoch, 1u);
    EXPECT_EQ(value_or_throw(store().grant_writer(wish)), first) << "asked again";
    const auto items = chain(match, device_, 2);
    (void)fates(items);
    wish.device = DeviceId{new_uuid()};
    EXPECT_EQ(store().grant_writer(wish).status().code, StatusCode::conflict);
    wish.how = GrantWish::How::taken_over;
    const MatchHead second = value_or_throw(store().grant_writer(wish));
    EXPECT_EQ(second.epoch, 2u);
    EXPECT_EQ(second.last, 2u);
    EXPECT_EQ(fates(chain(match, device_, 1, 3, items[1].hash)), std::vector{Fate::branched});
    EXPECT_EQ(fates(chain(match, wish.device, 1, 3, items[1].hash, 2)),
              std::vector{Fate::appended});
}

TEST_F(StoreContract, AnEntryBeyondAnEmptyRecordIsAGapAndNotABranch) {
    const MatchId match = new_match();
    const auto items = chain(match, device_, 102);
    const auto early = value_or_throw(store().append(tournament_, {&items[100], 1}));
    EXPECT_EQ(early[0].fate, Fate::gap);
    EXPECT_EQ(early[0].wanted, 1u);
    EXPECT_EQ(fates(first(items, 100)), std::vector<Fate>(100, Fate::appended));
    EXPECT_EQ(fates(rest(items, 101)), std::vector{Fate::gap});
    EXPECT_EQ(fates(rest(items, 100)), std::vector<Fate>(2, Fate::appended));
    EXPECT_EQ(head_of(match).last, 102u);
    expect_whole_feed(match, items);
}

TEST_F(StoreContract, EntriesOfALaterEpochBeyondTheRecordAreAGap) {
    const MatchId match = new_match();
    const auto items = chain(match, device_, 4);
    (void)fates(first(items, 2));
    const auto later = chain(match, DeviceId{new_uuid()}, 1, 5, items[3].hash, 2);
    const auto result = value_or_throw(store().append(tournament_, later));
    EXPECT_EQ(result[0].fate, Fate::gap);
    EXPECT_EQ(result[0].wanted, 3u);
}

TEST_F(StoreContract, AnEntryThatTurnsOutToContinueTheRecordIsPromoted) {
    const MatchId match = new_match();
    const auto items = chain(match, device_, 2);
    (void)fates(items);
    const DeviceId other{new_uuid()};
    const auto waiting = chain(match, other, 3, 3, items[1].hash, 2);
    EXPECT_EQ(fates(waiting), std::vector<Fate>(3, Fate::branched)) << "no grant is known";
    EXPECT_EQ(take_over(match, other).epoch, 2u);
    const auto again = value_or_throw(store().append(tournament_, {waiting.data(), 1}));
    EXPECT_EQ(again[0].fate, Fate::appended);
    EXPECT_EQ(again[0].branch, 0u);
    EXPECT_EQ(head_of(match).last, 5u) << "what follows it on the branch comes along";
    for (const auto& result : value_or_throw(store().append(tournament_, waiting))) {
        EXPECT_EQ(result.fate, Fate::already_had);
        EXPECT_EQ(result.branch, 0u);
    }
    auto record = items;
    record.insert(record.end(), waiting.begin(), waiting.end());
    expect_whole_feed(match, record);
}

TEST_F(StoreContract, TheFeedTellsOnceThatTheBranchesOfAMatchChangedByAPromotion) {
    const MatchId match = new_match();
    const auto items = chain(match, device_, 2);
    (void)fates(items);
    const DeviceId other{new_uuid()};
    const auto waiting = chain(match, other, 3, 3, items[1].hash, 2);
    (void)fates(waiting);
    (void)take_over(match, other);
    (void)fates(first(waiting, 1));
    EXPECT_TRUE(value_or_throw(store().match({tournament_, match})).branches.empty());
    const auto all = feed();
    ASSERT_GE(all.size(), 2u);
    EXPECT_EQ(all.back().kind, FeedItem::Kind::described);
    EXPECT_EQ(all.back().match, match);
    EXPECT_EQ(all[all.size() - 2].hash, waiting[2].hash);
    const auto next = chain(match, other, 1, 6, waiting[2].hash, 2);
    EXPECT_EQ(fates(next), std::vector{Fate::appended});
    EXPECT_EQ(feed().back().position, feed().size()) << "positions go on without a gap";
}

TEST_F(StoreContract, TheNextEntryOfTheWriterBringsItsChainFromTheBranch) {
    const MatchId match = new_match();
    const auto items = chain(match, device_, 2);
    (void)fates(items);
    const DeviceId other{new_uuid()};
    const auto waiting = chain(match, other, 3, 3, items[1].hash, 2);
    (void)fates(first(waiting, 2));
    (void)take_over(match, other);
    EXPECT_EQ(fates(rest(waiting, 2)), std::vector{Fate::appended});
    auto record = items;
    record.insert(record.end(), waiting.begin(), waiting.end());
    expect_whole_feed(match, record);
}

TEST_F(StoreContract, AForkIsNeverPromoted) {
    const MatchId match = new_match();
    const auto items = chain(match, device_, 3);
    (void)fates(items);
    const auto fork = chain(match, device_, 2, 3, items[1].hash);
    EXPECT_EQ(fates(fork), std::vector<Fate>(2, Fate::branched));
    EXPECT_EQ(fates(fork), std::vector<Fate>(2, Fate::already_had));
    EXPECT_EQ(fates(chain(match, device_, 1, 4, items[2].hash)), std::vector{Fate::appended});
    EXPECT_EQ(head_of(match).last, 4u);
}

TEST_F(StoreContract, BranchesOfAMatchAreCapped) {
    const MatchId match = new_match();
    const auto items = chain(match, device_, 1);
    (void)fates(items);
    const DeviceId other{new_uuid()};
    std::size_t kept = 0;
    while (kept < most_branch_entries) {
        const auto strange = chain(match, other, 1000, 2, items[0].hash);
        kept += 1000;
        ASSERT_EQ(fates(strange), std::vector<Fate>(1000, Fate::branched));
    }
    const auto more =
        value_or_throw(store().append(tournament_, chain(match, other, 1, 2, items[0].hash)));
    EXPECT_EQ(more[0].fate, Fate::invalid);
    EXPECT_EQ(more[0].cause, Cause::full);
    EXPECT_NE(more[0].message.find("withdraw"), std::string::npos) << more[0].message;
    EXPECT_EQ(fates(chain(match, device_, 1, 2, items[0].hash)), std::vector{Fate::appended})
        << "the writer is not held up";
}

// A backup knows nothing of what came after it. Here the record ends with entry 2 of epoch 1; the
// grant of epoch 2 to `other` was made after the backup, and lost with it.
class PutBack : public StoreContract {
  protected:
    PutBack() {
        EXPECT_EQ(fates(items_), std::vector<Fate>(2, Fate::appended));
        twin_->renew_generation(tournament_);
    }
    const MatchId match_ = new_match();
    const DeviceId other_{new_uuid()};
    const std::vector<AppendItem> items_ = chain(match_, device_, 2);
    const std::vector<AppendItem> lost_ = chain(match_, other_, 3, 3, items_[1].hash, 2);
};

TEST_F(PutBack, TheDeviceOfALostEpochGoesOnWhereTheRecordEnds) {
    EXPECT_EQ(fates(lost_), std::vector<Fate>(3, Fate::appended));
    const MatchHead head = head_of(match_);
    EXPECT_EQ(head.epoch, 2u);
    EXPECT_EQ(head.writer, other_);
    EXPECT_FALSE(head.self_granted);
    EXPECT_TRUE(head.recovered);
    // The one before is fenced, as it was before the backup.
    EXPECT_EQ(fates(chain(match_, device_, 1, 3, items_[1].hash)), std::vector{Fate::branched});
}

TEST_F(PutBack, WhatTheRecordLostOfTheEpochBeforeMayComeInTheSameBreath) {
    auto all = chain(match_, device_, 2, 3, items_[1].hash);
    const auto later = chain(match_, other_, 2, 5, all.back().hash, 2);
    all.insert(all.end(), later.begin(), later.end());
    EXPECT_EQ(fates(all), std::vector<Fate>(4, Fate::appended));
}

TEST_F(PutBack, OnceTheWriterWentOnNobodyTakesOverWithoutConsent) {
    const auto mine = chain(match_, device_, 1, 3, items_[1].hash);
    EXPECT_EQ(fates(mine), std::vector{Fate::appended});
    EXPECT_EQ(fates(lost_), std::vector<Fate>(3, Fate::branched)) << "a fork, seen and kept";
    const auto after = chain(match_, other_, 1, 4, mine[0].hash, 2);
    EXPECT_EQ(fates(after), std::vector{Fate::branched}) << "though it follows the record";
    EXPECT_EQ(head_of(match_).writer, device_);
}

TEST_F(PutBack, AfterConsentTheLostEpochIsPromoted) {
    const auto mine = chain(match_, device_, 1, 3, items_[1].hash);
    (void)fates(mine);
    const auto after = chain(match_, other_, 2, 4, mine[0].hash, 3);
    EXPECT_EQ(fates(after), std::vector<Fate>(2, Fate::branched));
    EXPECT_EQ(take_over(match_, other_).epoch, 2u);
    const auto again = value_or_throw(store().append(tournament_, after));
    EXPECT_EQ(again[0].fate, Fate::appended) << "the writer itself knows of a later epoch";
    EXPECT_EQ(again[1].fate, Fate::already_had);
    EXPECT_EQ(again[1].branch, 0u);
    EXPECT_EQ(head_of(match_).epoch, 3u);
    EXPECT_EQ(head_of(match_).last, 5u);
}

TEST_F(PutBack, AGrantSinceThenIsTheOnlyOne) {
    (void)take_over(match_, DeviceId{new_uuid()});
    EXPECT_EQ(fates(lost_), std::vector<Fate>(3, Fate::branched));
}

TEST_F(StoreContract, ALaterEpochIsNotTakenFromAnybodyWhileNothingWasLost) {
    const MatchId match = new_match();
    const auto items = chain(match, device_, 2);
    (void)fates(items);
    EXPECT_EQ(fates(chain(match, DeviceId{new_uuid()}, 1, 3, items[1].hash, 2)),
              std::vector{Fate::branched});
    EXPECT_EQ(head_of(match).epoch, 1u);
}

TEST_F(StoreContract, AnOlderGrantOfTheSameEpochIsNoGrant) {
    const MatchId match = new_match();
    GrantWish wish;
    wish.key = {tournament_, match};
    wish.device = device_;
    const MatchHead head = value_or_throw(store().grant_writer(wish));
    auto items = chain(match, device_, 2);
    items[0].grant = head.grant;
    items[1].grant = GrantId{new_uuid()};
    EXPECT_EQ(fates(items), (std::vector{Fate::appended, Fate::branched}));
}

TEST_F(StoreContract, AnUnknownMatchAndAnImpossibleNumberAreInvalid) {
    EXPECT_EQ(fates(chain(MatchId{new_uuid()}, device_, 1)), std::vector{Fate::invalid});
    const MatchId match = new_match();
    auto items = chain(match, device_, 1);
    items[0].number = 0;
    EXPECT_EQ(fates(items), std::vector{Fate::invalid});
    items[0].number = most_entries + 1;
    EXPECT_EQ(fates(items), std::vector{Fate::invalid});
}

TEST_F(StoreContract, ItemsOfSeveralMatchesShareATransaction) {
    const MatchId one = new_match();
    const MatchId two = new_match();
    auto items = chain(one, device_, 2);
    const auto others = chain(two, DeviceId{new_uuid()}, 2);
    items.insert(items.begin() + 1, others.begin(), others.end());
    EXPECT_EQ(fates(items), std::vector<Fate>(4, Fate::appended));
}

TEST_F(StoreContract, AFeedIsReadInPagesAndByMatch) {
    const MatchId one = new_match();
    const MatchId two = new_match();
    (void)fates(chain(one, device_, 3));
    (void)fates(chain(two, device_, 2));
    FeedQuery query;
    query.tournament = tournament_;
    query.most = 2;
    std::vector<FeedPosition> positions;
    while (true) {
        const FeedPage page = value_or_throw(store().read_feed(query));
        EXPECT_EQ(page.head, 7u);
        if (page.items.empty()) break;
        for (const FeedItem& item : page.items) positions.push_back(item.position);
        query.after = positions.back();
    }
    EXPECT_EQ(positions, (std::vector<FeedPosition>{1, 2, 3, 4, 5, 6, 7}));
    query.after = 0;
    query.most = 100;
    query.matches = {two};
    EXPECT_EQ(value_or_throw(store().read_feed(query)).items.size(), 3u);
}

TEST_F(StoreContract, ANoticeStandsInTheFeedOnce) {
    FeedNotice notice;
    notice.kind = FeedItem::Kind::ruling;
    notice.match = new_match();
    notice.id = EntryId{new_uuid()};
    notice.bytes = std::string("\0ruling", 7);
    const FeedPosition position = value_or_throw(store().publish(tournament_, notice));
    EXPECT_EQ(value_or_throw(store().publish(tournament_, notice)), position);
    EXPECT_EQ(*feed().back().bytes, notice.bytes);
    EXPECT_EQ(feed().back().kind, FeedItem::Kind::ruling);
}

TEST_F(StoreContract, TournamentsDoNotSeeEachOther) {
    const MatchId match = new_match();
    (void)fates(chain(match, device_, 2));
    const auto other = value_or_throw(store().create_tournament(TournamentId{new_uuid()}, "Other"));
    FeedQuery query;
    query.tournament = other.id;
    EXPECT_TRUE(value_or_throw(store().read_feed(query)).items.empty());
    EXPECT_TRUE(value_or_throw(store().matches(other.id)).empty());
    EXPECT_EQ(store().match({other.id, match}).status().code, StatusCode::not_found);
    const auto results = value_or_throw(store().append(other.id, chain(match, device_, 1)));
    EXPECT_EQ(results[0].fate, Fate::invalid);
}

}  // namespace courthand::server::testing
