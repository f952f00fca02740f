// Group commit with the store in memory.
#include "server/domain/ingest.h"

#include <gtest/gtest.h>

#include <atomic>
#include <future>
#include <stdexcept>
#include <string>

#include "server/domain/record_start.h"
#include "server/store/memory_match_store.h"
#include "server/testing/or_throw.h"
#include "tests/testkit/eventually.h"
#include "tests/testkit/told_faults.h"
#include "wire/fact_convert.h"
#include "wire/read_entry.h"

namespace courthand::server {
namespace {

using testkit::eventually;

/// A store whose appends wait until they are let through.
class GatedStore {
  public:
    GatedStore() {
        tournament = value_or_throw(store.create_tournament(TournamentId{new_uuid()}, "Cup")).id;
    }
    MatchId new_match() {
        MatchPlan plan;
        plan.key = {tournament, MatchId{new_uuid()}};
        plan.profile = "international-2025";
        (void)value_or_throw(store.create_match(plan));
        return plan.key.match;
    }
    AppendItem first_entry(MatchId match) {
        AppendItem item;
        item.match = match;
        item.id = EntryId{new_uuid()};
        item.device = DeviceId{new_uuid()};
        item.epoch = 1;
        item.number = 1;
        item.previous = start_hash(match);
        item.bytes = std::make_shared<const std::string>(to_text(item.id));
        item.hash = hash_of(*item.bytes);
        return item;
    }

    MemoryMatchStore store;
    TournamentId tournament;
};

using Answers = Result<std::vector<AppendResult>>;

TEST(Ingest, AnswersEachSubmissionWithItsOwnResults) {
    GatedStore gated;
    std::vector<std::promise<Answers>> promises(20);
    {
        Ingest ingest{gated.store};
        for (auto& promise : promises) {
            Submission submission;
            submission.tournament = gated.tournament;
            submission.items.push_back(gated.first_entry(gated.new_match()));
            submission.answer = [&](Answers answers) { promise.set_value(std::move(answers)); };
            ASSERT_TRUE(ingest.submit(std::move(submission)));
        }
    }
    for (auto& promise : promises) {
        const Answers answers = promise.get_future().get();
        ASSERT_TRUE(answers.ok());
        ASSERT_EQ(answers->size(), 1u);
        EXPECT_EQ((*answers)[0].fate, Fate::appended);
        EXPECT_EQ((*answers)[0].head.last, 1u);
    }
    EXPECT_LE(gated.store.appends(), promises.size());
}

TEST(Ingest, PushesThatArriveWhileOneCommitsShareTheNextTransaction) {
    GatedStore gated;
    std::promise<void> first_is_in;
    std::promise<void> let_go;
    std::promise<void> all_done;
    std::atomic<int> left{50};
    {
        Ingest ingest{gated.store};
        Submission slow;
        slow.tournament = gated.tournament;
        slow.items.push_back(gated.first_entry(gated.new_match()));
        slow.answer = [&](Answers) {
            first_is_in.set_value();
            let_go.get_future().wait();  // only a test may hold up the ingest thread
        };
        ASSERT_TRUE(ingest.submit(std::move(slow)));
        first_is_in.get_future().wait();
        for (int i = 0; i < 50; ++i) {
            Submission submission;
            submission.tournament = gated.tournament;
            submission.items.push_back(gated.first_entry(gated.new_match()));
            submission.answer = [&](Answers) {
                if (--left == 0) all_done.set_value();
            };
            ASSERT_TRUE(ingest.submit(std::move(submission)));
        }
        let_go.set_value();
        all_done.get_future().wait();
    }
    EXPECT_EQ(gated.store.appends(), 2u);
}

// Fault 14: an exception in an answer ended the server.
TEST(Ingest, AnAnswerThatThrowsCostsItselfOnly) {
    GatedStore gated;
    std::promise<Answers> second;
    const testing::ToldFaults told;
    {
        Ingest ingest{gated.store};
        Submission bad;
        bad.tournament = gated.tournament;
        bad.items.push_back(gated.first_entry(gated.new_match()));
        bad.answer = [](Answers) { throw std::runtime_error{"no memory"}; };
        ASSERT_TRUE(ingest.submit(std::move(bad)));
        Submission good;
        good.tournament = gated.tournament;
        good.items.push_back(gated.first_entry(gated.new_match()));
        good.answer = [&](Answers answers) { second.set_value(std::move(answers)); };
        ASSERT_TRUE(ingest.submit(std::move(good)));
    }
    EXPECT_TRUE(second.get_future().get().ok());
    EXPECT_EQ(told.said(), std::vector<std::string>{"no memory"});
}

TEST(Ingest, TurnsAwayWhatDoesNotFitTheQueue) {
    GatedStore gated;
    std::promise<void> first_is_in;
    std::promise<void> let_go;
    Ingest ingest{gated.store};
    const MatchId match = gated.new_match();
    Submission slow;
    slow.tournament = gated.tournament;
    slow.items.push_back(gated.first_entry(match));
    slow.answer = [&](Answers) {
        first_is_in.set_value();
        let_go.get_future().wait();
    };
    ASSERT_TRUE(ingest.submit(std::move(slow)));
    first_is_in.get_future().wait();
    EXPECT_TRUE(ingest.has_room(256));
    std::size_t taken = 0;
    bool turned_away = false;
    while (!turned_away && taken <= Ingest::most_waiting_entries) {
        Submission submission;
        submission.tournament = gated.tournament;
        submission.items.assign(256, gated.first_entry(match));
        submission.answer = [](Answers) {};
        turned_away = !ingest.submit(std::move(submission));
        if (!turned_away) taken += 256;
    }
    EXPECT_TRUE(turned_away);
    EXPECT_EQ(taken, Ingest::most_waiting_entries);
    EXPECT_FALSE(ingest.has_room(256));
    let_go.set_value();
}

TEST(Ingest, PassesTheStatusOfAStoreThatIsAway) {
    GatedStore gated;
    const AppendItem item = gated.first_entry(gated.new_match());
    gated.store.fail_with(Status::failed(StatusCode::unavailable, "away"));
    std::promise<Answers> promise;
    Ingest ingest{gated.store};
    Submission submission;
    submission.tournament = gated.tournament;
    submission.items.push_back(item);
    submission.answer = [&](Answers answers) { promise.set_value(std::move(answers)); };
    ASSERT_TRUE(ingest.submit(std::move(submission)));
    EXPECT_EQ(promise.get_future().get().status().code, StatusCode::unavailable);
}

TEST(Ingest, MakesAMatchThatATableOpenedByItself) {
    GatedStore gated;
    MatchPlan plan;
    plan.key = {gated.tournament, MatchId{new_uuid()}};
    plan.profile = "international-2025";
    plan.opened_at_table = true;
    std::promise<Answers> promise;
    Ingest ingest{gated.store};
    Submission submission;
    submission.tournament = gated.tournament;
    submission.items.push_back(gated.first_entry(plan.key.match));
    submission.opened_here = plan;
    submission.answer = [&](Answers answers) { promise.set_value(std::move(answers)); };
    ASSERT_TRUE(ingest.submit(std::move(submission)));
    const Answers answers = promise.get_future().get();
    ASSERT_TRUE(answers.ok());
    EXPECT_EQ((*answers)[0].fate, Fate::appended);
}

TEST(Ingest, TellsWhatWasCommittedBeforeItAnswers) {
    GatedStore gated;
    const AppendItem entry = gated.first_entry(gated.new_match());
    AppendItem fork = entry;
    fork.id = EntryId{new_uuid()};
    fork.hash = hash_of("another");
    std::vector<FeedItem> told;
    std::promise<std::size_t> told_when_answered;
    {
        Ingest ingest{gated.store};
        ingest.set_committed([&](std::span<const FeedItem> items) {
            told.insert(told.end(), items.begin(), items.end());
        });
        Submission submission;
        submission.tournament = gated.tournament;
        submission.items = {entry, entry, fork};
        submission.answer = [&](Answers) { told_when_answered.set_value(told.size()); };
        ASSERT_TRUE(ingest.submit(std::move(submission)));
    }
    EXPECT_EQ(told_when_answered.get_future().get(), 2u) << "what was kept before is no news";
    FeedQuery query;
    query.tournament = gated.tournament;
    query.after = 1;  // the match was described first
    const auto kept = value_or_throw(gated.store.read_feed(query)).items;
    ASSERT_EQ(kept.size(), told.size());
    for (std::size_t i = 0; i < kept.size(); ++i) {
        EXPECT_EQ(told[i].position, kept[i].position);
        EXPECT_EQ(told[i].kind, kept[i].kind);
        EXPECT_EQ(told[i].id, kept[i].id);
        EXPECT_EQ(told[i].branch, kept[i].branch);
        EXPECT_EQ(told[i].number, kept[i].number);
        EXPECT_EQ(*told[i].bytes, *kept[i].bytes);
    }
}

/// A store that does not confirm, after as long as it is waited for.
class SlowToSayNo final : public MemoryMatchStore {
  public:
    Result<std::vector<AppendResult>> append(TournamentId tournament,
                                             std::span<const AppendItem> items) override {
        ++asked;
        if (!lost) return MemoryMatchStore::append(tournament, items);
        lost.wait(true);
        return Status::failed(StatusCode::in_doubt, "not confirmed");
    }
    void say_no() {
        lost = false;
        lost.notify_all();
    }

    std::atomic<bool> lost = true;
    std::atomic<int> asked = 0;
};

Submission nothing_but(std::promise<Answers>& promise) {
    Submission submission;
    submission.tournament.value = new_uuid();
    submission.answer = [&](Answers answers) { promise.set_value(std::move(answers)); };
    return submission;
}

StatusCode answer_to_nothing(Ingest& ingest, TournamentId tournament) {
    std::promise<Answers> promise;
    Submission submission = nothing_but(promise);
    submission.tournament = tournament;
    EXPECT_TRUE(ingest.submit(std::move(submission)));
    return promise.get_future().get().status().code;
}

TEST(Ingest, WhatWaitsBehindAStoreThatIsSlowToSayNoIsTurnedAwayWithIt) {
    SlowToSayNo store;
    Ingest ingest{store};
    std::promise<Answers> first;
    std::promise<Answers> behind;
    ASSERT_TRUE(ingest.submit(nothing_but(first)));
    ASSERT_TRUE(eventually([&] { return store.asked > 0; }));
    ASSERT_TRUE(ingest.submit(nothing_but(behind)));
    constexpr auto longer = Ingest::asks_again_within + std::chrono::milliseconds{100};
    ASSERT_TRUE(eventually([&] { return ingest.keeps_nothing_for() >= longer; }));
    store.say_no();
    EXPECT_EQ(first.get_future().get().status().code, StatusCode::in_doubt);
    EXPECT_EQ(behind.get_future().get().status().code, StatusCode::in_doubt);
    EXPECT_EQ(store.asked, 1) << "not once more at once, nor for those behind";
}

// Only a failure that passes by itself counted.
TEST(Ingest, AStoreThatIsOutOfOrderForGoodKeepsNothingEither) {
    GatedStore gated;
    Ingest ingest{gated.store};
    gated.store.fail_with(Status::failed(StatusCode::internal, "out of order"));
    EXPECT_EQ(answer_to_nothing(ingest, gated.tournament), StatusCode::internal);
    EXPECT_TRUE(eventually([&] { return ingest.keeps_nothing_for() > 2 * Ingest::probes_every; }));
    gated.store.fail_with(Status::fine());
    EXPECT_TRUE(eventually([&] { return ingest.keeps_nothing_for().count() == 0; }));
}

TEST(Ingest, AStoreThatKeepsNothingIsAskedByItselfUntilItKeepsAgain) {
    GatedStore gated;
    Ingest ingest{gated.store};
    EXPECT_EQ(ingest.keeps_nothing_for().count(), 0);
    gated.store.fail_with(Status::failed(StatusCode::unavailable, "away"));
    EXPECT_EQ(answer_to_nothing(ingest, gated.tournament), StatusCode::unavailable);
    ASSERT_TRUE(eventually([&] { return ingest.keeps_nothing_for() >= 2 * Ingest::probes_every; }));
    gated.store.fail_with(Status::fine());
    EXPECT_TRUE(eventually([&] { return ingest.keeps_nothing_for().count() == 0; }));
}

TEST(Ingest, WhatItTellsOfIsTheVeryValueThatWasRead) {
    GatedStore gated;
    AppendItem item = gated.first_entry(gated.new_match());
    v1::Entry entry;
    entry.set_match_id(to_bytes(item.match.value));
    entry.set_epoch(1);
    entry.set_entry_id(to_bytes(item.id.value));
    entry.set_device_id(to_bytes(item.device.value));
    wire::to_proto(Record{Fact{Toss{Team::A, Team::A}}}, entry);
    wire::Hasher hasher;
    item.read = std::make_shared<const wire::ReadEntry>(std::get<wire::ReadEntry>(wire::seal(
        std::move(entry), wire::genesis(wire::Uuid{item.match.value.bytes}, hasher), hasher)));
    item.bytes = item.read->shared_bytes();
    item.hash = item.read->hash();
    std::vector<FeedItem> told;
    {
        Ingest ingest{gated.store};
        ingest.set_committed(
            [&](std::span<const FeedItem> items) { told.assign(items.begin(), items.end()); });
        std::promise<Answers> answered;
        Submission submission;
        submission.tournament = gated.tournament;
        submission.items.push_back(item);
        submission.answer = [&](Answers answers) { answered.set_value(std::move(answers)); };
        ASSERT_TRUE(ingest.submit(std::move(submission)));
        ASSERT_TRUE(answered.get_future().get().ok());
    }
    ASSERT_EQ(told.size(), 1u);
    EXPECT_EQ(told.front().read, item.read);
    EXPECT_EQ(told.front().bytes, item.read->shared_bytes()) << "not a copy of them";
}

}  // namespace
}  // namespace courthand::server
