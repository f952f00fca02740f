// What every twin of the store of a tournament's record promises. Each test program gives
// `FactStoreTwin` a way to make its store.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <atomic>
#include <memory>
#include <string>
#include <thread>
#include <vector>

#include "server/testing/or_throw.h"
#include "server/tournament/fact_store.h"

namespace courthand::server::tournament {

class FactStoreTwin {
  public:
    virtual ~FactStoreTwin() = default;
    virtual FactStore& facts() = 0;
    virtual MatchStore& feed() = 0;
};
[[nodiscard]] std::unique_ptr<FactStoreTwin> make_fact_twin();

class FactStoreContract : public ::testing::Test {
  protected:
    FactStoreContract() {
        tournament_ =
            value_or_throw(twin_->feed().create_tournament(TournamentId{new_uuid()}, "Cup")).id;
    }
    FactStore& store() { return twin_->facts(); }

    /// What the store does not read: bytes of every value, and a hash.
    [[nodiscard]] std::vector<KeptFact> facts(const FactHead& behind, std::size_t count) const {
        std::vector<KeptFact> made;
        for (std::size_t i = 0; i < count; ++i) {
            KeptFact fact;
            fact.id = FactId{new_uuid()};
            fact.number = behind.number + 1 + static_cast<FactNumber>(i);
            fact.device = device_;
            fact.bytes = std::make_shared<const std::string>(to_text(fact.id) +
                                                             std::string("\0\\\"'{}\xff\x80", 8));
            std::copy(fact.id.value.bytes.begin(), fact.id.value.bytes.end(), fact.hash.begin());
            made.push_back(std::move(fact));
        }
        return made;
    }
    FactAppend append(const FactHead& seen, const std::vector<KeptFact>& facts) {
        return value_or_throw(store().append(tournament_, seen, facts));
    }
    std::vector<KeptFact> record() {
        std::vector<KeptFact> all;
        for (;;) {
            const FactNumber after = all.empty() ? 0 : all.back().number;
            const auto page = value_or_throw(store().read(tournament_, after, 7));
            if (page.empty()) return all;
            all.insert(all.end(), page.begin(), page.end());
        }
    }
    std::vector<FeedItem> feed() {
        FeedQuery query;
        query.tournament = tournament_;
        return value_or_throw(twin_->feed().read_feed(query)).items;
    }
    static FactHead end_of(const std::vector<KeptFact>& facts) {
        return {facts.back().number, facts.back().hash};
    }

    std::unique_ptr<FactStoreTwin> twin_ = make_fact_twin();
    TournamentId tournament_;
    DeviceId device_{new_uuid()};
};

TEST_F(FactStoreContract, AnEmptyRecordHasAHeadAndNoFacts) {
    EXPECT_EQ(value_or_throw(store().head(tournament_)), FactHead{});
    EXPECT_TRUE(record().empty());
}

TEST_F(FactStoreContract, FactsAreHandedOutAsTheyWereGiven) {
    const auto first = facts({}, 3);
    EXPECT_EQ(append({}, first).head, end_of(first));
    const auto more = facts(end_of(first), 20);
    const FactAppend added = append(end_of(first), more);
    EXPECT_EQ(added.fate, FactAppend::Fate::appended);
    EXPECT_EQ(added.stored_at, record().back().stored_at) << "it tells when";
    EXPECT_EQ(added.head, end_of(more));
    EXPECT_EQ(value_or_throw(store().head(tournament_)), end_of(more));

    auto given = first;
    given.insert(given.end(), more.begin(), more.end());
    const auto kept = record();
    ASSERT_EQ(kept.size(), given.size());
    for (std::size_t i = 0; i < kept.size(); ++i) {
        EXPECT_EQ(kept[i].number, i + 1);
        EXPECT_EQ(kept[i].id, given[i].id);
        EXPECT_EQ(kept[i].device, device_);
        EXPECT_EQ(kept[i].hash, given[i].hash);
        EXPECT_EQ(*kept[i].bytes, *given[i].bytes);
        EXPECT_GT(kept[i].stored_at, ServerTime{});
    }
}

TEST_F(FactStoreContract, WhoIsBehindAddsNothing) {
    const auto first = facts({}, 2);
    (void)append({}, first);
    const FactAppend late = append({}, facts({}, 1));
    EXPECT_EQ(late.fate, FactAppend::Fate::behind);
    EXPECT_EQ(late.head, end_of(first));
    // The number alone is not the record: this one has seen another fact 2.
    FactHead other = end_of(first);
    other.hash[31] ^= 1;
    EXPECT_EQ(append(other, facts(other, 1)).fate, FactAppend::Fate::behind);
    EXPECT_EQ(record().size(), 2u);
    EXPECT_EQ(feed().size(), 1u);
}

TEST_F(FactStoreContract, ARetryAddsNothing) {
    const auto first = facts({}, 2);
    (void)append({}, first);
    const auto second = facts(end_of(first), 1);
    (void)append(end_of(first), second);
    const FactAppend again = append({}, first);
    EXPECT_EQ(again.fate, FactAppend::Fate::already_had);
    EXPECT_EQ(again.head, end_of(second));
    EXPECT_EQ(record().size(), 3u);
}

TEST_F(FactStoreContract, AnIdThatIsTakenIsRefusedWithAllThatCameWithIt) {
    const auto first = facts({}, 1);
    (void)append({}, first);
    auto mixed = facts(end_of(first), 2);
    mixed[1].id = first[0].id;
    EXPECT_EQ(store().append(tournament_, end_of(first), mixed).status().code,
              StatusCode::conflict);
    auto stolen = facts({}, 1);
    stolen[0].id = first[0].id;
    stolen[0].device = DeviceId{new_uuid()};
    EXPECT_EQ(store().append(tournament_, {}, stolen).status().code, StatusCode::conflict);
    EXPECT_EQ(record().size(), 1u);
}

TEST_F(FactStoreContract, WhatDoesNotContinueTheRecordIsInvalid) {
    const auto refused = [&](const FactHead& seen, const std::vector<KeptFact>& given) {
        const Status status = store().append(tournament_, seen, given).status();
        EXPECT_FALSE(status.cure.empty());
        return status.code;
    };
    EXPECT_EQ(refused({}, {}), StatusCode::invalid);
    EXPECT_EQ(refused({}, facts({1, {}}, 1)), StatusCode::invalid);
    auto gap = facts({}, 2);
    gap[1].number = 3;
    EXPECT_EQ(refused({}, gap), StatusCode::invalid);
    auto twice = facts({}, 2);
    twice[1].id = twice[0].id;
    EXPECT_EQ(refused({}, twice), StatusCode::invalid);
    auto nameless = facts({}, 1);
    nameless[0].id = {};
    EXPECT_EQ(refused({}, nameless), StatusCode::invalid);
    EXPECT_TRUE(record().empty());
}

TEST_F(FactStoreContract, LimitsAreReachedAndNotPassed) {
    auto large = facts({}, 1);
    large[0].bytes = std::make_shared<const std::string>(most_fact_bytes, 'x');
    EXPECT_EQ(append({}, large).fate, FactAppend::Fate::appended);
    auto larger = facts(end_of(large), 1);
    larger[0].bytes = std::make_shared<const std::string>(most_fact_bytes + 1, 'x');
    EXPECT_EQ(store().append(tournament_, end_of(large), larger).status().code,
              StatusCode::invalid);
    EXPECT_EQ(append(end_of(large), facts(end_of(large), most_facts_per_append)).fate,
              FactAppend::Fate::appended);
    auto talkative = facts(end_of(large), 1);
    talkative[0].beside = BesideWords{"salt", std::string(most_beside_bytes + 1, 'x')};
    EXPECT_EQ(store().append(tournament_, end_of(large), talkative).status().code,
              StatusCode::invalid);
    const FactHead full{most_facts, {}};
    EXPECT_EQ(store().append(tournament_, full, facts(full, 1)).status().code, StatusCode::invalid);
    EXPECT_EQ(value_or_throw(store().read(tournament_, 0, 10'000)).size(), most_facts_per_page);
    const std::vector<FactNumber> numbers(most_facts_per_append, 1);
    EXPECT_EQ(value_or_throw(store().erase_beside(tournament_, numbers)), 0u);
    const std::vector<FactNumber> more(most_facts_per_append + 1, 1);
    EXPECT_EQ(store().erase_beside(tournament_, more).status().code, StatusCode::invalid);
}

TEST_F(FactStoreContract, EachAppendIsOneItemOfTheFeed) {
    const auto first = facts({}, 3);
    (void)append({}, first);
    const auto items = feed();
    ASSERT_EQ(items.size(), 1u);
    EXPECT_EQ(items[0].kind, FeedItem::Kind::tournament);
    EXPECT_TRUE(items[0].match.nil());
    EXPECT_FALSE(items[0].id.nil());
    EXPECT_TRUE(erased_in(items[0]).empty());
}

TEST_F(FactStoreContract, WordsBesideAFactAreErasedForGoodAndTheFactStays) {
    auto given = facts({}, 3);
    given[0].beside = BesideWords{std::string("\0salt", 5), ""};
    given[2].beside = BesideWords{"pepper", "words with \"quotes\", {braces} and \\"};
    (void)append({}, given);
    EXPECT_EQ(record()[0].beside, given[0].beside);
    EXPECT_EQ(record()[1].beside, std::nullopt);
    EXPECT_EQ(record()[2].beside, given[2].beside);

    const std::vector<FactNumber> second_and_third{2, 3, 9};
    EXPECT_EQ(value_or_throw(store().erase_beside(tournament_, second_and_third)), 1u);
    ASSERT_EQ(feed().size(), 2u);
    EXPECT_EQ(erased_in(feed()[1]), std::vector<FactNumber>{3}) << "the one that had words";
    EXPECT_EQ(value_or_throw(store().erase_beside(tournament_, second_and_third)), 0u);
    EXPECT_EQ(feed().size(), 2u);
    const auto kept = record();
    EXPECT_EQ(kept[0].beside, given[0].beside);
    EXPECT_EQ(kept[2].beside, std::nullopt);
    EXPECT_EQ(*kept[2].bytes, *given[2].bytes);
    // A retry does not bring them back.
    EXPECT_EQ(append({}, given).fate, FactAppend::Fate::already_had);
    EXPECT_EQ(record()[2].beside, std::nullopt);
}

TEST_F(FactStoreContract, AFactRestsOnTheEndOfAMatchsRecord) {
    MatchPlan plan;
    plan.key = {tournament_, MatchId{new_uuid()}};
    plan.profile = "international-2025";
    (void)value_or_throw(twin_->feed().create_match(plan));
    const MatchId match = plan.key.match;
    const Hash start = value_or_throw(twin_->feed().match(plan.key)).head.hash;
    const auto given = facts({}, 2);
    const auto resting_on = [&](const std::vector<RecordEnd>& ends) {
        return value_or_throw(store().append(tournament_, {}, given, ends));
    };
    Hash other = start;
    other[7] ^= 1U;
    const FactAppend refused = resting_on({{MatchId{new_uuid()}, other}, {match, other}});
    EXPECT_EQ(refused.fate, FactAppend::Fate::outwritten);
    EXPECT_EQ(refused.match, match);
    EXPECT_EQ(refused.head, FactHead{});
    EXPECT_TRUE(record().empty());
    EXPECT_EQ(resting_on({{match, start}, {MatchId{new_uuid()}, other}}).fate,
              FactAppend::Fate::appended)
        << "a record that is not here has no end";
    EXPECT_EQ(resting_on({{match, other}}).fate, FactAppend::Fate::already_had)
        << "sent again, whatever was written since";
}

TEST_F(FactStoreContract, AnotherTournamentHasARecordOfItsOwn) {
    const auto other =
        value_or_throw(twin_->feed().create_tournament(TournamentId{new_uuid()}, "Cup 2")).id;
    (void)append({}, facts({}, 2));
    EXPECT_EQ(value_or_throw(store().head(other)), FactHead{});
    EXPECT_TRUE(value_or_throw(store().read(other, 0, 10)).empty());
    const TournamentId none{new_uuid()};
    EXPECT_EQ(store().head(none).status().code, StatusCode::not_found);
    EXPECT_EQ(store().read(none, 0, 10).status().code, StatusCode::not_found);
    EXPECT_EQ(store().append(none, {}, facts({}, 1)).status().code, StatusCode::not_found);
}

TEST_F(FactStoreContract, OfTwoDesksThatActAtOnceOneIsBehindAndNothingIsLost) {
    constexpr std::size_t acts = 100;
    std::atomic<std::size_t> behind{0};
    const auto desk = [&] {
        for (std::size_t i = 0; i < acts; ++i) {
            FactHead seen = value_or_throw(store().head(tournament_));
            for (;;) {
                const FactAppend added = append(seen, facts(seen, 1));
                if (added.fate == FactAppend::Fate::appended) break;
                ++behind;
                seen = added.head;
            }
        }
    };
    std::thread one{desk}, two{desk};
    one.join();
    two.join();
    const auto kept = record();
    ASSERT_EQ(kept.size(), 2 * acts);
    for (std::size_t i = 0; i < kept.size(); ++i) EXPECT_EQ(kept[i].number, i + 1);
    EXPECT_EQ(feed().size(), 2 * acts);
}

}  // namespace courthand::server::tournament
