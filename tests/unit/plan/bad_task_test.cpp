// Tasks that no plan could cure: each says where, what and how to put it right.
#include <gtest/gtest.h>

#include <functional>

#include "courthand/plan/checker.h"
#include "tests/testkit/plan_tasks.h"

namespace courthand::plan {
namespace {

using testkit::Hall;
using testkit::plan_task;

struct Case {
    const char* about;
    std::function<void(PlanTask&)> spoil;
    const char* place;
    const char* message;
};

TEST(BadTask, SaysWhereAndWhat) {
    const Case cases[] = {
        {"no courts", [](PlanTask& t) { t.courts.clear(); }, "plan", "there is no court"},
        {"no hours", [](PlanTask& t) { t.courts[0].open.clear(); }, "plan", "no court has hours"},
        {"a duty in its own match",
         [](PlanTask& t) { t.matches[0].workers = {t.matches[0].sides[0]}; }, "A1",
         "T1 plays and works it"},
        {"a conflict of interest", [](PlanTask& t) { t.matches[1].barred = t.matches[1].workers; },
         "A2", "T1 works it and has a conflict of interest"},
        {"against itself", [](PlanTask& t) { t.matches[2].sides[1] = t.matches[2].sides[0]; }, "A3",
         "T1 plays against itself"},
        {"no length", [](PlanTask& t) { t.matches[3].duration = 0; }, "A4",
         "it is planned for 0 minutes"},
        {"a circle",
         [](PlanTask& t) {
             t.parties[0].from = {4};
             t.parties[2].from = {0};
         },
         "A1", "it waits for itself, through other matches"},
        {"no such match", [](PlanTask& t) { t.parties[0].from = {99}; }, "T1",
         "comes from a match that is not there"},
        {"no such court",
         [](PlanTask& t) {
             t.matches[0].pinned = Place{7, 480};
         },
         "A1", "its court is not there"},
        {"begun nowhere", [](PlanTask& t) { t.matches[0].begun = true; }, "A1",
         "it has begun and has no place"},
        {"closes before it opens",
         [](PlanTask& t) {
             t.courts[0].open[0].hours = {900, 480};
         },
         "court 1", "it closes before it opens, or outside the month of the plan"},
        {"a step of nothing", [](PlanTask& t) { t.step = 0; }, "plan",
         "times cannot be planned in steps of 0 minutes"},
        {"a weight below nothing", [](PlanTask& t) { t.weights.of[0] = -1; }, "plan",
         "a wish cannot weigh -1"},
        {"a day without hours", [](PlanTask& t) { t.courts[0].open[0].day = 1; }, "plan",
         "day 1 has no hours"},
    };
    for (const Case& one : cases) {
        SCOPED_TRACE(one.about);
        PlanTask task = plan_task({});
        ASSERT_TRUE(faults_of(task).empty());
        one.spoil(task);
        const Faults faults = faults_of(task);
        ASSERT_FALSE(faults.empty());
        EXPECT_EQ(faults.front().place, one.place);
        EXPECT_EQ(faults.front().message, one.message);
        EXPECT_NE(faults.front().cure, "");
    }
}

/// From 18:00 until 02:00: matches after midnight are of the same day, for limits and for costs.
TEST(DayPastMidnight, IsOneDayOfPlay) {
    Hall hall;
    hall.opens = 18 * 60;
    hall.closes = 26 * 60;
    PlanTask task = plan_task(hall);
    task.groups[0].most_a_day = 2;
    const Plan plan = in_list_order(task);
    EXPECT_FALSE(plan.places[5]);  // a third match of a team on this day
    task.groups[0].most_a_day = 3;
    const Plan whole = in_list_order(task);
    ASSERT_TRUE(whole.places[5]);
    EXPECT_GT(whole.places[5]->start + 60, 24 * 60);
    EXPECT_TRUE(check(task, whole).fine());
    EXPECT_EQ(in_words(task, 24 * 60 + 30), "00:30");
}

/// The clock goes back from 02:00 to 01:00: eight hours pass between 22:00 and 05:00.
TEST(WinterTime, NothingBeginsInTheHourThatTheClockShowsTwice) {
    Hall hall;
    hall.opens = 22 * 60;
    hall.closes = 30 * 60;
    PlanTask task = plan_task(hall);
    task.clock = {{0, 0}, {26 * 60, 25 * 60}};
    task.no_start = {{25 * 60, 27 * 60}};
    EXPECT_EQ(in_words(task, 26 * 60 - 1), "01:59");
    EXPECT_EQ(in_words(task, 26 * 60), "01:00");
    EXPECT_EQ(in_words(task, 30 * 60), "05:00");
    const Plan plan = in_list_order(task);
    const Report report = check(task, plan);
    for (const auto& place : plan.places) {
        if (!place) continue;
        EXPECT_TRUE(place->start < 25 * 60 || place->start >= 27 * 60) << place->start;
    }
    Plan moved = plan;
    moved.places[2] = Place{0, 26 * 60};
    std::vector<std::string> told;
    for (const Violation& violation : check(task, moved).violations)
        told.push_back(in_words(task, moved, violation));
    EXPECT_NE(
        std::find(told.begin(), told.end(), "A3 begins at 01:00, which the clock shows twice"),
        told.end());
}

}  // namespace
}  // namespace courthand::plan
