// What the feed tells of the tournament's record reaches the keeper of another server.
#include "server/service/record_follower.h"

#include <gtest/gtest.h>

#include <atomic>
#include <optional>
#include <string>
#include <vector>

#include "server/domain/presence.h"
#include "server/feed/follower.h"
#include "server/store/memory_match_store.h"
#include "server/testing/or_throw.h"
#include "server/tournament/memory_fact_store.h"
#include "tests/testkit/eventually.h"

namespace courthand::server::service {
namespace {

using testkit::eventually;
using tournament::FactNumber;
using tournament::RecordKeeper;

/// A store that is away for a while.
class AwayStore final : public tournament::FactStore {
  public:
    explicit AwayStore(tournament::FactStore& store) : store_{&store} {}
    std::atomic<bool> away{false};
    void put_back(tournament::FactStore& to) { store_ = &to; }

    Result<tournament::FactHead> head(TournamentId tournament) override {
        return store_.load()->head(tournament);
    }
    Result<std::vector<tournament::KeptFact>> read(TournamentId tournament, FactNumber after,
                                                   std::size_t most) override {
        if (away) return Status::failed(StatusCode::unavailable, "the database is away");
        return store_.load()->read(tournament, after, most);
    }
    Result<tournament::FactAppend> append(TournamentId tournament, const tournament::FactHead& seen,
                                          std::span<const tournament::KeptFact> facts,
                                          std::span<const tournament::RecordEnd> ends) override {
        return store_.load()->append(tournament, seen, facts, ends);
    }
    Result<std::size_t> erase_beside(TournamentId tournament,
                                     std::span<const FactNumber> facts) override {
        return store_.load()->erase_beside(tournament, facts);
    }

  private:
    std::atomic<tournament::FactStore*> store_;
};

class RecordFollowerTest : public ::testing::Test {
  protected:
    RecordFollowerTest() {
        tournament_ =
            value_or_throw(feed_.create_tournament(TournamentId{new_uuid()}, "Harbour Cup")).id;
        elsewhere_.emplace(tournament_, store_);
        record_.emplace(tournament_, away_);
        feed_follower_.emplace(tournament_, Follower::Parts{feed_, matches_, presence_, hub_},
                               [](const Status&) {});
        throw_if_failed(feed_follower_->rebuild());
        work_.emplace();
        follower_.emplace(RecordFollower::Parts{*record_, hub_, *work_});
    }
    ~RecordFollowerTest() override {
        follower_->stop();
        work_.reset();
    }
    void follow_feed() { throw_if_failed(feed_follower_->catch_up()); }
    /// At the other server.
    void say(std::size_t notes) {
        tournament::Act act;
        act.device = DeviceId{new_uuid()};
        act.author = "desk 1";
        act.seen = elsewhere_->state()->last();
        for (std::size_t i = 0; i < notes; ++i)
            act.facts.push_back(
                {tournament::FactId{new_uuid()}, {event::NoteWritten{}, "The floor is wet."}});
        (void)value_or_throw(elsewhere_->act(act));
    }
    ::testing::AssertionResult knows(FactNumber facts, std::size_t words) {
        return eventually(
            [&] { return record_->state()->last() == facts && record_->words()->size() == words; });
    }

    MemoryMatchStore feed_;
    tournament::MemoryFactStore store_{feed_};
    AwayStore away_{store_};
    TournamentId tournament_;
    MatchKeeper matches_;
    Presence presence_;
    Hub hub_;
    std::optional<RecordKeeper> elsewhere_;
    std::optional<RecordKeeper> record_;
    std::optional<Follower> feed_follower_;
    std::optional<RecordFollower> follower_;
    std::optional<WorkQueue> work_;
};

TEST_F(RecordFollowerTest, WhatAnotherServerKeptAndErasedIsKnownHere) {
    say(2);
    ASSERT_TRUE(follower_->start().ok());
    EXPECT_EQ(record_->state()->last(), 2u);
    say(3);
    follow_feed();
    EXPECT_TRUE(knows(5, 5));
    (void)value_or_throw(elsewhere_->erase_words(std::vector<FactNumber>{1, 4}));
    follow_feed();
    EXPECT_TRUE(knows(5, 3));
    EXPECT_EQ(*record_->known().erased, (std::vector<FactNumber>{1, 4}));
}

TEST_F(RecordFollowerTest, WhileTheDatabaseIsAwayItTriesAgainEachSecond) {
    ASSERT_TRUE(follower_->start().ok());
    away_.away = true;
    say(1);
    (void)value_or_throw(elsewhere_->erase_words(std::vector<FactNumber>{1}));
    say(1);
    follow_feed();
    hub_.tick();
    EXPECT_EQ(record_->state()->last(), 0u);
    away_.away = false;
    EXPECT_TRUE(eventually([&] {
        hub_.tick();
        return record_->state()->last() == 2 && record_->words()->size() == 1;
    }));
}

TEST_F(RecordFollowerTest, AStartWithoutDatabaseFailsAndMayBeTriedAgain) {
    say(1);
    away_.away = true;
    EXPECT_EQ(follower_->start().code, StatusCode::unavailable);
    away_.away = false;
    ASSERT_TRUE(follower_->start().ok());
    EXPECT_EQ(record_->state()->last(), 1u);
}

TEST_F(RecordFollowerTest, AFeedThatBeganAnewIsReadAnew) {
    say(3);
    ASSERT_TRUE(follower_->start().ok());
    // Erased while nobody told it: the database was put back.
    (void)value_or_throw(store_.erase_beside(tournament_, std::vector<FactNumber>{2}));
    throw_if_failed(feed_follower_->rebuild());
    EXPECT_TRUE(knows(3, 2));
    tournament::MemoryFactStore shorter{feed_};
    away_.put_back(shorter);
    throw_if_failed(feed_follower_->rebuild());
    EXPECT_TRUE(knows(0, 0));
    away_.put_back(store_);
    throw_if_failed(feed_follower_->rebuild());
    EXPECT_TRUE(knows(3, 2));
}

TEST_F(RecordFollowerTest, AFactThatCannotBeReadHoldsUpNeitherTheStartNorTheErasing) {
    say(1);
    tournament::KeptFact strange;
    strange.id = tournament::FactId{new_uuid()};
    strange.number = 2;
    strange.bytes = std::make_shared<const std::string>("of a newer program");
    (void)value_or_throw(
        store_.append(tournament_, value_or_throw(store_.head(tournament_)), std::vector{strange}));
    ASSERT_TRUE(follower_->start().ok());
    EXPECT_TRUE(knows(1, 1));
    (void)value_or_throw(store_.erase_beside(tournament_, std::vector<FactNumber>{1}));
    follow_feed();
    EXPECT_TRUE(knows(1, 0));
}

TEST_F(RecordFollowerTest, AfterItsEndNothingIsRead) {
    ASSERT_TRUE(follower_->start().ok());
    follower_->stop();
    work_.reset();  // with what it had begun
    say(1);
    follow_feed();
    hub_.tick();
    EXPECT_EQ(record_->state()->last(), 0u);
}

}  // namespace
}  // namespace courthand::server::service
