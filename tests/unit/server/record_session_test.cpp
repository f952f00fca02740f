// From an act to what a watcher of the record is sent, without network: gaps, limits, words that
// are erased at any moment, and a database that was put back.
#include "server/service/record_session.h"

#include <gtest/gtest.h>

#include "server/service/record_stream.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "server/store/memory_match_store.h"
#include "server/testing/or_throw.h"
#include "server/tournament/memory_fact_store.h"
#include "wire/event_entry.h"
#include "wire/tournament_limits.h"

namespace courthand::server::service {
namespace {

using tournament::FactHead;
using tournament::FactNumber;
using tournament::RecordKeeper;
using Next = RecordSession::Next;

/// A client that believes everything it is told.
class Client {
  public:
    explicit Client(bool desk = true) : desk_{desk} {}

    void watch(RecordSession::Parts parts) {
        RecordWish wish;
        wish.with_words = desk_;
        if (!hashes_.empty()) wish.from = {static_cast<FactNumber>(hashes_.size()), hashes_.back()};
        session_.emplace(wish, parts);
    }
    /// Takes one message, if there is one.
    bool take_one() {
        v1::WatchRecordResponse message;
        for (;;) {
            switch (session_->next(message)) {
                case Next::message:
                    take(message);
                    return true;
                case Next::wait:
                    return false;
                case Next::read_store:
                    throw_if_failed(session_->read_store());
                    ++reads;
            }
        }
    }
    /// The page is read, and not sent yet.
    void read_only() {
        v1::WatchRecordResponse message;
        ASSERT_EQ(session_->next(message), Next::read_store);
        throw_if_failed(session_->read_store());
    }
    void take_all() {
        while (take_one()) {
        }
    }
    RecordSession& session() { return *session_; }
    [[nodiscard]] std::size_t size() const { return hashes_.size(); }

    std::map<FactNumber, std::string> words;
    std::vector<v1::WatchRecordResponse> messages;
    int reads = 0;

  private:
    void take(const v1::WatchRecordResponse& message) {
        messages.push_back(message);
        if (message.anew()) {
            hashes_.clear();
            words.clear();
        }
        for (const auto& fact : message.facts()) {
            const auto read = wire::read_event_entry(fact.data());
            ASSERT_TRUE(std::holds_alternative<wire::ReadEventEntry>(read));
            const auto& entry = std::get<wire::ReadEventEntry>(read);
            ASSERT_EQ(entry.header().seq, hashes_.size() + 1);
            hashes_.push_back(entry.hash());
            if (fact.has_beside()) words[entry.header().seq] = fact.beside().text();
        }
        for (const FactNumber fact : message.erased()) words.erase(fact);
    }

    bool desk_;
    std::optional<RecordSession> session_;
    std::vector<Hash> hashes_;
};

class RecordSessionTest : public ::testing::Test {
  protected:
    RecordSessionTest() {
        tournament_ =
            value_or_throw(feed_.create_tournament(TournamentId{new_uuid()}, "Harbour Cup")).id;
        keeper_.emplace(tournament_, store_);
    }
    RecordSession::Parts parts() { return {tournament_, *keeper_, store_}; }
    static void say(RecordKeeper& keeper, std::size_t notes, const std::string& words = {}) {
        tournament::Act act;
        act.device = DeviceId{new_uuid()};
        act.author = "desk 1";
        act.seen = keeper.state()->last();
        for (std::size_t i = 0; i < notes; ++i)
            act.facts.push_back({tournament::FactId{new_uuid()}, {event::NoteWritten{}, words}});
        (void)value_or_throw(keeper.act(act));
    }
    void say(std::size_t notes, const std::string& words = {}) { say(*keeper_, notes, words); }
    void erase(const std::vector<FactNumber>& facts) {
        (void)value_or_throw(keeper_->erase_words(facts));
    }

    MemoryMatchStore feed_;
    tournament::MemoryFactStore store_{feed_};
    TournamentId tournament_;
    std::optional<RecordKeeper> keeper_;
};

TEST_F(RecordSessionTest, AnEmptyRecordIsToldAtOnce) {
    Client client;
    client.watch(parts());
    client.take_all();
    ASSERT_EQ(client.messages.size(), 1u);
    EXPECT_TRUE(client.messages[0].has_header());
    EXPECT_FALSE(client.messages[0].anew());
    EXPECT_EQ(client.messages[0].last(), 0u);
    // And it is not told again, nor does it cost a look into the store.
    const int reads = client.reads;
    client.take_all();
    EXPECT_EQ(client.messages.size(), 1u);
    EXPECT_EQ(client.reads, reads);
}

TEST_F(RecordSessionTest, TheRecordComesPageByPageAndThenEachFactAsItIsKept) {
    say(700, "A note.");
    Client client;
    client.watch(parts());
    client.take_all();
    ASSERT_EQ(client.messages.size(), 3u);
    EXPECT_EQ(client.messages[0].facts_size(), static_cast<int>(wire::most_watched_facts));
    EXPECT_EQ(client.messages[2].facts_size(), 700 - 2 * 256);
    EXPECT_TRUE(client.messages[0].has_header());
    EXPECT_FALSE(client.messages[1].has_header());
    EXPECT_TRUE(client.messages[2].has_header()) << "it completes the record";
    for (const auto& message : client.messages) EXPECT_EQ(message.last(), 700u);
    EXPECT_EQ(client.words.size(), 700u);

    say(1);
    client.take_all();
    ASSERT_EQ(client.messages.size(), 4u);
    EXPECT_EQ(client.messages[3].facts_size(), 1);
    EXPECT_EQ(client.messages[3].last(), 701u);
    EXPECT_EQ(client.size(), 701u);
}

TEST_F(RecordSessionTest, WhoComesBackIsSentTheRestOnly) {
    say(10);
    Client client;
    client.watch(parts());
    client.take_all();
    say(2);
    client.watch(parts());
    client.take_all();
    EXPECT_EQ(client.size(), 12u);
    EXPECT_EQ(client.messages.back().facts_size(), 2);
    // With nothing missed, it is told just that.
    client.watch(parts());
    client.take_all();
    EXPECT_EQ(client.messages.back().facts_size(), 0);
    EXPECT_FALSE(client.messages.back().anew());
    EXPECT_TRUE(client.messages.back().has_header());
}

TEST_F(RecordSessionTest, WhatIsBesideFactsGoesToDesksOnly) {
    say(2, "Anna Example");
    erase({1});
    Client desk;
    desk.watch(parts());
    desk.take_all();
    EXPECT_EQ(desk.words, (std::map<FactNumber, std::string>{{2, "Anna Example"}}));
    Client head{false};
    head.watch(parts());
    head.take_all();
    erase({2});
    head.take_all();
    EXPECT_EQ(head.size(), 2u);
    for (const auto& message : head.messages) {
        EXPECT_EQ(message.erased_size(), 0);
        EXPECT_EQ(message.SerializeAsString().find("Anna"), std::string::npos);
        for (const auto& fact : message.facts()) EXPECT_FALSE(fact.has_beside());
    }
}

TEST_F(RecordSessionTest, ErasedWordsAreToldToWhoWatchesAndToWhoComesBack) {
    say(3, "A note.");
    Client watching;
    Client away;
    for (Client* client : {&watching, &away}) {
        client->watch(parts());
        client->take_all();
    }
    erase({2});
    watching.take_all();
    EXPECT_EQ(watching.words.count(2), 0u);
    EXPECT_EQ(watching.messages.back().erased_size(), 1);
    EXPECT_TRUE(watching.messages.back().has_header());
    away.watch(parts());
    away.take_all();
    EXPECT_EQ(away.words, watching.words);
    // Who begins needs not be told.
    Client fresh;
    fresh.watch(parts());
    fresh.take_all();
    EXPECT_EQ(fresh.words, watching.words);
    EXPECT_EQ(fresh.messages.back().erased_size(), 0);
}

TEST_F(RecordSessionTest, WordsThatAreErasedWhileTheirPageWaitsAreTakenBack) {
    say(3, "A note.");
    Client client;
    client.watch(parts());
    client.read_only();
    erase({2});
    ASSERT_TRUE(client.take_one());
    client.take_all();
    EXPECT_EQ(client.words.size(), 2u);
    EXPECT_EQ(client.words.count(2), 0u);
}

TEST_F(RecordSessionTest, ManyErasedFactsAreToldInPieces) {
    say(1000, "A note.");
    say(1000, "A note.");
    Client client;
    client.watch(parts());
    client.take_all();
    const std::size_t before = client.messages.size();
    for (FactNumber first = 1; first <= 2000; first += 1000) {
        std::vector<FactNumber> some;
        for (FactNumber fact = first; fact < first + 1000; ++fact) some.push_back(fact);
        erase(some);
    }
    client.take_all();
    EXPECT_TRUE(client.words.empty());
    ASSERT_EQ(client.messages.size(), before + 2);
    EXPECT_EQ(client.messages[before].erased_size(), static_cast<int>(wire::most_erased_told));
    EXPECT_FALSE(client.messages[before].has_header());
    EXPECT_TRUE(client.messages[before + 1].has_header());
}

TEST_F(RecordSessionTest, LargeFactsComeInSmallerMessages) {
    tournament::Act act;
    act.device = DeviceId{new_uuid()};
    act.author = "desk 1";
    event::DecisionMade decision;
    decision.pool = "A";
    decision.division = "U16";
    for (std::size_t i = 0; i < event::most_listed; ++i)
        decision.teams.push_back(std::string(62, 'x') + std::to_string(10 + i));
    for (std::size_t i = 0; i < 700; ++i)
        act.facts.push_back({tournament::FactId{new_uuid()}, {decision, ""}});
    ASSERT_TRUE(keeper_->act(act).ok());
    Client client;
    client.watch(parts());
    client.take_all();
    EXPECT_EQ(client.size(), 700u);
    EXPECT_LT(client.messages[0].facts_size(), static_cast<int>(wire::most_watched_facts));
    for (const auto& message : client.messages)
        EXPECT_LE(message.ByteSizeLong(),
                  wire::enough_watched_bytes + 2 * wire::most_event_entry_bytes);
}

TEST_F(RecordSessionTest, AClientOfAnotherRecordBeginsAnew) {
    tournament::MemoryFactStore other_store{feed_};
    RecordKeeper other{tournament_, other_store};
    for (const std::size_t facts : {1u, 3u, 5u}) {
        // Shorter, as long, longer than that of the server.
        Client client;
        say(other, facts, "Of the other record.");
        client.watch({tournament_, other, other_store});
        client.take_all();
        if (keeper_->state()->last() == 0) say(4, "Of this record.");
        client.watch(parts());
        client.take_all();
        EXPECT_TRUE(client.messages.back().anew());
        EXPECT_EQ(client.size(), 4u);
        EXPECT_EQ(client.words.size(), 4u);
        EXPECT_EQ(client.words[1], "Of this record.");
    }
    Client ahead;
    say(other, 300);
    ahead.watch({tournament_, other, other_store});
    ahead.take_all();
    ahead.watch(parts());
    ahead.take_all();
    EXPECT_EQ(ahead.size(), 4u);
}

TEST_F(RecordSessionTest, AnEmptyRecordInThePlaceOfAnotherIsToldToo) {
    say(2, "A note.");
    Client client;
    client.watch(parts());
    client.take_all();
    tournament::MemoryFactStore empty_store{feed_};
    RecordKeeper empty{tournament_, empty_store};
    client.watch({tournament_, empty, empty_store});
    client.take_all();
    EXPECT_TRUE(client.messages.back().anew());
    EXPECT_EQ(client.size(), 0u);
    EXPECT_TRUE(client.words.empty());
}

TEST_F(RecordSessionTest, ASignOfLifeSaysHowFarTheRecordIs) {
    static_assert(2 * RecordStream::sign_of_life_every <= std::chrono::seconds{10},
                  "the call promises one each ten seconds, and one may be late");
    say(3);
    Client client;
    client.watch(parts());
    client.take_all();
    const auto sign = client.session().sign_of_life();
    EXPECT_TRUE(sign.has_header());
    EXPECT_EQ(sign.last(), 3u);
    EXPECT_EQ(sign.facts_size(), 0);
}

TEST_F(RecordSessionTest, FactsThatTheKeeperHasNotReadYetAreSentOnceAndNotLookedForWithoutEnd) {
    Client client;
    client.watch(parts());
    client.take_all();
    // Another server keeps them; here only the store has them.
    RecordKeeper other{tournament_, store_};
    ASSERT_TRUE(other.catch_up().ok());
    say(other, 2);
    client.take_all();
    EXPECT_EQ(client.size(), 0u) << "nobody has told this server";
    say(1);
    client.take_all();
    EXPECT_EQ(client.size(), 3u);
    const int reads = client.reads;
    client.take_all();
    EXPECT_EQ(client.reads, reads);
}

}  // namespace
}  // namespace courthand::server::service
