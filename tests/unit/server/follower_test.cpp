// How the fold follows: what is offered to it, what it reads, and how it notices what does not fit.
#include <gtest/gtest.h>

#include <algorithm>
#include <atomic>
#include <stdexcept>

#include "middle.h"
#include "server/domain/fault_log.h"
#include "server/testing/or_throw.h"
#include "tests/testkit/eventually.h"

namespace courthand::server::service {
namespace {

class Followers : public MiddleTest {
  protected:
    std::vector<FeedItem> feed_after(FeedPosition position) {
        FeedQuery query;
        query.tournament = tournament_;
        query.after = position;
        return value_or_throw(store_.read_feed(query)).items;
    }
    static EntryNumber folded(const Middle& middle, const TestRecord& record) {
        EntryNumber last = 0;
        middle.keeper.read(id_of(record), [&](const LiveMatch& m) { last = m.head.last; });
        return last;
    }
    /// Ten entries are folded; then the feed goes back to the sixth, unnoticed, and the record has
    /// four more rallies from there. Answers where the feed ends.
    FeedPosition put_back_to_six(TestRecord& record, Middle& middle) {
        record.add_rallies(5);
        push(record, 1, 10);
        middle.follow();
        const FeedPosition kept = middle.keeper.position() - 4;
        store_.put_back(tournament_, kept, middle.hub.generation());
        record.cut_after(6);
        record.add_rallies(4);
        return kept;
    }
};

TEST_F(Followers, WhatIsOfferedAndFollowsIsTakenWithoutTheStore) {
    TestRecord record = new_record();
    record.add_rallies(4);
    push(record, 1, 2);
    Middle middle{store_, tournament_};
    push(record, 3, 8);
    const auto offered = feed_after(middle.keeper.position());
    WatchSession session = middle.watch(WatchedCourt{1});
    (void)drain(session);
    store_.fail_with(Status::failed(StatusCode::unavailable, "away"));
    middle.follower.offer(std::span{offered}.first(2));
    middle.follower.offer(std::span{offered}.subspan(2));
    ASSERT_TRUE(middle.follower.take_offered().ok());
    EXPECT_EQ(folded(middle, record), 8u);
    std::vector<v1::WatchResponse> out;
    EXPECT_EQ(session.next(out), WatchSession::Next::messages);
    EXPECT_EQ(entries(out).size(), 6u);
    // The look at the feed that comes after finds nothing amiss.
    store_.fail_with(Status::fine());
    middle.follow();
    EXPECT_EQ(middle.told.rebuilt, 1);
    EXPECT_EQ(folded(middle, record), 8u);
}

// A fenced tablet that is started again opens a match by itself: it must not hide the court's own.
TEST_F(Followers, AMatchThatATableOpenedByItselfComesBehindTheDesksInPlay) {
    TestRecord planned = new_record();
    MatchPlan plan = value_or_throw(store_.match(MatchKey{tournament_, id_of(planned)})).plan;
    plan.opened_at_table = false;
    plan.number = 7;
    (void)value_or_throw(store_.change_match(plan));
    planned.add_rallies(1);
    push(planned, 1, 2);
    TestRecord stray = new_record();
    stray.add_rallies(1);
    push(stray, 1, 2);
    const Middle middle{store_, tournament_};
    EXPECT_EQ(middle.keeper.on_court(1), (std::vector{id_of(planned), id_of(stray)}));
}

TEST_F(Followers, AnOfferThatLeavesAGapWaitsForTheFeed) {
    TestRecord record = new_record();
    record.add_rallies(4);
    push(record, 1, 2);
    Middle middle{store_, tournament_};
    push(record, 3, 8);
    const auto offered = feed_after(middle.keeper.position());
    middle.follower.offer(std::span{offered}.subspan(1));
    ASSERT_TRUE(middle.follower.take_offered().ok());
    EXPECT_EQ(folded(middle, record), 2u);
    middle.follow();
    EXPECT_EQ(folded(middle, record), 8u);
}

TEST_F(Followers, AnOfferOfWhatWasReadAlreadyChangesNothing) {
    TestRecord record = new_record();
    record.add_rallies(4);
    Middle middle{store_, tournament_};
    push(record, 1, 8);
    const auto offered = feed_after(middle.keeper.position());
    middle.follow();
    const std::size_t told = middle.told.causes.size();
    middle.follower.offer(offered);
    ASSERT_TRUE(middle.follower.take_offered().ok());
    EXPECT_EQ(folded(middle, record), 8u);
    EXPECT_EQ(middle.told.causes.size(), told);
    EXPECT_EQ(middle.told.rebuilt, 1);
}

TEST_F(Followers, TooManyOffersAreReadFromTheFeedInstead) {
    TestRecord record = new_record();
    record.add_rallies(2);
    push(record, 1, 2);
    Middle middle{store_, tournament_};
    push(record, 3, 4);
    auto offered = feed_after(middle.keeper.position());
    const std::vector<FeedItem> many(Follower::most_offered, offered.front());
    middle.follower.offer(offered);
    middle.follower.offer(many);
    middle.follow();
    EXPECT_EQ(folded(middle, record), 4u);
    EXPECT_EQ(middle.told.rebuilt, 1);
}

// Fault 3, with offers: positions are given out again while the fold is further.
TEST_F(Followers, OffersAfterAFeedThatWentBackAreNotMistakenForNews) {
    TestRecord record = new_record();
    Middle middle{store_, tournament_};
    const FeedPosition kept = put_back_to_six(record, middle);
    push(record, 7, 14);
    middle.follower.offer(feed_after(kept));
    ASSERT_TRUE(middle.follower.take_offered().ok());
    middle.follow();
    EXPECT_EQ(folded(middle, record), 14u);
    EXPECT_EQ(middle.told.rebuilt, 2);
    middle.keeper.read(id_of(record), [&](const LiveMatch& m) {
        for (EntryNumber n = 1; n <= 14; ++n)
            EXPECT_EQ(*m.record->bytes_of(n), record.bytes()[n - 1]) << n;
    });
}

// What a board and alerts make of a match is made once for a group, not once for each entry.
TEST_F(Followers, ObserversHearOfAGroupOfEntriesOnceForEachMatch) {
    TestRecord one = new_record(1);
    one.add_rallies(4);
    TestRecord other = new_record(2);
    other.add_rallies(2);
    Middle middle{store_, tournament_};
    push(one, 1, 8);
    push(other, 1, 4);
    middle.follower.offer(feed_after(middle.keeper.position()));
    ASSERT_TRUE(middle.follower.take_offered().ok());
    EXPECT_EQ(folded(middle, one), 8u);
    EXPECT_EQ(folded(middle, other), 4u);
    const auto& causes = middle.told.causes;
    EXPECT_EQ(std::count(causes.begin(), causes.end(), MatchChanged::Cause::appended), 2);
}

// While offers come the feed is only looked at briefly; what another server wrote must not be lost.
TEST_F(Followers, WhatNobodyOfferedIsReadThoughOffersCome) {
    TestRecord record = new_record();
    record.add_rallies(4);
    push(record, 1, 2);
    Middle middle{store_, tournament_};
    middle.follower.start();
    push(record, 3, 4);
    middle.follower.offer(feed_after(middle.keeper.position()));
    push(record, 5, 8);
    middle.follower.wake();
    const FeedPosition last = feed_after(0).back().position;
    EXPECT_TRUE(middle.keeper.wait_for(last, std::chrono::seconds{30}));
    middle.follower.stop();
    EXPECT_EQ(folded(middle, record), 8u);
}

TEST_F(Followers, TwoOffersAfterAFeedThatWentBackAreBothReadFromTheFeed) {
    TestRecord record = new_record();
    Middle middle{store_, tournament_};
    const FeedPosition kept = put_back_to_six(record, middle);
    push(record, 7, 12);
    middle.follower.offer(feed_after(kept));
    ASSERT_TRUE(middle.follower.take_offered().ok());
    const FeedPosition second = feed_after(kept).back().position;
    push(record, 13, 14);
    middle.follower.offer(feed_after(second));
    ASSERT_TRUE(middle.follower.take_offered().ok());
    EXPECT_EQ(folded(middle, record), 10u) << "nothing is taken before the feed was read";
    middle.follow();
    EXPECT_EQ(folded(middle, record), 14u);
    EXPECT_EQ(middle.told.rebuilt, 2);
}

TEST_F(Followers, AnItemThatDoesNotFollowMakesItReadEverythingAnew) {
    TestRecord record = new_record();
    record.add_rallies(4);
    push(record, 1, 2);
    Middle middle{store_, tournament_};
    push(record, 3, 8);
    auto offered = feed_after(middle.keeper.position());
    offered.front().number = 7;
    middle.follower.offer(offered);
    ASSERT_TRUE(middle.follower.take_offered().ok());
    EXPECT_EQ(folded(middle, record), 2u);
    middle.follow();
    EXPECT_EQ(folded(middle, record), 8u);
    EXPECT_EQ(middle.told.rebuilt, 2);
}

// An entry that waited on a branch joins the record: then nobody need choose any more.
TEST_F(Followers, ABranchThatWasPromotedIsNoBranchAnyMore) {
    TestRecord record = new_record();
    record.add_rallies(2);
    push(record, 1, 4);
    const DeviceId other{new_uuid()};
    record.go_on_as(other, 2);
    record.add_rallies(1);
    Middle middle{store_, tournament_};
    push(record, 5, 6);
    middle.follow();
    const auto branches = [&] {
        std::vector<std::uint32_t> all;
        middle.keeper.read(id_of(record), [&](const LiveMatch& m) { all = m.branches; });
        return all;
    };
    ASSERT_EQ(branches(), std::vector<std::uint32_t>{1});
    (void)value_or_throw(
        store_.grant_writer({{tournament_, id_of(record)}, other, GrantWish::How::taken_over, ""}));
    middle.follow();
    ASSERT_EQ(branches(), std::vector<std::uint32_t>{1}) << "a grant alone moves nothing";
    push(record, 5, 5);
    middle.follow();
    EXPECT_EQ(folded(middle, record), 6u);
    EXPECT_TRUE(branches().empty());
    EXPECT_EQ(middle.told.causes.back(), MatchChanged::Cause::described);
    EXPECT_EQ(middle.told.rebuilt, 1);
}

TEST_F(Followers, AMatchWithAHoleInTheDatabaseHoldsUpNobody) {
    TestRecord damaged = new_record(1);
    damaged.add_rallies(4);
    TestRecord other = new_record(2);
    other.add_rallies(2);
    push(damaged, 1, 6);
    store_.lose(tournament_, feed_after(0)[3].position);
    Middle middle{store_, tournament_};
    push(damaged, 7, 8);
    push(other, 1, 4);
    middle.follow();
    EXPECT_EQ(folded(middle, other), 4u);
    EXPECT_EQ(middle.told.rebuilt, 1);
    middle.keeper.read(id_of(damaged), [](const LiveMatch& m) { EXPECT_NE(m.unreadable, ""); });
}

/// Cannot take what one match came to.
class Stumbler final : public MatchObserver {
  public:
    void on_match_changed(const MatchChanged& change) override {
        if (change.match.key.match == over && change.match.head.last > 0)
            throw std::runtime_error{"stumbled"};
    }
    MatchId over;
};

// It was read anew for ever, and no board heard of anything any more.
TEST_F(Followers, AMatchThatThrowsIsGivenUpAndAllOthersGoOn) {
    TestRecord bad = new_record(1);
    TestRecord other = new_record(2);
    bad.add_rallies(2);
    other.add_rallies(2);
    Middle middle{store_, tournament_};
    Stumbler stumbler;
    stumbler.over = id_of(bad);
    middle.keeper.add_observer(stumbler);
    std::atomic<int> lines = 0;
    set_fault_log([&](std::string_view, std::string_view) { ++lines; });
    middle.follower.start();
    const auto comes = [&](const auto& holds) {
        return testkit::eventually([&] {
            middle.follower.wake();
            return holds();
        });
    };
    push(bad, 1, 2);
    push(other, 1, 2);
    const auto given_up = [&] {
        bool is = false;
        middle.keeper.read(id_of(bad), [&](const LiveMatch& m) { is = !m.unreadable.empty(); });
        return is;
    };
    EXPECT_TRUE(comes(given_up));
    push(bad, 3, 4);
    push(other, 3, 4);
    const FeedPosition head = feed_after(0).back().position;
    EXPECT_TRUE(comes([&] { return middle.hub.head() == head; }));
    EXPECT_EQ(folded(middle, other), 4u);
    middle.follower.stop();
    set_fault_log({});
    EXPECT_EQ(lines, 2) << "that it threw, and that it is given up";
}

// Entries are numbered by their rows, not by counting them: the fifth is no fourth.
TEST_F(Followers, ARecordWithAHoleIsFoldedUpToTheHole) {
    TestRecord damaged = new_record();
    damaged.add_rallies(4);
    push(damaged, 1, 8);
    const auto feed = feed_after(0);
    const auto fourth =
        std::find_if(feed.begin(), feed.end(), [](const FeedItem& i) { return i.number == 4; });
    store_.lose(tournament_, fourth->position);
    Middle middle{store_, tournament_};
    EXPECT_EQ(folded(middle, damaged), 3u);
    middle.keeper.read(id_of(damaged), [](const LiveMatch& m) {
        EXPECT_EQ(m.unreadable,
                  "entry 4 of the record is not in the database; put it back from a backup");
    });
}

// S9: wall time is not steady.
TEST(Presences, AClockThatWasSetBackSilencesNobody) {
    Presence presence;
    DeviceSeen seen;
    seen.device.value = new_uuid();
    seen.at = ServerTime{} + std::chrono::hours{5};
    presence.seen(seen);
    EXPECT_EQ(presence.take().size(), 1u);
    presence.seen(seen);
    EXPECT_TRUE(presence.take().empty()) << "one word a second is enough";
    seen.at -= std::chrono::hours{1};
    presence.seen(seen);
    EXPECT_EQ(presence.take().size(), 1u);
}

}  // namespace
}  // namespace courthand::server::service
