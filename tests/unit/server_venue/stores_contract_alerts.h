// What the store of alerts promises.
#pragma once

#include "stores_contract.h"

namespace courthand::server::testing {

using alerts::LifeEntry;
using What = LifeEntry::What;

inline LifeEntry life_step(const std::string& id, std::uint32_t number, What what,
                           std::string by = {}) {
    LifeEntry entry;
    entry.id = id;
    entry.number = number;
    entry.what = what;
    entry.by = std::move(by);
    entry.at = alerts::Instant{} + std::chrono::hours{500'000} + std::chrono::microseconds{1234};
    entry.ends = what == What::ruled || what == What::cleared;
    if (what == What::shelved) entry.until = entry.at + std::chrono::minutes{5};
    if (what == What::opened) {
        entry.condition.emplace();
        entry.condition->id = id;
        entry.condition->kind = alerts::Kind::wrong_server;
        entry.condition->code = "wrong-server";
        entry.condition->court = 3;
        entry.condition->asking.value.bytes[0] = 9;
    }
    return entry;
}

inline FeedNotice ruling_notice(std::uint8_t number) {
    FeedNotice made;
    made.kind = FeedItem::Kind::ruling;
    made.id.value.bytes[0] = number;
    made.bytes = "words for the table";
    return made;
}

class AlertLives : public VenueStores {
  protected:
    alerts::AlertStore& store() { return stores_.alerts; }
    std::vector<LifeEntry> of(const std::vector<alerts::AlertId>& ids) {
        auto life = store().load(ids);
        EXPECT_TRUE(life.ok()) << life.status().text();
        return life.ok() ? *std::move(life) : std::vector<LifeEntry>{};
    }
    std::size_t rulings_in_the_feed() {
        FeedQuery query;
        query.tournament = twin_->tournament();
        const auto page = stores_.matches.read_feed(query);
        std::size_t count = 0;
        for (const FeedItem& item : page->items)
            if (item.kind == FeedItem::Kind::ruling) ++count;
        return count;
    }
};

TEST_F(AlertLives, AreReadAsTheyWereKept) {
    std::vector life{life_step("m/1", 1, What::opened), life_step("m/1", 2, What::claimed, "head"),
                     life_step("m/1", 3, What::shelved, "head")};
    life[2].note = "after the set";
    ASSERT_TRUE(store().append(life, {}).ok());
    const auto read = of({"m/1"});
    ASSERT_EQ(read.size(), 3U);
    for (std::size_t i = 0; i < 3; ++i) {
        EXPECT_EQ(read[i].number, i + 1);
        EXPECT_EQ(read[i].what, life[i].what);
        EXPECT_EQ(read[i].at, life[i].at);
        EXPECT_EQ(read[i].by, life[i].by);
        EXPECT_EQ(read[i].note, life[i].note);
    }
    EXPECT_EQ(read[2].until, life[2].until);
    ASSERT_TRUE(read[0].condition);
    EXPECT_EQ(read[0].condition->code, "wrong-server");
    EXPECT_EQ(read[0].condition->court, 3U);
    EXPECT_EQ(read[0].condition->asking.value.bytes[0], 9);
}

TEST_F(AlertLives, ARulingAndItsNoticeAreKeptOnceHoweverOftenTheyAreSent) {
    ASSERT_TRUE(store().append(std::vector{life_step("m/1", 1, What::opened)}, {}).ok());
    const LifeEntry ruled = life_step("m/1", 2, What::ruled, "head");
    ASSERT_TRUE(store().append_act(ruled, std::vector{ruling_notice(1)}).ok());
    ASSERT_TRUE(store().append_act(ruled, std::vector{ruling_notice(1)}).ok());
    EXPECT_EQ(of({"m/1"}).size(), 2U);
    EXPECT_EQ(rulings_in_the_feed(), 1U);
}

TEST_F(AlertLives, WhoeverComesSecondWithANumberIsToldAndNothingOfHisIsKept) {
    ASSERT_TRUE(store().append(std::vector{life_step("m/1", 1, What::opened)}, {}).ok());
    ASSERT_TRUE(store().append_act(life_step("m/1", 2, What::claimed, "head"), {}).ok());
    const std::vector late{life_step("m/0", 1, What::opened),
                           life_step("m/1", 2, What::ruled, "deputy")};
    EXPECT_EQ(store().append(late, std::vector{ruling_notice(1)}).code, StatusCode::conflict);
    EXPECT_TRUE(of({"m/0"}).empty()) << "all or none";
    EXPECT_EQ(rulings_in_the_feed(), 0U);
    EXPECT_EQ(of({"m/1", "m/nobody", "m/1"}).back().by, "head");
}

TEST_F(AlertLives, AStartReadsWhatLives) {
    for (const char* id : {"old/1", "old/2"})
        ASSERT_TRUE(store()
                        .append(std::vector{life_step(id, 1, What::opened),
                                            life_step(id, 2, What::cleared)},
                                {})
                        .ok());
    ASSERT_TRUE(store().append(std::vector{life_step("m/1", 1, What::opened)}, {}).ok());
    EXPECT_EQ(store().load_live()->size(), 1U);
    ASSERT_TRUE(store().append(std::vector{life_step("old/2", 3, What::opened)}, {}).ok());
    const auto live = store().load_live();
    ASSERT_EQ(live->size(), 4U) << "raised again, it lives again, with all its steps";
    EXPECT_EQ(live->back().number, 3U) << "by alert and number";
}

}  // namespace courthand::server::testing
