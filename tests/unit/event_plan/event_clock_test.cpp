// Days past midnight and clocks that jump, from the record to the plan and back.
#include <gtest/gtest.h>

#include "courthand/plan/checker.h"
#include "cup_to_plan.h"

namespace courthand::event_plan {
namespace {

using event::local_time_of;
using testing::cup;
using testing::index_of;
using testing::state_of;

std::string shown(const EventTask& task, plan::Minute minute) {
    return event::written(time_of(task, minute));
}

TEST(DayPastMidnight, IsOneDayAndItsTimesHaveTheNextDate) {
    const auto state = state_of(cup("court 1 opens 2026-11-28T18:00 closes 2026-11-29T08:00\n"));
    const EventTask task = task_of(state, {});
    ASSERT_EQ(plan::days_of(task.task).size(), 1U);
    const plan::Plan plan = plan::in_list_order(task.task);
    const auto& final_place = plan.places[index_of(task, "M4")];
    ASSERT_TRUE(final_place);
    EXPECT_EQ(shown(task, final_place->start).substr(0, 10), "2026-11-29");
    EXPECT_EQ(shown(task, minute_of(task, *local_time_of("2026-11-29T00:30"))), "2026-11-29T00:30");
}

/// On 2026-10-25 the clock of London goes back from 02:00 to 01:00.
class WinterNight : public ::testing::Test {
  protected:
    WinterNight() {
        Demands demands;
        demands.clock_changes = {{*local_time_of("2026-10-25T02:00"), -60}};
        task_ = task_of(state_of(cup("court 1 opens 2026-10-24T22:00 closes 2026-10-25T08:00\n"
                                     "court 2 opens 2026-10-24T22:00 closes 2026-10-25T08:00\n")),
                        demands);
    }
    EventTask task_;
};

TEST_F(WinterNight, HasAnHourMore) {
    const plan::Window hours = task_.task.courts[0].open[0].hours;
    EXPECT_EQ(hours.until - hours.from, 11 * 60);
    struct Case {
        const char* shown;
        plan::Minute minute;
    };
    for (const auto& [text, minute] :
         {Case{"2026-10-24T22:00", 22 * 60}, Case{"2026-10-25T00:59", 25 * 60 - 1},
          Case{"2026-10-25T02:00", 27 * 60}, Case{"2026-10-25T08:00", 33 * 60}}) {
        EXPECT_EQ(minute_of(task_, *local_time_of(text)), minute) << text;
        EXPECT_EQ(shown(task_, minute), text);
    }
    // Shown twice: the first time is meant.
    EXPECT_EQ(minute_of(task_, *local_time_of("2026-10-25T01:30")), 25 * 60 + 30);
    EXPECT_EQ(shown(task_, 26 * 60 + 30), "2026-10-25T01:30");
}

TEST_F(WinterNight, NothingBeginsWhenItsTimeIsShownTwice) {
    const plan::Plan plan = plan::in_list_order(task_.task);
    const plan::Report report = plan::check(task_.task, plan);
    EXPECT_TRUE(report.fine());
    bool later = false;
    for (const auto& place : plan.places) {
        const std::string at = shown(task_, place->start);
        EXPECT_NE(at.substr(11, 2), "01") << at;
        later = later || place->start >= 27 * 60;
    }
    EXPECT_TRUE(later);
    EXPECT_GE(report.worst_rest, 20);
}

TEST(SummerTime, LeavesAnHourOut) {
    Demands demands;
    demands.clock_changes = {{*local_time_of("2027-03-28T01:00"), 60}};
    const EventTask task =
        task_of(state_of(cup("court 1 opens 2027-03-27T22:00 closes 2027-03-28T08:00\n")), demands);
    const plan::Window hours = task.task.courts[0].open[0].hours;
    EXPECT_EQ(hours.until - hours.from, 9 * 60);
    EXPECT_EQ(shown(task, 25 * 60), "2027-03-28T02:00");
    EXPECT_EQ(minute_of(task, *local_time_of("2027-03-28T01:30")), 25 * 60);
    EXPECT_TRUE(task.task.no_start.empty());
}

}  // namespace
}  // namespace courthand::event_plan
