// Laws of plans over halls by chance.
#include <gtest/gtest.h>

#include "courthand/plan/board.h"
#include "courthand/plan/bound.h"
#include "courthand/plan/checker.h"
#include "tests/testkit/random_plan_tasks.h"

namespace courthand::plan {
namespace {

constexpr int tasks_tried = 25;

/// Board and checker are two readings of the same rules: a match fits exactly when its place brings
/// nothing new that is broken.
TEST(Laws, TheBoardAllowsWhatTheCheckerPasses) {
    draw::Random random{11};
    int fitted = 0;
    int refused = 0;
    for (int t = 0; t < tasks_tried; ++t) {
        const PlanTask task = testkit::random_plan_task(random);
        ASSERT_TRUE(faults_of(task).empty()) << faults_of(task).front().message;
        const Relations relations{task};
        Board board{relations};
        for (int tries = 0; tries < 200; ++tries) {
            const auto match = static_cast<MatchIndex>(random.below(task.matches.size()));
            board.remove(match);
            const Place place{static_cast<CourtIndex>(random.below(task.courts.size())),
                              static_cast<Minute>(470 + 10 * random.below(90) +
                                                  (random.below(2) == 0 ? 0 : 1440))};
            const std::size_t before = check(task, board.plan()).violations.size();
            const bool fits = board.fits(match, place);
            Plan plan = board.plan();
            plan.places[match] = place;
            const std::size_t after = check(task, plan).violations.size();
            ASSERT_EQ(fits, after == before - 1)
                << task.matches[match].name << " at " << place.start;
            (fits ? fitted : refused)++;
            if (fits) board.place(match, place);
        }
    }
    EXPECT_GT(fitted, 300);
    EXPECT_GT(refused, 500);
}

TEST(Laws, ListOrderBreaksNothingAndNothingGoesBelowTheBound) {
    draw::Random random{12};
    int whole = 0;
    for (int t = 0; t < 8 * tasks_tried; ++t) {
        const PlanTask task = testkit::random_plan_task(random);
        const Plan plan = in_list_order(task);
        const Report report = check(task, plan);
        for (const Violation& violation : report.violations)
            EXPECT_EQ(violation.kind, Violation::Kind::not_placed)
                << in_words(task, plan, violation);
        EXPECT_EQ(plan, in_list_order(task));
        if (!report.fine()) continue;
        ++whole;
        EXPECT_GE(report.total, lower_bound(task).total());
        const auto bests = cluster_bests(task);
        EXPECT_GE(lower_bound(task, bests).total(), lower_bound(task).total());
        EXPECT_GE(report.total, lower_bound(task, bests).total());
    }
    EXPECT_GT(whole, 20);
}

}  // namespace
}  // namespace courthand::plan
