// What the judge of plans says of one change to a plan that is fine, in words.
#include "courthand/plan/checker.h"

#include <gtest/gtest.h>

#include <functional>

#include "tests/testkit/plan_tasks.h"

namespace courthand::plan {
namespace {

using testkit::Hall;
using testkit::plan_task;
using Lines = std::vector<std::string>;

Lines told(const PlanTask& task, const Plan& plan) {
    Lines lines;
    for (const Violation& violation : check(task, plan).violations)
        lines.push_back(in_words(task, plan, violation));
    return lines;
}

/// A pool on the first of two courts, from 08:00 on, with pauses of 20 minutes; nobody works.
struct Case {
    const char* about;
    std::function<void(PlanTask&, Plan&)> change;
    Lines lines;
};

PlanTask small_task() {
    Hall hall;
    hall.courts = 2;
    hall.duties = false;
    return plan_task(hall);
}

Plan small_plan() {
    Plan plan;
    for (int m = 0; m < 6; ++m) plan.places.push_back(Place{0, 480 + 80 * m});
    return plan;
}

TEST(Checker, NamesWhatIsBroken) {
    const Case cases[] = {
        {"nothing", [](PlanTask&, Plan&) {}, {}},
        {"no place", [](PlanTask&, Plan& p) { p.places[5].reset(); }, {"A6 has no place"}},
        {"before the court opens",
         [](PlanTask&, Plan& p) { p.places[0]->start = 470; },
         {"court 1 is not open from 07:50 to 08:50, for A1"}},
        {"a court taken",
         [](PlanTask& t, Plan& p) {
             t.groups[0].rest = 0;
             p.places[1]->start = 530;
         },
         {"court 1 has A1 and A2 at 08:50"}},
        {"a team twice",
         [](PlanTask&, Plan& p) {
             p.places[2] = Place{1, 500};
         },
         {"T4 rests 0 minutes between A3 and A2, and not 20",
          "T1 is at A1 and A3 at once, at 08:20"}},
        {"short rest",
         [](PlanTask&, Plan& p) {
             p.places[3]->start = 715;
             p.places[2]->start = 635;
         },
         {"T4 rests 15 minutes between A2 and A3, and not 20"}},
        {"in a row",
         [](PlanTask& t, Plan&) {
             t.groups[0].most_in_a_row = 2;
             t.groups[0].row_break = 101;
         },
         {"T4 plays 3 matches in a row with A5, at most 2",
          "T2 plays 3 matches in a row with A6, at most 2"}},
        {"a day",
         [](PlanTask& t, Plan&) { t.groups[0].most_a_day = 2; },
         {"T3 plays 3 matches on the day of A5, at most 2",
          "T4 plays 3 matches on the day of A5, at most 2",
          "T1 plays 3 matches on the day of A6, at most 2",
          "T2 plays 3 matches on the day of A6, at most 2"}},
        {"not before",
         [](PlanTask& t, Plan&) { t.matches[1].earliest = 600; },
         {"A2 begins at 09:20, 40 minutes too early"}},
        {"already past",
         [](PlanTask& t, Plan&) { t.now = 500; },
         {"A1 begins at 08:00, 20 minutes too early"}},
        {"latest end",
         [](PlanTask& t, Plan&) { t.matches[5].latest_end = 900; },
         {"A6 ends at 15:40, 40 minutes too late"}},
        {"age group",
         [](PlanTask& t, Plan&) { t.groups[0].latest_finish = {930}; },
         {"A6 ends at 15:40, 10 minutes too late"}},
        {"order",
         [](PlanTask& t, Plan&) {
             t.parties[0].from = {};
             t.parties.push_back({Party::Kind::expected, "1 of A", {0, 1}});
             t.matches[3].sides[0] = 4;
             t.matches[2].sides[0] = 4;
             t.groups[0].rest = 30;
         },
         {"A3 begins at 10:40, 10 minutes before it can after A2",
          "T4 rests 20 minutes between A2 and A3, and not 30",
          "1 of A rests 20 minutes between A3 and A4, and not 30",
          "T3 rests 20 minutes between A4 and A5, and not 30"}},
        {"a feature",
         [](PlanTask& t, Plan&) { t.matches[0].needs = {"stands"}; },
         {"court 1 lacks what A1 needs"}},
        {"kept for others",
         [](PlanTask& t, Plan& p) {
             t.groups.push_back({"U18"});
             t.courts[1].kept_for = {1};
             p.places[0] = Place{1, 480};
         },
         {"court 2 is kept for others than A1"}},
        {"pinned",
         [](PlanTask& t, Plan&) {
             t.matches[0].pinned = Place{1, 480};
         },
         {"A1 is not where it must stay"}},
        {"a coach of two teams",
         [](PlanTask& t, Plan& p) {
             t.parties.push_back({Party::Kind::person, "coach 7"});
             t.matches[0].present = {4};
             t.matches[1].present = {4};
             p.places[1] = Place{1, 500};
         },
         {"coach 7 is at A1 and A2 at once, at 08:20"}},
    };
    for (const Case& one : cases) {
        SCOPED_TRACE(one.about);
        PlanTask task = small_task();
        Plan plan = small_plan();
        one.change(task, plan);
        EXPECT_EQ(told(task, plan), one.lines);
    }
}

TEST(Checker, WhatHasBegunStandsAsItIs) {
    PlanTask task = small_task();
    Plan plan = small_plan();
    plan.places[1] = Place{0, 485};
    for (const MatchIndex m : {MatchIndex{0}, MatchIndex{1}}) {
        task.matches[m].pinned = plan.places[m];
        task.matches[m].begun = true;
    }
    EXPECT_EQ(told(task, plan), Lines{});
    plan.places[2] = Place{0, 535};  // beside both, and T1 and T4 do not rest
    EXPECT_EQ(
        told(task, plan),
        (Lines{"court 1 has A1 and A3 at 08:55", "court 1 has A2 and A3 at 08:55",
               "T1 is at A1 and A3 at once, at 08:55", "T4 is at A2 and A3 at once, at 08:55"}));
}

TEST(Costs, AreCountedByHand) {
    PlanTask task = small_task();
    const Report report = check(task, small_plan());
    // T1 plays 1, 3, 6 of six slots of 60 and 20 minutes: 460 minutes there, 180 of them busy; T2
    // plays 2, 4, 6: 380; T3 1, 4, 5: 380; T4 2, 3, 5: 300.
    EXPECT_EQ(report.of(Wish::waiting), 280 + 200 + 200 + 120);
    EXPECT_EQ(report.of(Wish::spread), 160 + 80 + 80 + 0);
    EXPECT_EQ(report.of(Wish::end), 460);
    EXPECT_EQ(report.of(Wish::courts), 0);
    EXPECT_EQ(report.busy, 12 * 60);
    EXPECT_EQ(report.worst_rest, 20);
    EXPECT_EQ(report.total, 800 + 320 + 20 * 460);
    Plan other = small_plan();
    other.places[5]->court = 1;
    EXPECT_EQ(check(task, other).of(Wish::courts), 1);
}

TEST(Costs, OfDutiesAndOfWhoMustBeTold) {
    PlanTask task = plan_task({});
    Plan plan = small_plan();
    EXPECT_EQ(check(task, plan).of(Wish::duties), 2);  // 2, 2, 1 and 1
    for (std::size_t m = 0; m < 6; ++m) task.matches[m].published = plan.places[m];
    EXPECT_EQ(check(task, plan).of(Wish::told), 0);
    plan.places[0]->start = 420;
    EXPECT_EQ(people_to_tell(task, plan), (std::vector<PartyIndex>{0, 1, 2}));
    EXPECT_EQ(check(task, plan).of(Wish::told), 3);
}

/// The winner of A1 waits from its end on, until it plays.
TEST(Costs, AnExpectedTeamWaitsAfterTheMatchItComesFrom) {
    PlanTask task = small_task();
    const std::int64_t before = check(task, small_plan()).of(Wish::waiting);
    task.parties.push_back({Party::Kind::expected, "winner of A1", {0}});
    task.parties.push_back({Party::Kind::expected, "winner of A2", {1}});
    task.matches.push_back({"M1", 0, {}, 60, {4, 5}});
    Plan plan = small_plan();
    plan.places.push_back(Place{1, 700});
    EXPECT_EQ(check(task, plan).of(Wish::waiting), before + (700 - 540) + (700 - 620));
}

}  // namespace
}  // namespace courthand::plan
