// What a server knows of the tournament's record beside its state: the words, which of them were
// erased, and what it does when the database was put back.
#include <gtest/gtest.h>

#include <atomic>
#include <functional>
#include <memory>
#include <string>
#include <thread>
#include <vector>

#include "server/store/memory_match_store.h"
#include "server/testing/or_throw.h"
#include "server/tournament/memory_fact_store.h"
#include "server/tournament/record_keeper.h"

namespace courthand::server::tournament {
namespace {

using Fate = Outcome::Fate;
using Words = KnownRecord::Words;

/// A database that is put back, or is away.
class OtherStore final : public FactStore {
  public:
    explicit OtherStore(FactStore& first) : store_{&first} {}
    void put_back(FactStore& to) { store_ = &to; }
    /// So many more calls are answered. Below nothing: all of them.
    void go_away_after(int calls) { calls_left_ = calls; }

    Result<FactHead> head(TournamentId tournament) override { return store_->head(tournament); }
    Result<std::vector<KeptFact>> read(TournamentId tournament, FactNumber after,
                                       std::size_t most) override {
        if (calls_left_ == 0) return Status::failed(StatusCode::unavailable, "away");
        if (calls_left_ > 0) --calls_left_;
        return store_->read(tournament, after, most);
    }
    Result<FactAppend> append(TournamentId tournament, const FactHead& seen,
                              std::span<const KeptFact> facts,
                              std::span<const RecordEnd> rests_on) override {
        return store_->append(tournament, seen, facts, rests_on);
    }
    Result<std::size_t> erase_beside(TournamentId tournament,
                                     std::span<const FactNumber> facts) override {
        return store_->erase_beside(tournament, facts);
    }

  private:
    FactStore* store_;
    int calls_left_ = -1;
};

class KnownRecordTest : public ::testing::Test {
  protected:
    KnownRecordTest() {
        tournament_ =
            value_or_throw(feed_.create_tournament(TournamentId{new_uuid()}, "Harbour Cup")).id;
    }
    static Act said(FactNumber seen, std::vector<event::Said> facts) {
        Act act;
        act.device = DeviceId{new_uuid()};
        act.author = "desk 1";
        act.seen = seen;
        for (event::Said& fact : facts) act.facts.push_back({FactId{new_uuid()}, std::move(fact)});
        return act;
    }
    static Outcome say(RecordKeeper& keeper, std::vector<event::Said> facts) {
        return value_or_throw(keeper.act(said(keeper.state()->last(), std::move(facts))));
    }
    /// As a desk does: again while other servers keep acting first.
    static Outcome insist(RecordKeeper& keeper, std::vector<event::Said> facts) {
        const Act act = said(keeper.state()->last(), std::move(facts));
        for (;;) {
            auto outcome = keeper.act(act);
            if (outcome.status().code != StatusCode::exhausted)
                return value_or_throw(std::move(outcome));
        }
    }
    static event::Said note(std::string words) { return {event::NoteWritten{}, std::move(words)}; }
    static event::Said court(std::uint16_t number) {
        event::CourtOpened court;
        court.court = number;
        return {court, ""};
    }

    MemoryMatchStore feed_;
    MemoryFactStore first_{feed_};
    MemoryFactStore second_{feed_};
    OtherStore store_{first_};
    TournamentId tournament_;
};

TEST_F(KnownRecordTest, WordsAreKnownByTheirFactUntilTheyAreErased) {
    RecordKeeper keeper{tournament_, store_};
    (void)say(keeper, {note("The floor is wet."), court(1), note("It is dry again.")});
    EXPECT_EQ(*keeper.words(), (Words{{1, "The floor is wet."}, {3, "It is dry again."}}));
    const auto before = keeper.words();

    EXPECT_EQ(value_or_throw(keeper.erase_words(std::vector<FactNumber>{1, 2, 9})), 1u);
    EXPECT_EQ(*keeper.words(), (Words{{3, "It is dry again."}}));
    EXPECT_EQ(*keeper.known().erased, (KnownRecord::Erased{1}));
    EXPECT_EQ(before->size(), 2u) << "what was handed out never changes";
    EXPECT_EQ(keeper.state()->last(), 3u);
    EXPECT_EQ(value_or_throw(keeper.erase_words(std::vector<FactNumber>{1})), 0u);
    EXPECT_EQ(*keeper.known().erased, (KnownRecord::Erased{1}));
}

TEST_F(KnownRecordTest, AnotherServerHasTheWordsAndLosesThemToo) {
    RecordKeeper one{tournament_, store_};
    RecordKeeper other{tournament_, store_};
    (void)say(one, {note("The floor is wet."), note("It is dry again.")});
    (void)value_or_throw(one.erase_words(std::vector<FactNumber>{2}));
    ASSERT_TRUE(other.catch_up().ok());
    EXPECT_EQ(*other.words(), (Words{{1, "The floor is wet."}}));
    EXPECT_EQ(*other.known().erased, (KnownRecord::Erased{2})) << "erased before it was read";

    (void)value_or_throw(one.erase_words(std::vector<FactNumber>{1}));
    const auto version = other.known().version;
    other.words_erased(std::vector<FactNumber>{1});
    EXPECT_TRUE(other.words()->empty());
    EXPECT_EQ(*other.known().erased, (KnownRecord::Erased{2, 1}));
    EXPECT_EQ(other.known().version, version + 1);
    // Told twice, it is no news.
    other.words_erased(std::vector<FactNumber>{1, 2});
    EXPECT_EQ(other.known().version, version + 1);
}

TEST_F(KnownRecordTest, WhoListensHearsOfEachChangeAndOfNothingElse) {
    RecordKeeper keeper{tournament_, store_};
    int heard = 0;
    const auto number = keeper.listen([&] { ++heard; });
    (void)say(keeper, {note("The floor is wet."), court(1)});
    EXPECT_EQ(heard, 1);
    ASSERT_TRUE(keeper.catch_up().ok());
    EXPECT_EQ(heard, 1);
    (void)value_or_throw(keeper.erase_words(std::vector<FactNumber>{1}));
    EXPECT_EQ(heard, 2);
    keeper.stop_listening(number);
    (void)say(keeper, {court(2)});
    EXPECT_EQ(heard, 2);
}

TEST_F(KnownRecordTest, ARecordThatWasPutBackIsReadAnewWhicheverLengthItHas) {
    RecordKeeper elsewhere{tournament_, second_};
    for (std::uint16_t facts = 0; facts <= 4; ++facts) {
        store_.put_back(first_);
        RecordKeeper keeper{tournament_, store_};
        if (keeper.catch_up().ok() && keeper.state()->last() == 0)
            (void)say(keeper, {note("Of the lost record."), court(7), court(8)});
        ASSERT_EQ(keeper.state()->last(), 3u);
        store_.put_back(second_);
        const auto reading = keeper.known().reading;
        ASSERT_TRUE(keeper.catch_up().ok());
        EXPECT_EQ(*keeper.state(), *elsewhere.state()) << facts;
        EXPECT_EQ(keeper.words()->size(), facts == 0 ? 0u : 1u);
        EXPECT_EQ(keeper.known().reading, reading + 1);
        EXPECT_EQ(keeper.known().head.number, facts);
        // And it is acted in as it is.
        (void)say(elsewhere, {facts == 0 ? note("Of the record that counts.") : court(facts)});
    }
}

TEST_F(KnownRecordTest, AnActGoesIntoTheRecordThatIsThere) {
    RecordKeeper keeper{tournament_, store_};
    const Act lost = said(0, {court(7)});
    ASSERT_EQ(value_or_throw(keeper.act(lost)).fate, Fate::kept);
    store_.put_back(second_);
    // What was kept and is gone is kept again by a retry.
    EXPECT_EQ(value_or_throw(keeper.act(lost)).fate, Fate::kept);
    EXPECT_EQ(value_or_throw(second_.head(tournament_)).number, 1u);
    Act ahead = lost;
    ahead.facts[0].id = FactId{new_uuid()};
    ahead.seen = 2;
    EXPECT_EQ(keeper.act(ahead).status().code, StatusCode::invalid);
}

TEST_F(KnownRecordTest, WhatIsKnownStaysUntilAllWasReadAnew) {
    RecordKeeper keeper{tournament_, store_};
    (void)say(keeper, {note("Of the lost record."), court(7)});
    store_.put_back(second_);
    store_.go_away_after(1);  // it sees that the record went back, and no more
    EXPECT_EQ(keeper.catch_up().code, StatusCode::unavailable);
    EXPECT_EQ(keeper.state()->last(), 2u);
    EXPECT_EQ(keeper.words()->size(), 1u);
    store_.go_away_after(-1);
    ASSERT_TRUE(keeper.catch_up().ok());
    EXPECT_EQ(keeper.state()->last(), 0u);
    EXPECT_TRUE(keeper.words()->empty());
}

TEST_F(KnownRecordTest, ReadAnewItSeesWordsThatWentUnheard) {
    RecordKeeper keeper{tournament_, store_};
    (void)say(keeper, {note("The floor is wet."), court(1)});
    (void)value_or_throw(first_.erase_beside(tournament_, std::vector<FactNumber>{1}));
    ASSERT_TRUE(keeper.catch_up().ok());
    EXPECT_EQ(keeper.words()->size(), 1u) << "nobody has told it";
    ASSERT_TRUE(keeper.read_anew().ok());
    EXPECT_TRUE(keeper.words()->empty());
    EXPECT_EQ(*keeper.known().erased, (KnownRecord::Erased{1}));
}

TEST_F(KnownRecordTest, AFactThatWasChangedInTheDatabaseIsSaidAndNothingAfterItCounts) {
    RecordKeeper honest{tournament_, first_};
    (void)say(honest, {court(1), court(2), court(3)});
    auto facts = value_or_throw(first_.read(tournament_, 0, 10));
    // The third where the second should be.
    facts.erase(facts.begin() + 1);
    facts[1].number = 2;
    ASSERT_EQ(value_or_throw(second_.append(tournament_, {}, facts)).fate,
              FactAppend::Fate::appended);
    RecordKeeper keeper{tournament_, second_};
    const Status status = keeper.catch_up();
    EXPECT_EQ(status.code, StatusCode::internal);
    EXPECT_NE(status.message.find("fact 2"), std::string::npos) << status.message;
    EXPECT_EQ(keeper.state()->last(), 1u);
}

TEST_F(KnownRecordTest, WhoLooksWhileOthersActAndEraseSeesOneRecordAtATime) {
    constexpr int acts = 150;
    RecordKeeper keeper{tournament_, store_};
    RecordKeeper elsewhere{tournament_, store_};
    std::atomic<int> acting{3};
    const auto desk = [&](RecordKeeper& at) {
        for (int i = 0; i < acts; ++i)
            EXPECT_EQ(insist(at, {note("A note."), note("")}).fate, Fate::kept);
        --acting;
    };
    std::thread one{desk, std::ref(keeper)};
    std::thread two{desk, std::ref(keeper)};
    std::thread other{desk, std::ref(elsewhere)};
    std::thread eraser{[&] {
        for (FactNumber fact = 1; acting > 0; fact = fact % (6 * acts) + 1)
            (void)value_or_throw(keeper.erase_words(std::vector<FactNumber>{fact}));
    }};
    std::uint64_t version = 0;
    std::size_t looks = 0;
    while (acting > 0) {
        std::atomic<int> heard{0};
        const auto number = keeper.listen([&] { heard += keeper.known().version > 0 ? 1 : 0; });
        const KnownRecord known = keeper.known();
        ASSERT_GE(known.version, version);
        version = known.version;
        ASSERT_EQ(known.state->last(), known.head.number);
        ASSERT_LE(known.words->size() + known.erased->size(), known.state->last());
        for (const FactNumber fact : *known.erased) ASSERT_FALSE(known.words->contains(fact));
        ++looks;
        keeper.stop_listening(number);
    }
    for (std::thread* thread : {&one, &two, &other, &eraser}) thread->join();
    EXPECT_GT(looks, 0u);
    ASSERT_TRUE(keeper.catch_up().ok());
    EXPECT_EQ(keeper.state()->last(), 6u * acts);
    // Whatever was told on the way, it comes to what the store has.
    RecordKeeper fresh{tournament_, store_};
    ASSERT_TRUE(fresh.catch_up().ok());
    EXPECT_EQ(*keeper.state(), *fresh.state());
    EXPECT_EQ(*keeper.words(), *fresh.words());
}

TEST_F(KnownRecordTest, ManyPagesAreReadAsOneChange) {
    RecordKeeper writer{tournament_, store_};
    for (int i = 0; i < 3; ++i) {
        std::vector<event::Said> facts;
        for (int k = 0; k < 512; ++k) facts.push_back(note("A note."));
        (void)say(writer, std::move(facts));
    }
    RecordKeeper reader{tournament_, store_};
    ASSERT_TRUE(reader.catch_up().ok());
    EXPECT_EQ(reader.known().version, 1u);
    EXPECT_EQ(reader.state()->last(), 1536u);
    EXPECT_EQ(reader.known().head, writer.known().head);
    EXPECT_EQ(reader.words()->size(), 1536u);
}

}  // namespace
}  // namespace courthand::server::tournament
