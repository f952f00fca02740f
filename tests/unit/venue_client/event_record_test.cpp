// What a seat takes of the tournament's record and what it does not: damaged, reordered, foreign or
// newer facts are told with the place, and nothing behind them is shown.
#include "venue/event_record.h"

#include <gtest/gtest.h>

#include <functional>
#include <string>
#include <variant>
#include <vector>

#include "courthand/event/fold.h"
#include "wire/event_convert.h"
#include "wire/event_entry.h"
#include "wire/uuid.h"

namespace courthand::venue {
namespace {

/// A record as a server makes it.
class Sealed {
  public:
    Sealed() : end_{wire::genesis(id_, hasher_)} {}

    void add(const event::Fact& fact, const std::string& words = {}) {
        v1::TournamentEntry entry;
        entry.set_tournament_id(id_.to_bytes());
        entry.set_entry_id(maker_.next().to_bytes());
        entry.set_device_id(maker_.next().to_bytes());
        entry.set_author("desk 1");
        wire::to_proto(fact, *entry.mutable_fact());
        v1::TournamentEntryBytes kept;
        if (!words.empty()) {
            kept.mutable_beside()->set_salt(std::string(16, 's'));
            kept.mutable_beside()->set_text(words);
            entry.set_beside_hash(wire::to_bytes(wire::beside_hash(kept.beside())));
        }
        const auto sealed = wire::seal_event(entry, end_, hasher_);
        const auto& made = std::get<wire::ReadEventEntry>(sealed);
        kept.set_data(made.bytes());
        end_ = made.head();
        facts.push_back(kept);
    }
    [[nodiscard]] v1::WatchRecordResponse from(std::size_t first) const {
        v1::WatchRecordResponse news;
        for (std::size_t i = first; i < facts.size(); ++i) *news.add_facts() = facts[i];
        news.set_last(static_cast<std::uint32_t>(facts.size()));
        return news;
    }
    [[nodiscard]] const wire::Head& end() const { return end_; }

    std::vector<v1::TournamentEntryBytes> facts;

  private:
    wire::UuidMaker maker_ = wire::UuidMaker::of_system();
    wire::Uuid id_ = maker_.next();
    wire::Hasher hasher_;
    wire::Head end_;
};

event::Fact court(std::uint16_t number) {
    event::CourtOpened court;
    court.court = number;
    return court;
}

Sealed three_facts() {
    Sealed sealed;
    sealed.add(court(1));
    sealed.add(event::NoteWritten{}, "The floor is wet.");
    sealed.add(court(2));
    return sealed;
}

TEST(EventRecord, TakesWhatComesAndAsksForWhatFollows) {
    Sealed sealed = three_facts();
    EventRecord record;
    EXPECT_EQ(record.request().after(), 0u);
    EXPECT_EQ(record.request().after_hash(), "");
    EXPECT_EQ(record.take(sealed.from(0)), std::nullopt);
    EXPECT_TRUE(record.whole());
    EXPECT_TRUE(record.has_news());
    const EventBook book = record.book();
    EXPECT_FALSE(record.has_news());
    EXPECT_TRUE(book.whole);
    EXPECT_EQ(book.state->courts.size(), 2u);
    EXPECT_EQ(*book.words, (EventBook::Words{{2, "The floor is wet."}}));
    EXPECT_EQ(record.request().after(), 3u);
    EXPECT_EQ(record.request().after_hash(), wire::to_bytes(sealed.end().hash));

    sealed.add(court(3));
    EXPECT_EQ(record.take(sealed.from(3)), std::nullopt);
    EXPECT_EQ(record.book().state->last(), 4u);
    EXPECT_EQ(book.state->last(), 3u) << "a book never changes";
}

TEST(EventRecord, IsWholeWhenTheServerHasNoMore) {
    const Sealed sealed = three_facts();
    EventRecord record;
    v1::WatchRecordResponse first = sealed.from(0);
    first.mutable_facts()->RemoveLast();
    EXPECT_EQ(record.take(first), std::nullopt);
    EXPECT_FALSE(record.book().whole);
    EXPECT_EQ(record.take(sealed.from(2)), std::nullopt);
    EXPECT_TRUE(record.book().whole);
    // A sign of life is no news.
    v1::WatchRecordResponse sign;
    sign.set_last(3);
    EXPECT_EQ(record.take(sign), std::nullopt);
    EXPECT_FALSE(record.has_news());
}

TEST(EventRecord, ForgetsErasedWordsAndAllWhenTheRecordIsAnother) {
    const Sealed sealed = three_facts();
    EventRecord record;
    v1::WatchRecordResponse news = sealed.from(0);
    news.add_erased(2);
    EXPECT_EQ(record.take(news), std::nullopt);
    EXPECT_TRUE(record.book().words->empty()) << "of the same message, too";

    Sealed other;
    other.add(court(7), "");
    v1::WatchRecordResponse anew = other.from(0);
    anew.set_anew(true);
    EXPECT_EQ(record.take(anew), std::nullopt);
    EXPECT_EQ(record.book().state->last(), 1u);
    v1::WatchRecordResponse empty;
    empty.set_anew(true);
    EXPECT_EQ(record.take(empty), std::nullopt);
    EXPECT_TRUE(record.has_news());
    EXPECT_EQ(record.book().state->last(), 0u);
    EXPECT_EQ(record.request().after(), 0u);
}

struct Damage {
    const char* what;
    std::function<void(v1::WatchRecordResponse&)> spoil;
};

TEST(EventRecord, WhatIsDamagedIsToldWithItsPlaceAndNothingBehindItIsTaken) {
    const std::vector<Damage> all{
        {"left out", [](auto& news) { news.mutable_facts()->DeleteSubrange(1, 1); }},
        {"twice",
         [](auto& news) {
             const std::string first = news.facts(0).data();
             news.mutable_facts(1)->set_data(first);
         }},
        {"another order", [](auto& news) { news.mutable_facts()->SwapElements(1, 2); }},
        {"other bytes",
         [](auto& news) {
             v1::TournamentEntry entry;
             ASSERT_TRUE(entry.ParseFromString(news.facts(1).data()));
             entry.set_prev_hash(std::string(32, 'h'));
             news.mutable_facts(1)->set_data(entry.SerializeAsString());
         }},
        {"of another tournament",
         [](auto& news) {
             Sealed other = three_facts();
             *news.mutable_facts(1) = other.facts[1];
         }},
        {"other words",
         [](auto& news) { news.mutable_facts(1)->mutable_beside()->set_text("It is dry."); }},
        {"words where none were",
         [](auto& news) {
             const auto words = news.facts(1).beside();
             news.mutable_facts(1)->clear_data();
             news.mutable_facts(1)->set_data(news.facts(0).data());
             *news.mutable_facts(1)->mutable_beside() = words;
         }},
        {"no entry", [](auto& news) { news.mutable_facts(1)->set_data("no entry"); }},
        {"a kind of fact that is not known here",
         [](auto& news) {
             v1::TournamentEntry entry;
             ASSERT_TRUE(entry.ParseFromString(news.facts(1).data()));
             entry.clear_fact();
             entry.mutable_fact();
             news.mutable_facts(1)->set_data(entry.SerializeAsString());
         }},
    };
    for (const Damage& damage : all) {
        const Sealed sealed = three_facts();
        v1::WatchRecordResponse news = sealed.from(0);
        damage.spoil(news);
        EventRecord record;
        const auto fault = record.take(news);
        ASSERT_TRUE(fault.has_value()) << damage.what;
        EXPECT_NE(fault->find("act 2"), std::string::npos) << damage.what << ": " << *fault;
        const EventBook book = record.book();
        EXPECT_EQ(book.state->last(), 1u) << damage.what;
        EXPECT_FALSE(book.whole) << damage.what;
        // Put right, it goes on from where it held.
        EXPECT_EQ(record.request().after(), 1u);
        EXPECT_EQ(record.take(sealed.from(1)), std::nullopt) << damage.what;
        EXPECT_EQ(record.book().state->last(), 3u) << damage.what;
    }
}

TEST(EventRecord, AChangedFirstFactIsSeenByTheSecond) {
    const Sealed sealed = three_facts();
    v1::WatchRecordResponse news = sealed.from(0);
    v1::TournamentEntry entry;
    ASSERT_TRUE(entry.ParseFromString(news.facts(0).data()));
    entry.set_author("desk 2");
    news.mutable_facts(0)->set_data(entry.SerializeAsString());
    EventRecord record;
    EXPECT_TRUE(record.take(news).has_value());
    EXPECT_EQ(record.book().state->last(), 1u);
}

}  // namespace
}  // namespace courthand::venue
