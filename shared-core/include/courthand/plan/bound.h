// What no plan of a task can go below, so that a plan can be called good, or best.
//
// The bound adds up what relaxations allow at least, weighted:
// * waiting of known teams: of each by itself, the rest between its matches of one day, less what
// its
//   duties can fill; of a cluster (below) whose orders were gone through, its best one alone in the
//   hall;
// * waiting of teams that come out of earlier matches: all that these waits have in common. Their
// sum is
//   that of all beginnings less that of all ends, whoever is put beside whom; of all ways to put an
//   earlier match before a later one, the one with the longest ways through the graph counts;
// * the end of each day, of the matches that can only be on that day: the longest way through the
//   graph with rests; and for matches that can begin no sooner than h and are followed by q
//   minutes, h + q + the time that their courts need for them all. Where a cluster could wait less
//   if the day were longer, the cheaper of both counts;
// * duties, which no plan changes.
// Other wishes count nothing.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "courthand/plan/task.h"

namespace courthand::plan {

/// Matches that share known teams, directly or through others, all on one day whatever the plan.
struct Cluster {
    std::vector<MatchIndex> matches;
    friend bool operator==(const Cluster&, const Cluster&) = default;
};
[[nodiscard]] std::vector<Cluster> clusters_of(const PlanTask& task);

/// An order of the matches of a cluster, alone in the hall with as many courts as it likes.
struct Shape {
    Minute length = 0;         ///< the least from its first beginning to its last end
    std::int64_t waiting = 0;  ///< the least of its teams, waiting and spread weighted
    std::vector<MatchIndex> order;
    friend bool operator==(const Shape&, const Shape&) = default;
};
/// The shapes than which none is both shorter and waits less, the shortest first; at least one.
struct ClusterBest {
    Cluster cluster;
    std::vector<Shape> shapes;
};

/// Of clusters in which no two matches can be at once, because all have a team in common: each
/// order of its matches is looked at. Those that are too large are left out.
[[nodiscard]] std::vector<ClusterBest> cluster_bests(const PlanTask& task);

struct LowerBound {
    std::int64_t waiting = 0;  ///< with spread; weighted, as are the others
    std::int64_t end = 0;
    std::int64_t duties = 0;
    [[nodiscard]] std::int64_t total() const noexcept { return waiting + end + duties; }
    friend bool operator==(const LowerBound&, const LowerBound&) = default;
};

/// The task must be without faults.
[[nodiscard]] LowerBound lower_bound(const PlanTask& task, std::span<const ClusterBest> best = {});

/// By how much a cost is above a bound, as a share of the bound; 0 when they are equal.
[[nodiscard]] double gap_of(std::int64_t cost, std::int64_t bound) noexcept;

}  // namespace courthand::plan
