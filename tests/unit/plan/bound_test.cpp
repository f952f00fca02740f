// The lower bound part by part, against sums by hand.
#include "courthand/plan/bound.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/testkit/plan_tasks.h"

namespace courthand::plan {
namespace {

using testkit::Hall;
using testkit::plan_task;

TEST(Bound, OfOnePool) {
    const PlanTask task = plan_task({});
    const LowerBound bound = lower_bound(task);
    // One court has six matches of 60 minutes, one after the other.
    EXPECT_EQ(bound.end, 20 * 6 * 60);
    // Three matches have two breaks of 20 minutes; T1 and T2 work twice, T3 and T4 once.
    EXPECT_EQ(bound.waiting, 0 + 0 + 20 + 20);
    EXPECT_EQ(bound.total(), bound.end + bound.waiting);
}

TEST(Bound, OfCourtsThatShareThePools) {
    Hall hall;
    hall.pools = 3;
    hall.courts = 4;
    hall.duties = false;
    // 18 matches on four courts: one has five. Each team: two breaks of 20.
    const LowerBound bound = lower_bound(plan_task(hall));
    EXPECT_EQ(bound.end, 20 * 300);
    EXPECT_EQ(bound.waiting, 12 * 40);
}

TEST(Bound, OfTheLongestWay) {
    Hall hall;
    hall.pools = 4;
    hall.courts = 24;
    hall.brackets = true;
    // A match of a pool, then three of a bracket of eight, each after a rest.
    EXPECT_EQ(lower_bound(plan_task(hall)).end, 20 * (60 + 3 * 80));
    // Who knows how long a pool takes alone knows more.
    const PlanTask task = plan_task(hall);
    std::vector<ClusterBest> best;
    for (const Cluster& cluster : clusters_of(task)) best.push_back({cluster, {{400, 100, {}}}});
    ASSERT_EQ(best.size(), 4U);
    EXPECT_EQ(best[1].cluster.matches, (std::vector<MatchIndex>{6, 7, 8, 9, 10, 11}));
    EXPECT_EQ(lower_bound(task, best).end, 20 * (400 + 3 * 80));
    EXPECT_EQ(lower_bound(task, best).waiting - lower_bound(task).waiting, 4 * (100 - 40));
}

TEST(Bound, OfTwoDaysCountsEachByItself) {
    Hall hall;
    hall.pools = 4;
    hall.courts = 2;
    hall.days = 2;
    hall.brackets = true;
    // 12 matches on each of two courts; the next day 12 that a final follows, then that after a
    // rest.
    EXPECT_EQ(lower_bound(plan_task(hall)).end, 20 * (12 * 60 + 6 * 60 + 80));
}

TEST(Bound, LeavesOpenWhichMatchOfACourtIsLast) {
    Hall hall;
    hall.pools = 1;
    hall.courts = 1;
    PlanTask task = plan_task(hall);
    task.step = 5;
    task.matches.resize(2);
    // Two matches of nobody in common.
    for (TaskMatch& match : task.matches) match.workers.clear();
    task.matches[0].sides = {0, 1};
    task.matches[1].sides = {2, 3};
    task.matches[0].duration = 42;
    task.matches[1].duration = 45;
    // 45 minutes, then 42; the other way round the second begins at 45 and ends at 90.
    EXPECT_EQ(lower_bound(task).end, 20 * 87);
}

/// The six matches of a pool of four with duties can only follow each other: 720 orders, gone
/// through by another program.
TEST(Bound, OfAPoolKnowsWhatIsShortAndWhatWaitsLittle) {
    Hall hall;
    hall.pools = 2;
    hall.courts = 2;
    const auto bests = cluster_bests(plan_task(hall));
    ASSERT_EQ(bests.size(), 2U);
    for (const ClusterBest& best : bests) {
        ASSERT_EQ(best.shapes.size(), 2U);
        EXPECT_EQ(best.shapes[0].length, 400);
        EXPECT_EQ(best.shapes[0].waiting, 400);
        EXPECT_EQ(best.shapes[1].length, 420);
        EXPECT_EQ(best.shapes[1].waiting, 320);
        EXPECT_TRUE(std::is_permutation(best.shapes[0].order.begin(), best.shapes[0].order.end(),
                                        best.cluster.matches.begin()));
    }
    // Two pools: 20 minutes more of a day weigh 400, 80 less of waiting in each 160.
    const LowerBound bound = lower_bound(plan_task(hall), bests);
    EXPECT_EQ(bound.end, 20 * 400);
    EXPECT_EQ(bound.waiting, 2 * 400);
}

/// Three pools, six teams in each bracket. The first of A waits until the second of A, or of B, has
/// won and rested: 20, 60 and 20 minutes; all others rest 20.
TEST(Bound, OfTeamsThatComeOutOfEarlierMatches) {
    Hall hall;
    hall.pools = 3;
    hall.courts = 30;
    hall.brackets = true;
    const std::int64_t pools = 3 * 40;
    EXPECT_EQ(lower_bound(plan_task(hall)).waiting, pools + 2 * (100 + 9 * 20));
}

TEST(Gap, IsAShareOfTheBound) {
    EXPECT_EQ(gap_of(105, 100), .05);
    EXPECT_EQ(gap_of(100, 100), 0);
    EXPECT_EQ(gap_of(1, 0), 1);
}

}  // namespace
}  // namespace courthand::plan
