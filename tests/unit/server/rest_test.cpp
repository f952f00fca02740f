// Matches that rest: what stays in memory, what a start reads, and how they go on.
#include <gtest/gtest.h>

#include <functional>
#include <stdexcept>
#include <utility>

#include "courthand/rules/judge.h"
#include "courthand/rules/profile.h"
#include "middle.h"
#include "server/domain/fault_log.h"
#include "server/testing/or_throw.h"
#include "wire/fold_record.h"

namespace courthand::server::service {
namespace {

using std::chrono::minutes;

class Rest : public MiddleTest {
  protected:
    /// A match that one team has lost by default.
    TestRecord finished_record(std::uint32_t court = 1) {
        TestRecord record = new_record(court);
        record.add_rallies(3);
        record.add(Default{Team::B});
        return record;
    }
    static bool rests(const Middle& middle, const TestRecord& record) {
        bool held = true;
        EXPECT_TRUE(middle.keeper.read(id_of(record),
                                       [&](const LiveMatch& m) { held = m.record != nullptr; }));
        return !held;
    }
    static void expect_folded(const Middle& middle, const TestRecord& record) {
        const Profile* const profile = find_profile("international-2025");
        const auto folded = wire::fold_record(record.match(), profile->rules, record.bytes());
        EXPECT_TRUE(middle.keeper.read(id_of(record), [&](const LiveMatch& m) {
            EXPECT_EQ(m.state, folded.state);
            EXPECT_EQ(m.head.last, record.size());
            EXPECT_EQ(m.unreadable, "");
            const auto now = standing(m.profile->rules, m.state);
            ASSERT_EQ(m.standing.size(), now.size());
            for (std::size_t i = 0; i < now.size(); ++i) EXPECT_EQ(m.standing[i], now[i]);
        }));
    }
    static MatchKeeper::Steady in(minutes time) { return std::chrono::steady_clock::now() + time; }
};

TEST_F(Rest, AFinishedMatchRestsAfterAWhileAndOneInPlayMuchLater) {
    const TestRecord over = finished_record(1);
    TestRecord played = new_record(2);
    played.add_rallies(3);
    Middle middle{store_, tournament_};
    push(over, 1, over.size());
    push(played, 1, played.size());
    middle.follow();
    middle.follower.rest_quiet_matches(in(minutes{1}));
    EXPECT_FALSE(rests(middle, over));
    middle.follower.rest_quiet_matches(in(MatchKeeper::over_rests_after));
    EXPECT_TRUE(rests(middle, over));
    EXPECT_FALSE(rests(middle, played));
    middle.follower.rest_quiet_matches(in(MatchKeeper::any_rests_after));
    EXPECT_TRUE(rests(middle, played));
    expect_folded(middle, over);
    expect_folded(middle, played);
    EXPECT_EQ(middle.told.rested, 2);
    EXPECT_EQ(value_or_throw(store_.snapshots(tournament_)).size(), 2u);
}

TEST_F(Rest, AStoreThatIsAwayLetsNoRecordGo) {
    const TestRecord over = finished_record();
    Middle middle{store_, tournament_};
    push(over, 1, over.size());
    middle.follow();
    store_.fail_with(Status::failed(StatusCode::unavailable, "away"));
    middle.follower.rest_quiet_matches(in(MatchKeeper::over_rests_after));
    EXPECT_FALSE(rests(middle, over));
    store_.fail_with(Status::fine());
    middle.follower.rest_quiet_matches(in(MatchKeeper::over_rests_after));
    EXPECT_TRUE(rests(middle, over));
}

TEST_F(Rest, ARestingMatchThatGoesOnIsReadBackFromTheStore) {
    TestRecord record = finished_record();
    Middle middle{store_, tournament_};
    push(record, 1, record.size());
    middle.follow();
    middle.follower.rest_quiet_matches(in(MatchKeeper::over_rests_after));
    ASSERT_TRUE(rests(middle, record));
    const std::uint32_t before = record.size();
    for (const Signer signer : closing_signers) record.add(Signature{signer});
    push(record, before + 1, record.size());
    middle.follow();
    EXPECT_FALSE(rests(middle, record));
    expect_folded(middle, record);
    middle.keeper.read(id_of(record), [&](const LiveMatch& m) {
        EXPECT_TRUE(m.closed());
        EXPECT_EQ(m.record->bytes.size(), record.size());
        EXPECT_EQ(m.record->records.size(), record.size());
        ASSERT_NE(m.record->bytes_of(record.size()), nullptr);
        EXPECT_EQ(*m.record->bytes_of(record.size()), record.bytes().back());
        EXPECT_EQ(m.record->bytes_of(record.size() + 1), nullptr);
        EXPECT_EQ(m.record->bytes_of(0), nullptr);
    });
    EXPECT_EQ(middle.told.causes.back(), MatchChanged::Cause::appended);
}

// A slow read of one record on the fold thread held up every court.
TEST_F(Rest, ARecordThatWasPreparedIsNotReadByTheFoldThread) {
    TestRecord over = finished_record(1);
    TestRecord played = new_record(2);
    played.add_rallies(2);
    push(over, 1, over.size());
    push(played, 1, 2);
    Middle middle{store_, tournament_};
    ASSERT_TRUE(rests(middle, over));
    EXPECT_TRUE(middle.waking.wanted(id_of(over)));
    EXPECT_FALSE(middle.waking.wanted(id_of(played)));
    middle.waking.prepare(id_of(over));
    EXPECT_FALSE(middle.waking.wanted(id_of(over))) << "once is enough";
    over.add(Signature{Signer::scorer});
    push(over, over.size(), over.size());
    push(played, 3, 4);
    FeedQuery query;
    query.tournament = tournament_;
    query.after = middle.keeper.position();
    middle.follower.offer(value_or_throw(store_.read_feed(query)).items);
    store_.fail_with(Status::failed(StatusCode::unavailable, "away"));
    ASSERT_TRUE(middle.follower.take_offered().ok());
    store_.fail_with(Status::fine());
    EXPECT_FALSE(rests(middle, over));
    expect_folded(middle, over);
    expect_folded(middle, played);
}

TEST_F(Rest, WhatWasPreparedBeforeAnotherEntryCameIsNotUsed) {
    TestRecord over = finished_record();
    push(over, 1, over.size());
    Middle middle{store_, tournament_};
    middle.waking.prepare(id_of(over));
    MatchHead later;
    later.last = over.size() + 1;
    EXPECT_EQ(middle.waking.take(id_of(over), later), nullptr);
    EXPECT_TRUE(middle.waking.wanted(id_of(over))) << "it is let go";
}

// What was prepared for an older end of the record kept the present one from being prepared.
TEST_F(Rest, WhatWasPreparedForAnOlderEndIsPreparedAnew) {
    TestRecord over = finished_record();
    push(over, 1, over.size());
    Middle middle{store_, tournament_};
    middle.waking.prepare(id_of(over));
    ASSERT_FALSE(middle.waking.wanted(id_of(over)));
    over.add(Signature{Signer::scorer});
    push(over, over.size(), over.size());
    throw_if_failed(middle.follower.rebuild());
    ASSERT_TRUE(rests(middle, over));
    EXPECT_TRUE(middle.waking.wanted(id_of(over)));
    middle.waking.prepare(id_of(over));
    EXPECT_FALSE(middle.waking.wanted(id_of(over)));
}

/// Something happens while a record is read.
class StoreWithNews final : public MemoryMatchStore {
  public:
    StoreWithNews(MemoryMatchStore& of, std::function<void()> happens)
        : of_{of}, happens_{std::move(happens)} {}
    Result<std::vector<StoredEntry>> read_record(MatchKey key, EntryNumber after,
                                                 std::size_t most) override {
        auto read = of_.read_record(key, after, most);
        if (auto happens = std::exchange(happens_, {})) happens();
        return read;
    }

  private:
    MemoryMatchStore& of_;
    std::function<void()> happens_;
};

// The match went on while its record was read for it: that record was kept, and never used.
TEST_F(Rest, WhatWasPreparedForAMatchThatGoesOnMeanwhileIsLetGo) {
    TestRecord over = finished_record();
    push(over, 1, over.size());
    Middle middle{store_, tournament_};
    MatchHead before;
    middle.keeper.read(id_of(over), [&](const LiveMatch& m) { before = m.head; });
    StoreWithNews store{store_, [&] {
                            over.add(Signature{Signer::scorer});
                            push(over, over.size(), over.size());
                            middle.follow();
                        }};
    Waking waking{store, middle.keeper};
    waking.prepare(id_of(over));
    ASSERT_FALSE(rests(middle, over));
    EXPECT_EQ(waking.take(id_of(over), before), nullptr);
}

TEST_F(Rest, OfPreparedRecordsOnlySoManyWait) {
    std::vector<TestRecord> records;
    for (std::size_t i = 0; i <= Waking::most_ready; ++i) {
        records.push_back(finished_record(static_cast<std::uint32_t>(i + 1)));
        push(records.back(), 1, records.back().size());
    }
    Middle middle{store_, tournament_};
    for (const TestRecord& record : records) middle.waking.prepare(id_of(record));
    EXPECT_TRUE(middle.waking.wanted(id_of(records.front()))) << "the oldest gave way";
    for (std::size_t i = 1; i < records.size(); ++i)
        EXPECT_FALSE(middle.waking.wanted(id_of(records[i]))) << i;
}

// The tail of the feed was deleted while the match rested: its record is shorter than its state.
TEST_F(Rest, AShortRecordOfARestingMatchHoldsUpNobody) {
    TestRecord over = finished_record(1);
    TestRecord other = new_record(2);
    other.add_rallies(2);
    push(over, 1, over.size());
    Middle middle{store_, tournament_};
    ASSERT_TRUE(rests(middle, over));
    store_.lose(tournament_, middle.keeper.position());
    over.add(Signature{Signer::scorer});
    push(over, over.size(), over.size());
    push(other, 1, 4);
    middle.follow();
    expect_folded(middle, other);
}

TEST_F(Rest, ATailThatIsGoneFromAFinishedMatchIsPushedAgainAndTaken) {
    TestRecord over = finished_record(1);
    push(over, 1, over.size());
    Middle middle{store_, tournament_};
    ASSERT_TRUE(rests(middle, over));
    const Uuid before = middle.hub.generation();
    store_.put_back(tournament_, middle.keeper.position() - 3, before);
    middle.follow();
    EXPECT_EQ(middle.told.rebuilt, 2);
    EXPECT_NE(middle.hub.generation(), before) << "every table compares its journal";
    middle.keeper.read(id_of(over), [&](const LiveMatch& m) {
        EXPECT_EQ(m.head.last, over.size() - 3);
        EXPECT_NE(m.state.set.stage, Stage::match_over);
    });
    push(over, 1, over.size());
    middle.follow();
    expect_folded(middle, over);
    EXPECT_EQ(middle.told.rebuilt, 2);
    middle.follower.rest_quiet_matches(in(MatchKeeper::over_rests_after));
    EXPECT_TRUE(rests(middle, over));
}

TEST_F(Rest, AStartFoldsOnlyMatchesWhoseSnapshotDoesNotReachTheirHead) {
    const TestRecord over = finished_record(1);
    TestRecord played = new_record(2);
    played.add_rallies(3);
    (void)new_record(3);
    {
        Middle before{store_, tournament_};
        push(over, 1, over.size());
        push(played, 1, 4);
        before.follow();
        before.follower.keep_snapshots();
    }
    push(played, 5, 6);
    Middle middle{store_, tournament_};
    EXPECT_EQ(middle.told.folded, 1);
    EXPECT_TRUE(rests(middle, over));
    EXPECT_FALSE(rests(middle, played));
    expect_folded(middle, over);
    expect_folded(middle, played);
    // Nothing of the feed was taken as news.
    for (const auto cause : middle.told.causes) EXPECT_EQ(cause, MatchChanged::Cause::rebuilt);
}

TEST_F(Rest, AStartLetsFinishedRecordsGoAtOnce) {
    const TestRecord over = finished_record();
    push(over, 1, over.size());
    Middle middle{store_, tournament_};
    EXPECT_EQ(middle.told.folded, 1);
    EXPECT_TRUE(rests(middle, over));
    Middle next{store_, tournament_};
    EXPECT_EQ(next.told.folded, 0);
    expect_folded(next, over);
}

TEST_F(Rest, WhoHasSignedAndAProtestAreKnownFromTheSnapshot) {
    TestRecord over = finished_record();
    over.add(Protest{Team::B});
    for (const Signer signer : closing_signers) over.add(Signature{signer});
    push(over, 1, over.size());
    { Middle before{store_, tournament_}; }
    Middle next{store_, tournament_};
    ASSERT_TRUE(rests(next, over));
    next.keeper.read(id_of(over), [&](const LiveMatch& m) {
        EXPECT_TRUE(m.closed());
        EXPECT_EQ(m.closed_at, m.last_entry_at) << "the last of the three closed it";
        EXPECT_NE(m.closed_at, ServerTime{});
        EXPECT_FALSE(m.signed_by.has(Signer::scorer));
        EXPECT_TRUE(m.protested);
    });
}

/// Takes no snapshot, after a while.
class StoreWithoutSnapshots final : public MemoryMatchStore {
  public:
    explicit StoreWithoutSnapshots(MemoryMatchStore& of) : of_{of} {}
    Result<TournamentView> view(TournamentId tournament) override { return of_.view(tournament); }
    Result<std::vector<StoredEntry>> read_record(MatchKey key, EntryNumber after,
                                                 std::size_t most) override {
        return of_.read_record(key, after, most);
    }
    Status keep_snapshot(TournamentId, const MatchSnapshot&) override {
        ++asked;
        return Status::failed(StatusCode::in_doubt, "not confirmed");
    }

    int asked = 0;

  private:
    MemoryMatchStore& of_;
};

// It was waited for once for each finished match.
TEST_F(Rest, AStartAsksAStoreThatKeepsNoSnapshotOnlyOnce) {
    for (std::uint32_t court = 1; court <= 3; ++court) {
        const TestRecord over = finished_record(court);
        push(over, 1, over.size());
    }
    StoreWithoutSnapshots store{store_};
    const Middle middle{store, tournament_};
    EXPECT_EQ(middle.told.folded, 3);
    EXPECT_EQ(store.asked, 1);
}

/// Cannot take what a match came to.
class Stumbler final : public MatchObserver {
  public:
    void on_match_changed(const MatchChanged&) override { throw std::runtime_error{"stumbled"}; }
};

TEST_F(Rest, OfAFinishedMatchThatThrowsNothingIsKept) {
    const TestRecord over = finished_record();
    push(over, 1, over.size());
    set_fault_log([](std::string_view, std::string_view) {});
    MatchKeeper keeper;
    Stumbler stumbler;
    keeper.add_observer(stumbler);
    Presence presence;
    Hub hub;
    Follower follower{tournament_, {store_, keeper, presence, hub, nullptr}, [](const Status&) {}};
    throw_if_failed(follower.rebuild());
    set_fault_log({});
    EXPECT_TRUE(value_or_throw(store_.snapshots(tournament_)).empty());
}

TEST_F(Rest, ASnapshotOfAnotherProgramOrOfAnotherRecordIsNotRead) {
    const TestRecord over = finished_record();
    push(over, 1, over.size());
    { Middle before{store_, tournament_}; }
    const MatchSnapshot good = value_or_throw(store_.snapshots(tournament_)).front();
    const auto folded_with = [&](auto change) {
        MatchSnapshot bad = good;
        change(bad);
        throw_if_failed(store_.keep_snapshot(tournament_, bad));
        const Middle middle{store_, tournament_};
        expect_folded(middle, over);
        return middle.told.folded;
    };
    EXPECT_EQ(folded_with([](MatchSnapshot&) {}), 0);
    EXPECT_EQ(folded_with([](MatchSnapshot& s) { s.form += "x"; }), 1);
    EXPECT_EQ(folded_with([](MatchSnapshot& s) { --s.last; }), 1);
    EXPECT_EQ(folded_with([](MatchSnapshot& s) { s.hash[0] ^= 1; }), 1);
    EXPECT_EQ(folded_with([](MatchSnapshot& s) { s.bytes.resize(s.bytes.size() / 2); }), 1);
    EXPECT_EQ(folded_with([](MatchSnapshot& s) { s.bytes.clear(); }), 1);
}

TEST_F(Rest, AWatcherOfARestingMatchIsSentItsWholeRecord) {
    const TestRecord over = finished_record();
    push(over, 1, over.size());
    Middle middle{store_, tournament_};
    ASSERT_TRUE(rests(middle, over));
    WatchSession session = middle.watch(id_of(over));
    EXPECT_EQ(entries(drain(session)), over.bytes());
    EXPECT_TRUE(rests(middle, over));
}

TEST_F(Rest, ARestingMatchThatIsForkedOrDescribedGoesOnResting) {
    TestRecord over = finished_record();
    push(over, 1, over.size());
    Middle middle{store_, tournament_};
    over.cut_after(2);
    over.add_rallies(1);
    push(over, 3, 4);
    MatchPlan plan = value_or_throw(store_.match({tournament_, id_of(over)})).plan;
    plan.court = 7;
    (void)value_or_throw(store_.change_match(plan));
    middle.follow();
    EXPECT_TRUE(rests(middle, over));
    middle.keeper.read(id_of(over), [](const LiveMatch& m) {
        EXPECT_EQ(m.branches, std::vector<std::uint32_t>{1});
        EXPECT_EQ(m.plan.court, 7u);
    });
    // Known from the store after a start.
    const Middle later{store_, tournament_};
    later.keeper.read(id_of(over), [](const LiveMatch& m) {
        EXPECT_EQ(m.branches, std::vector<std::uint32_t>{1});
    });
}

}  // namespace
}  // namespace courthand::server::service
