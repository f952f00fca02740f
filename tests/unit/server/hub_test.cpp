// The window of newest items that watchers share.
#include "server/feed/hub.h"

#include <gtest/gtest.h>

#include <atomic>
#include <map>
#include <string>
#include <thread>

namespace courthand::server {
namespace {

MatchId match_number(std::uint8_t number) {
    MatchId match;
    match.value.bytes[15] = number;
    return match;
}

/// Of match 1.
std::vector<FeedItem> items(FeedPosition first, FeedPosition last) {
    std::vector<FeedItem> all;
    for (FeedPosition p = first; p <= last; ++p) {
        FeedItem item;
        item.position = p;
        item.match = match_number(1);
        all.push_back(item);
    }
    return all;
}

TEST(Hub, HandsOutWhatFollowsAPosition) {
    Hub hub;
    hub.publish(items(1, 10), 10);
    const Hub::Taken taken = hub.take(7, hub.feed().era, match_number(1));
    ASSERT_EQ(taken.items.size(), 3u);
    EXPECT_EQ(taken.items.front().position, 8u);
    EXPECT_EQ(taken.head, 10u);
    EXPECT_TRUE(hub.take(10, hub.feed().era, match_number(1)).items.empty());
}

TEST(Hub, WhoFollowsTheRecordOfTheTournamentHearsOfNothingElse) {
    Hub hub;
    int heard = 0;
    const auto token = hub.subscribe(
        [&](Hub::Wake why) {
            if (why == Hub::Wake::news) ++heard;
        },
        Hub::Record{});
    auto news = items(1, 5);
    hub.publish(news, 5);
    EXPECT_EQ(heard, 0);
    EXPECT_EQ(hub.take(0, hub.feed().era, Hub::Record{}).head, 5u);
    news = items(6, 9);
    news[1].kind = news[3].kind = FeedItem::Kind::tournament;
    hub.publish(news, 9);
    EXPECT_EQ(heard, 1);
    const Hub::Taken taken = hub.take(0, hub.feed().era, Hub::Record{});
    ASSERT_EQ(taken.items.size(), 2u);
    EXPECT_EQ(taken.items[0].position, 7u);
    EXPECT_EQ(taken.items[1].position, 9u);
    EXPECT_EQ(taken.head, 9u);
    // It is not behind when only others have filled the window since.
    hub.publish(items(10, Hub::window_items + 100), Hub::window_items + 100);
    EXPECT_EQ(hub.take(9, hub.feed().era, Hub::Record{}).where, Hub::Taken::Where::here);
    EXPECT_EQ(hub.take(8, hub.feed().era, Hub::Record{}).where, Hub::Taken::Where::behind);
    hub.unsubscribe(token);
    EXPECT_EQ(heard, 1);
}

TEST(Hub, ASlowWatcherIsSentToTheStore) {
    Hub hub;
    hub.publish(items(1, Hub::window_items + 100), Hub::window_items + 100);
    EXPECT_EQ(hub.take(99, hub.feed().era, match_number(1)).where, Hub::Taken::Where::behind);
    EXPECT_EQ(hub.take(100, hub.feed().era, match_number(1)).where, Hub::Taken::Where::here);
}

TEST(Hub, HandsOutLongStretchesInPieces) {
    Hub hub;
    hub.publish(items(1, 1000), 1000);
    FeedPosition position = 0;
    std::size_t count = 0;
    while (true) {
        const Hub::Taken taken = hub.take(position, hub.feed().era, match_number(1));
        if (taken.items.empty()) break;
        EXPECT_LE(taken.items.size(), Hub::most_taken);
        count += taken.items.size();
        position = taken.head;
    }
    EXPECT_EQ(count, 1000u);
}

TEST(Hub, AFeedThatBeginsAnewSendsEveryWatcherBackToTheStart) {
    Hub hub;
    hub.publish(items(1, 10), 10);
    const Hub::Era before = hub.feed().era;
    int news = 0;
    const auto token = hub.subscribe([&](Hub::Wake) { ++news; }, match_number(1));
    const Uuid generation = new_uuid();
    hub.begin_anew(generation, 6);
    hub.unsubscribe(token);
    EXPECT_EQ(news, 1);
    EXPECT_EQ(hub.take(10, before, match_number(1)).where, Hub::Taken::Where::anew);
    EXPECT_EQ(hub.feed().head, 6u);
    EXPECT_EQ(hub.generation(), generation);
    EXPECT_EQ(hub.take(5, hub.feed().era, match_number(1)).where, Hub::Taken::Where::behind);
    EXPECT_TRUE(hub.take(6, hub.feed().era, match_number(1)).items.empty());
}

TEST(Hub, WakesListenersUntilTheyLeave) {
    Hub hub;
    int news = 0;
    int ticks = 0;
    const auto token = hub.subscribe(
        [&](Hub::Wake why) { ++(why == Hub::Wake::news ? news : ticks); }, match_number(1));
    hub.publish(items(1, 1), 1);
    hub.publish({}, 1);
    hub.tick();
    hub.unsubscribe(token);
    hub.publish(items(2, 2), 2);
    EXPECT_EQ(news, 1);
    EXPECT_EQ(ticks, 1);
}

FeedItem item_of(std::uint8_t match, FeedPosition position) {
    FeedItem item;
    item.match = match_number(match);
    item.position = position;
    return item;
}

// Fault 17: every commit woke every watcher.
TEST(Hub, WakesOnlyWatchersOfTheMatchesInTheNews) {
    Hub hub;
    hub.begin_anew(new_uuid(), 0, {{match_number(1), 4}, {match_number(2), 5}});
    std::map<std::string, int> woken;
    const auto watch = [&](const std::string& who, Hub::Interest interest) {
        return hub.subscribe([&woken, who](Hub::Wake) { ++woken[who]; }, interest);
    };
    std::vector<Hub::Token> tokens{watch("match 1", match_number(1)),
                                   watch("match 2", match_number(2)),
                                   watch("court 4", Hub::Court{4}), watch("court 5", Hub::Court{5}),
                                   watch("none", Hub::Nothing{})};
    using Woken = std::map<std::string, int>;
    hub.publish({{item_of(1, 1)}}, 1, [](MatchId) { return 4U; });
    EXPECT_EQ(woken, (Woken{{"match 1", 1}, {"court 4", 1}}));
    woken.clear();
    // It moves to court 5: both courts hear of it, now and later.
    for (const FeedPosition at : {2U, 3U}) {
        hub.publish({{item_of(1, at)}}, at, [](MatchId) { return 5U; });
        EXPECT_EQ(woken, (Woken{{"match 1", 1}, {"court 4", 1}, {"court 5", 1}}));
        woken.clear();
    }
    hub.tick();
    EXPECT_EQ(woken.size(), 5u);
    for (const Hub::Token token : tokens) hub.unsubscribe(token);
}

TEST(Hub, AWatcherOfAQuietMatchIsAtTheHeadWithoutLookingAtTheNewsOfOthers) {
    Hub hub;
    hub.begin_anew(new_uuid(), 10, {{match_number(1), 4}});
    const Hub::Era era = hub.feed().era;
    for (FeedPosition p = 11; p <= 10 + Hub::window_items + 100; ++p)
        hub.publish({{item_of(2, p)}}, p, [](MatchId) { return 5U; });
    for (const Hub::Interest& quiet :
         {Hub::Interest{match_number(1)}, Hub::Interest{Hub::Court{4}}}) {
        const Hub::Taken taken = hub.take(10, era, quiet);
        EXPECT_EQ(taken.where, Hub::Taken::Where::here);
        EXPECT_TRUE(taken.items.empty());
        EXPECT_EQ(taken.head, hub.head());
        // What was before the hub began it does not know.
        EXPECT_EQ(hub.take(9, era, quiet).where, Hub::Taken::Where::behind);
    }
    EXPECT_EQ(hub.take(10, era, match_number(2)).where, Hub::Taken::Where::behind);
}

TEST(Hub, WakesWatchersOnThreadsOfItsOwnOneAtATimeForEach) {
    Hub hub{4};
    std::atomic<int> inside{0};
    std::atomic<int> most_inside{0};
    std::atomic<FeedPosition> seen{0};
    std::atomic<int> on_the_publishers_thread{0};
    const auto token = hub.subscribe(
        [&, publisher = std::this_thread::get_id()](Hub::Wake) {
            if (std::this_thread::get_id() == publisher) ++on_the_publishers_thread;
            most_inside = std::max(most_inside.load(), ++inside);
            seen = hub.head();
            --inside;
        },
        match_number(1));
    for (FeedPosition p = 1; p <= 500; ++p) hub.publish(items(p, p), p);
    // The last news is never lost, however many wake-ups were joined; a failure waits for ever.
    while (seen != 500) std::this_thread::yield();
    hub.unsubscribe(token);
    EXPECT_EQ(most_inside, 1);
    EXPECT_EQ(on_the_publishers_thread, 0) << "who folds does not serialise for those who watch";
    hub.publish(items(501, 501), 501);
    EXPECT_EQ(seen, 500u);
}

}  // namespace
}  // namespace courthand::server
