// News in order, for each page its own, and no more of it than the line holds.
#include "server/publish/news_line.h"

#include <gmock/gmock.h>

namespace courthand::server::publish {
namespace {

using ::testing::HasSubstr;

SiteMaker::Made piece(const std::string& id, const std::string& html,
                      std::vector<std::string> pages) {
    SiteMaker::Made made;
    made.news.push_back({{id, html}, std::move(pages)});
    return made;
}

TEST(NewsLine, GivesAPageItsOwnNewsInOrder) {
    NewsLine line{100};
    line.add(piece("court-1", "<p id=\"court-1\">1</p>", {"index.html", "court-1.html"}));
    line.add(piece("court-2", "<p id=\"court-2\">2</p>", {"index.html", "court-2.html"}));
    const auto first = line.next("index.html", 99);
    ASSERT_TRUE(first.text);
    EXPECT_THAT(*first.text, HasSubstr("court-1"));
    EXPECT_THAT(*first.text, HasSubstr("event: piece\nid: 100\n"));
    const auto second = line.next("index.html", first.seen);
    ASSERT_TRUE(second.text);
    EXPECT_THAT(*second.text, HasSubstr("court-2"));
    EXPECT_FALSE(line.next("index.html", second.seen).text);
    EXPECT_THAT(*line.next("court-2.html", 99).text, HasSubstr("id: 101\n"));
    EXPECT_FALSE(line.next("teams.html", 99).text);
}

TEST(NewsLine, WhoMissedSomethingTakesThePageAnew) {
    NewsLine line{100};
    for (std::size_t i = 0; i < NewsLine::most_items + 5; ++i)
        line.add(piece("court-1", "<p></p>", {"index.html"}));
    const auto next = line.next("teams.html", 99);
    ASSERT_TRUE(next.text);
    EXPECT_THAT(*next.text, HasSubstr("event: anew"));
    EXPECT_EQ(next.seen, line.last());
    EXPECT_FALSE(line.next("teams.html", next.seen).text);
}

TEST(NewsLine, ANumberOfAnotherServerIsSeenToBeAnother) {
    NewsLine line{100};
    for (const std::uint64_t seen : {std::uint64_t{3}, std::uint64_t{100}, ~std::uint64_t{0}})
        EXPECT_THAT(*line.next("index.html", seen).text, HasSubstr("event: anew")) << seen;
}

TEST(NewsLine, HoldsNoMoreThanItsBytes) {
    NewsLine line{1};
    const std::string large(NewsLine::most_bytes / 4, 'x');
    for (int i = 0; i < 10; ++i) line.add(piece("p", large, {"index.html"}));
    EXPECT_THAT(*line.next("index.html", 1).text, HasSubstr("event: anew"));
    EXPECT_THAT(*line.next("index.html", 9).text, HasSubstr("event: piece"));
}

TEST(NewsLine, EveryLineOfThePieceIsData) {
    EXPECT_EQ(event_text("piece", 7, "a\nb"), "event: piece\nid: 7\ndata: a\ndata: b\n\n");
}

}  // namespace
}  // namespace courthand::server::publish
