// The window of newest items that watchers share.
#include "server/feed/hub.h"

#include <gtest/gtest.h>

namespace courthand::server {
namespace {

std::vector<FeedItem> items(FeedPosition first, FeedPosition last) {
    std::vector<FeedItem> all;
    for (FeedPosition p = first; p <= last; ++p) {
        FeedItem item;
        item.position = p;
        all.push_back(item);
    }
    return all;
}

TEST(Hub, HandsOutWhatFollowsAPosition) {
    Hub hub;
    hub.publish(items(1, 10), 10);
    const Hub::Taken taken = hub.take(7, hub.feed().era);
    ASSERT_EQ(taken.items.size(), 3u);
    EXPECT_EQ(taken.items.front().position, 8u);
    EXPECT_EQ(taken.head, 10u);
    EXPECT_TRUE(hub.take(10, hub.feed().era).items.empty());
}

TEST(Hub, ASlowWatcherIsSentToTheStore) {
    Hub hub;
    hub.publish(items(1, Hub::window_items + 100), Hub::window_items + 100);
    EXPECT_EQ(hub.take(99, hub.feed().era).where, Hub::Taken::Where::behind);
    EXPECT_EQ(hub.take(100, hub.feed().era).where, Hub::Taken::Where::here);
}

TEST(Hub, HandsOutLongStretchesInPieces) {
    Hub hub;
    hub.publish(items(1, 1000), 1000);
    FeedPosition position = 0;
    std::size_t count = 0;
    while (true) {
        const Hub::Taken taken = hub.take(position, hub.feed().era);
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
    const auto token = hub.subscribe([&](Hub::Wake) { ++news; });
    const Uuid generation = new_uuid();
    hub.begin_anew(generation, 6);
    hub.unsubscribe(token);
    EXPECT_EQ(news, 1);
    EXPECT_EQ(hub.take(10, before).where, Hub::Taken::Where::anew);
    EXPECT_EQ(hub.feed().head, 6u);
    EXPECT_EQ(hub.generation(), generation);
    EXPECT_EQ(hub.take(5, hub.feed().era).where, Hub::Taken::Where::behind);
    EXPECT_TRUE(hub.take(6, hub.feed().era).items.empty());
}

TEST(Hub, WakesListenersUntilTheyLeave) {
    Hub hub;
    int news = 0;
    int ticks = 0;
    const auto token =
        hub.subscribe([&](Hub::Wake why) { ++(why == Hub::Wake::news ? news : ticks); });
    hub.publish(items(1, 1), 1);
    hub.publish({}, 1);
    hub.tick();
    hub.unsubscribe(token);
    hub.publish(items(2, 2), 2);
    EXPECT_EQ(news, 1);
    EXPECT_EQ(ticks, 1);
}

}  // namespace
}  // namespace courthand::server
