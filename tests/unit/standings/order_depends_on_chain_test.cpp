// One pool, several chains: each gives its own order, by its own words.
#include "pools.h"

namespace courthand::standings {
namespace {

// Best of three; A, B and C have beaten each other in a circle and D lost to all. Sums over the
// pool: A 163-150, B 139-118, C 145-150, D 123-152; sets B 4-2, A 5-3, C 4-3.
Pool circle_of_three() {
    return pool_of({"A", "B", "C", "D"},
                   {"A-B 25-17 25-22", "B-C 25-19 25-14", "C-A 22-25 25-23 15-13",
                    "A-D 12-25 25-13 15-11", "B-D 25-21 25-14", "C-D 25-17 25-22"});
}

TEST(OrderDependsOnChain, SumsOfThePool) {
    const Pool pool = circle_of_three();
    const Table table = ranked(chain("international-2017"), pool);
    const std::vector<std::pair<int, int>> points{{163, 150}, {139, 118}, {145, 150}, {123, 152}};
    for (std::size_t t = 0; t < points.size(); ++t) {
        EXPECT_EQ(table.records[t].points_won, points[t].first);
        EXPECT_EQ(table.records[t].points_lost, points[t].second);
    }
}

TEST(OrderDependsOnChain, MatchPointsBeforeSets) {
    EXPECT_EQ(order_under("international-2017", circle_of_three()), "B A C D");
    EXPECT_EQ(order_under("international-points-first", circle_of_three()), "B A C D");
    EXPECT_EQ(order_under("best-of-three-league", circle_of_three()), "B A C D");
}

TEST(OrderDependsOnChain, MutualSetPercentage) {
    // A 3 of 5, B 2 of 4, C 2 of 5.
    EXPECT_EQ(order_under("us-school-district-2006", circle_of_three()), "A B C D");
}

TEST(OrderDependsOnChain, SetPercentageOfThePool) {
    // B 4 of 6, A 5 of 8, C 4 of 7.
    EXPECT_EQ(order_under("us-junior-national", circle_of_three()), "B A C D");
    EXPECT_EQ(order_under("us-regional-adult", circle_of_three()), "B A C D");
}

TEST(OrderDependsOnChain, MutualSetDifference) {
    // A 3-2, B 2-2, C 2-3.
    EXPECT_EQ(order_under("international-schools", circle_of_three()), "A B C D");
}

// mudvb.com, tie-break example 1: B, C and E are all 3-1; points against in the matches between
// them E 26, B 27, C 31.
TEST(OrderDependsOnChain, PublishedExampleOfPointsAgainst) {
    const Pool pool = pool_of({"A", "B", "C", "D", "E"},
                              {"B-C 16-17", "C-E 11-15", "E-B 10-15", "B-A 15-3", "B-D 15-3",
                               "C-A 15-3", "C-D 15-3", "E-A 15-3", "E-D 15-3", "A-D 15-9"});
    // The example prints B-C 16-17, so C won that match and B won against E.
    EXPECT_EQ(order_under("points-against", pool), "E B C A D");
    const Chain c = chain("points-against");
    EXPECT_EQ(reasons_of(c, pool, 0),
              "matches won, all matches: B 3, C 3, E 3, A 1, D 0\n"
              "points against, fewer is better, matches between them: E 26, B 27, C 31\n");
}

TEST(OrderDependsOnChain, ReasonsNameTheStepsInWords) {
    EXPECT_EQ(reasons_of(chain("international-2017"), circle_of_three(), 0),
              "matches won, all matches: A 2, B 2, C 2, D 0\n"
              "match points, all matches: A 6, B 6, C 5\n"
              "set quotient, all matches: B 4:2 = 2.0000, A 5:3 = 1.6667\n");
    EXPECT_EQ(reasons_of(chain("international-2017"), circle_of_three(), 3),
              "matches won, all matches: A 2, B 2, C 2, D 0\n");
}

}  // namespace
}  // namespace courthand::standings
