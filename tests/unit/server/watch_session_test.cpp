// From a push to what a watcher is sent, without network and database.
#include "server/service/watch_session.h"
#include "server/testing/or_throw.h"

#include <gtest/gtest.h>

#include "middle.h"
#include "wire/fold_record.h"

namespace courthand::server::service {
namespace {

using testing::TestRecord;

using WatchSessions = MiddleTest;

TEST_F(WatchSessions, TheKeeperFoldsLikeTheWireLibrary) {
    TestRecord record = new_record();
    record.add_rallies(40);
    Middle middle{store_, tournament_};
    push(record, 1, record.size());
    middle.follow();
    const Profile* const profile = find_profile("international-2025");
    const auto folded = wire::fold_record(record.match(), profile->rules, record.bytes());
    ASSERT_FALSE(folded.fault) << folded.fault->message();
    bool read = middle.keeper.read(id_of(record), [&](const LiveMatch& match) {
        EXPECT_EQ(match.state, folded.state);
        EXPECT_EQ(state_hash(match.state), state_hash(folded.state));
        EXPECT_EQ(match.record->records.size(), record.size());
        EXPECT_EQ(match.record->bytes.size(), record.size());
        EXPECT_EQ(match.unreadable, "");
        EXPECT_EQ(match.head.last, record.size());
    });
    EXPECT_TRUE(read);
}

TEST_F(WatchSessions, AServerThatStartsLaterHasTheSameStateAndNoNews) {
    TestRecord record = new_record();
    record.add_rallies(10);
    Middle first{store_, tournament_};
    push(record, 1, record.size());
    first.follow();
    Middle later{store_, tournament_};
    EXPECT_EQ(later.told.causes, std::vector{MatchChanged::Cause::rebuilt});
    EXPECT_EQ(later.told.raised, 0u);
    MatchState state{};
    first.keeper.read(id_of(record), [&](const LiveMatch& m) { state = m.state; });
    later.keeper.read(id_of(record), [&](const LiveMatch& m) { EXPECT_EQ(m.state, state); });
}

TEST_F(WatchSessions, SnapshotAndStreamMeetWithoutGapOrDouble) {
    TestRecord record = new_record();
    record.add_rallies(700);
    push(record, 1, 1001);
    Middle middle{store_, tournament_};
    WatchSession session = middle.watch(WatchedCourt{1});
    std::vector<v1::WatchResponse> sent;
    ASSERT_EQ(session.next(sent), WatchSession::Next::read_store);
    ASSERT_TRUE(session.read_store(store_).ok());
    ASSERT_EQ(session.next(sent), WatchSession::Next::messages);
    // More arrives while the snapshot is being sent.
    push(record, 1002, 1400);
    middle.follow();
    const auto rest = drain(session);
    sent.insert(sent.end(), rest.begin(), rest.end());
    EXPECT_EQ(entries(sent), record.bytes());
    int complete = 0;
    for (const auto& response : sent) complete += response.snapshot().snapshot_complete();
    EXPECT_EQ(complete, 1);
}

TEST_F(WatchSessions, EveryCursorOnTheWayIsGoodToGoOnFrom) {
    TestRecord one = new_record(1);
    TestRecord two = new_record(1);
    one.add_rallies(5);
    two.add_rallies(5);
    Middle middle{store_, tournament_};
    WatchSession whole = middle.watch(id_of(one));
    auto before = drain(whole);
    for (std::uint32_t n = 1; n <= 10; ++n) {
        push(one, n, n);
        push(two, n, n);
    }
    middle.follow();
    const auto sent = drain(whole);
    for (std::size_t cut = 0; cut < sent.size(); ++cut) {
        if (sent[cut].cursor().empty()) continue;
        WatchSession resumed = middle.watch(id_of(one), sent[cut].cursor());
        std::vector<v1::WatchResponse> all{sent.begin(),
                                           sent.begin() + static_cast<std::ptrdiff_t>(cut) + 1};
        const auto rest = drain(resumed);
        all.insert(all.end(), rest.begin(), rest.end());
        EXPECT_EQ(entries(all), entries(sent)) << "cut after " << cut;
    }
}

TEST_F(WatchSessions, OneThatFellBehindIsReadFromTheStore) {
    TestRecord record = new_record();
    record.add_rallies(500);
    Middle middle{store_, tournament_};
    WatchSession session = middle.watch(id_of(record));
    auto sent = drain(session);
    push(record, 1, record.size());
    // The window is filled by other things than this match.
    for (std::size_t i = 0; i < Hub::window_items + 10; ++i) {
        FeedNotice notice;
        notice.id = EntryId{new_uuid()};
        notice.bytes = "x";
        (void)value_or_throw(store_.publish(tournament_, notice));
    }
    middle.follow();
    std::vector<v1::WatchResponse> out;
    EXPECT_EQ(session.next(out), WatchSession::Next::read_store);
    const auto rest = drain(session);
    EXPECT_EQ(entries(rest), record.bytes());
}

TEST_F(WatchSessions, AMatchThatComesToTheCourtBringsItsWholeRecord) {
    TestRecord record = new_record(4);
    record.add_rallies(3);
    push(record, 1, record.size());
    Middle middle{store_, tournament_};
    WatchSession session = middle.watch(WatchedCourt{9});
    EXPECT_TRUE(entries(drain(session)).empty());
    MatchPlan plan = value_or_throw(store_.match({tournament_, id_of(record)})).plan;
    plan.court = 9;
    (void)value_or_throw(store_.change_match(plan));
    middle.follow();
    const auto sent = drain(session);
    ASSERT_FALSE(sent.empty());
    EXPECT_TRUE(sent.front().has_change());
    EXPECT_EQ(sent.front().change().match().court(), 9u);
    EXPECT_EQ(entries(sent), record.bytes());
}

// The watch of a table went on with a match that the desk had given to another court.
TEST_F(WatchSessions, AMatchThatLeavesTheCourtIsNotSentOnToItsTables) {
    TestRecord record = new_record(4);
    record.add_rallies(4);
    push(record, 1, 3);
    Middle middle{store_, tournament_};
    WatchSession writes = middle.watch(WatchedCourt{4}, {}, device_);
    WatchSession looks_on = middle.watch(WatchedCourt{4}, {}, DeviceId{new_uuid()});
    for (WatchSession* session : {&writes, &looks_on})
        EXPECT_EQ(entries(drain(*session)).size(), 3u);
    MatchPlan plan = value_or_throw(store_.match({tournament_, id_of(record)})).plan;
    plan.court = 9;
    (void)value_or_throw(store_.change_match(plan));
    middle.follow();
    for (WatchSession* session : {&writes, &looks_on}) {
        const auto told = drain(*session);
        ASSERT_EQ(told.size(), 1u);
        EXPECT_EQ(told.front().change().match().court(), 9u) << "it is told where the match went";
    }
    push(record, 4, record.size());
    FeedNotice ruling;
    ruling.kind = FeedItem::Kind::ruling;
    ruling.match = id_of(record);
    ruling.id = EntryId{new_uuid()};
    ruling.bytes = v1::RulingNotice{}.SerializeAsString();
    (void)value_or_throw(store_.publish(tournament_, ruling));
    middle.follow();
    EXPECT_TRUE(drain(looks_on).empty());
    const auto to_the_writer = drain(writes);
    ASSERT_EQ(to_the_writer.size(), 1u) << "it must record the ruling";
    EXPECT_TRUE(to_the_writer.front().has_ruling());
    // The match comes back, and nothing is missing.
    plan.court = 4;
    (void)value_or_throw(store_.change_match(plan));
    middle.follow();
    EXPECT_EQ(entries(drain(looks_on)), record.bytes());
}

// Fault 11: an entry that the feed has before the match came to the court.
TEST_F(WatchSessions, ACourtWatchMissesNothingOfAMatchThatItFirstHearsOfByALaterEntry) {
    TestRecord record = new_record(4);
    record.add_rallies(4);
    push(record, 1, 5);
    Middle middle{store_, tournament_};
    WatchSession session = middle.watch(WatchedCourt{9});
    EXPECT_TRUE(entries(drain(session)).empty());
    push(record, 6, 7);
    MatchPlan plan = value_or_throw(store_.match({tournament_, id_of(record)})).plan;
    plan.court = 9;
    (void)value_or_throw(store_.change_match(plan));
    push(record, 8, 8);
    middle.follow();
    EXPECT_EQ(entries(drain(session)), record.bytes());
}

TEST_F(WatchSessions, ACourtWatchThatGoesOnFromACursorMissesNothing) {
    TestRecord record = new_record(9);
    record.add_rallies(3);
    push(record, 1, 2);
    Middle middle{store_, tournament_};
    WatchSession session = middle.watch(WatchedCourt{9});
    const auto before = drain(session);
    ASSERT_FALSE(before.back().cursor().empty());
    push(record, 3, 6);
    middle.follow();
    WatchSession resumed = middle.watch(WatchedCourt{9}, before.back().cursor());
    const auto sent = entries(drain(resumed));
    // From the start: the cursor does not say what was on the court. Twice does no harm.
    EXPECT_EQ(sent, record.bytes());
}

// Fault 3: the database goes back under a running server.
TEST_F(WatchSessions, AFeedThatWentBackIsFoldedAnewAndItsWatchersStartAgain) {
    TestRecord record = new_record();
    record.add_rallies(5);
    Middle middle{store_, tournament_};
    push(record, 1, 10);
    middle.follow();
    WatchSession session = middle.watch(WatchedCourt{1});
    (void)drain(session);
    const Uuid generation = middle.hub.generation();
    store_.put_back(tournament_, middle.keeper.position() - 4, generation);
    middle.follow();
    middle.keeper.read(id_of(record), [](const LiveMatch& m) { EXPECT_EQ(m.head.last, 6u); });
    record.cut_after(6);
    record.add_rallies(1);
    push(record, 7, 8);
    middle.follow();
    const auto sent = drain(session);
    ASSERT_FALSE(sent.empty());
    EXPECT_TRUE(sent.front().has_resync());
    EXPECT_EQ(entries(sent), record.bytes());
    EXPECT_EQ(middle.told.rebuilt, 2);
}

TEST_F(WatchSessions, AFeedThatWentBackAndHasGrownAgainIsNoticedToo) {
    TestRecord record = new_record();
    record.add_rallies(5);
    Middle middle{store_, tournament_};
    push(record, 1, 10);
    middle.follow();
    WatchSession session = middle.watch(id_of(record));
    (void)drain(session);
    store_.put_back(tournament_, middle.keeper.position() - 4, middle.hub.generation());
    record.cut_after(6);
    record.add_rallies(4);
    push(record, 7, 14);
    middle.follow();
    EXPECT_EQ(entries(drain(session)), record.bytes());
    const Profile* const profile = find_profile("international-2025");
    const auto folded = wire::fold_record(record.match(), profile->rules, record.bytes());
    middle.keeper.read(id_of(record), [&](const LiveMatch& m) {
        EXPECT_EQ(m.state, folded.state);
        EXPECT_EQ(m.record->bytes.size(), m.head.last);
    });
}

TEST_F(WatchSessions, ACursorOfAnEarlierGenerationIsToldToStartAgain) {
    TestRecord record = new_record();
    record.add_rallies(2);
    push(record, 1, 4);
    Middle middle{store_, tournament_};
    WatchSession session = middle.watch(id_of(record));
    const std::string cursor = drain(session).back().cursor();
    store_.put_back(tournament_, middle.keeper.position(), new_uuid());
    middle.follow();
    WatchSession resumed = middle.watch(id_of(record), cursor);
    const auto sent = drain(resumed);
    EXPECT_TRUE(sent.front().has_resync());
    EXPECT_EQ(entries(sent), record.bytes());
}

TEST_F(WatchSessions, ARulingReachesThoseWhoWatchTheMatchAndNobodyElse) {
    TestRecord one = new_record(1);
    TestRecord two = new_record(2);
    Middle middle{store_, tournament_};
    WatchSession of_one = middle.watch(id_of(one));
    WatchSession of_two = middle.watch(id_of(two));
    (void)drain(of_one);
    (void)drain(of_two);
    v1::RulingNotice ruling;
    ruling.set_alert_id("alert");
    ruling.set_match_id(one.match().to_bytes());
    ruling.set_reason("libero-front-row");
    FeedNotice notice;
    notice.kind = FeedItem::Kind::ruling;
    notice.match = id_of(one);
    notice.id = EntryId{new_uuid()};
    notice.bytes = ruling.SerializeAsString();
    (void)value_or_throw(store_.publish(tournament_, notice));
    middle.follow();
    const auto sent = drain(of_one);
    ASSERT_EQ(sent.size(), 1u);
    EXPECT_EQ(sent[0].ruling().reason(), "libero-front-row");
    EXPECT_TRUE(drain(of_two).empty());
    EXPECT_EQ(middle.told.notices, std::vector{FeedItem::Kind::ruling});
}

TEST_F(WatchSessions, AForkIsToldToTheObserversAndSentAsABranch) {
    TestRecord record = new_record();
    record.add_rallies(2);
    Middle middle{store_, tournament_};
    WatchSession session = middle.watch(id_of(record));
    (void)drain(session);
    push(record, 1, 4);
    record.cut_after(2);
    record.add_rallies(1);
    push(record, 3, 4);
    middle.follow();
    EXPECT_EQ(middle.told.branches, (std::vector<std::uint32_t>{1, 1}));
    int branch = 0;
    for (const auto& response : drain(session)) branch += response.entries().branch() == 1;
    EXPECT_EQ(branch, 1);
}

TEST(WatchCursors, AreReadBackAndNothingElseIs) {
    const WatchCursor cursor{Uuid{{9, 8, 7}}, 0x0102030405060708U};
    EXPECT_EQ(watch_cursor(to_bytes(cursor)), cursor);
    EXPECT_FALSE(watch_cursor(""));
    EXPECT_FALSE(watch_cursor(to_bytes(cursor) + "x"));
    EXPECT_FALSE(watch_cursor(std::string(25, '\2')));
}

}  // namespace
}  // namespace courthand::server::service
