// Which rules clash, and what letting go of each costs; a day planned anew.
#include "server/planner/clash.h"

#include <gtest/gtest.h>

#include <functional>

#include "courthand/plan/replan.h"
#include "tests/testkit/plan_tasks.h"

namespace courthand::server::planner {
namespace {

using plan::PlanTask;
using testkit::Hall;
using testkit::plan_task;
using Lines = std::vector<std::string>;

struct Case {
    const char* about;
    std::function<void(PlanTask&)> tighten;
    Lines rules;
    Lines loosenings;
};

TEST(Clash, NamesASmallestSetAndWhatLooseningCosts) {
    const Case cases[] = {
        {"six matches of an hour in less than six hours",
         [](PlanTask& t) {
             t.courts[0].open[0].hours = {480, 830};
             t.groups[0].rest = 0;
         },
         {"the hours of the courts"},
         {"1 match outside the hours, by up to 10 minutes"}},
        {"a limit beside hours and rest",
         [](PlanTask& t) { t.groups[0].most_a_day = 2; },
         {"at most 2 matches a day in U16"},
         {"8 times up to 1 too many"}},
        {"an official of two matches at one time",
         [](PlanTask& t) {
             t.parties.push_back({plan::Party::Kind::person, "official 3"});
             for (const std::size_t m : {std::size_t{0}, std::size_t{6}}) {
                 t.matches[m].workers.push_back(
                     static_cast<plan::PartyIndex>(t.parties.size() - 1));
                 t.matches[m].latest_end = 570;
             }
         },
         {"crews, officials and coaches are at one match at a time", "the latest ends in U16"},
         {"1 time somebody is at two matches at once", "1 match later, by up to 30 minutes"}},
        {"a court for others",
         [](PlanTask& t) {
             t.groups.push_back({"U18"});
             for (auto& c : t.courts) c.kept_for = {1};
         },
         {"courts kept for others than U16"},
         {"12 matches on courts kept for others than U16"}},
    };
    for (const Case& one : cases) {
        SCOPED_TRACE(one.about);
        Hall hall;
        hall.pools = one.about[0] == 's' ? 1 : 2;
        hall.courts = hall.pools;
        PlanTask task = plan_task(hall);
        one.tighten(task);
        ASSERT_FALSE(std::holds_alternative<Planned>(find_any_plan(task, {20'000, 1})));
        const ClashingRules clash = clashing_rules(task, {20'000, 1});
        EXPECT_FALSE(clash.rough);
        Lines rules;
        for (const plan::Rule& rule : clash.rules) rules.push_back(in_words(task, rule));
        EXPECT_EQ(rules, one.rules);
        Lines loosenings;
        for (const auto& each : clash.loosenings) loosenings.push_back(in_words(task, each));
        EXPECT_EQ(loosenings, one.loosenings);
    }
}

/// Three pools on three of four courts, published later than they could be; at 10:00
/// the third court closes.
class Replanned : public ::testing::Test {
  protected:
    void SetUp() override {
        Hall hall;
        hall.pools = 3;
        hall.courts = 4;
        task_ = plan_task(hall);
        const auto plan = plan::in_list_order(task_);
        for (std::size_t m = 0; m < task_.matches.size(); ++m) {
            plan::TaskMatch& match = task_.matches[m];
            const plan::Minute later = plan.places[m]->start + 30 < now ? 30 : 60;
            match.published = plan::Place{plan.places[m]->court, plan.places[m]->start + later};
            if (match.published->start >= now) continue;
            match.pinned = match.published;
            match.begun = true;
        }
        task_.courts[2].open[0].hours.until = now + 60;
    }

    static constexpr plan::Minute now = 600;
    PlanTask task_;
};

TEST_F(Replanned, WhatWasPublishedStaysOrTheRuleIsNamed) {
    const PlanTask later = plan::from_now(task_, now, plan::Keep::all);
    EXPECT_TRUE(std::holds_alternative<Impossible>(make_plan(later, {20'000, 1})));
    const ClashingRules clash = clashing_rules(later, {20'000, 1});
    Lines rules;
    for (const plan::Rule& rule : clash.rules) rules.push_back(in_words(later, rule));
    EXPECT_EQ(rules, (Lines{"the hours of the courts", "published matches stay where they are"}));
}

TEST_F(Replanned, FewerAreToldWhenTellingCosts) {
    const auto told = [&](plan::Keep keep) {
        task_.weights.of = {1, 5, 0, 15, 0, 100};  // half an hour is not worth telling eight more
        const PlanTask later = plan::from_now(task_, now, keep);
        const auto result = make_plan(later, {30'000, 1});
        const auto* planned = std::get_if<Planned>(&result);
        EXPECT_NE(planned, nullptr);
        if (planned == nullptr) return std::size_t{0};
        for (std::size_t m = 0; m < later.matches.size(); ++m) {
            if (!later.matches[m].begun) continue;
            EXPECT_EQ(planned->plan.places[m], later.matches[m].pinned);
        }
        return people_to_tell(later, planned->plan).size();
    };
    const std::size_t few = told(plan::Keep::most);
    EXPECT_EQ(few, 4U);  // the pool of the closed court
    EXPECT_EQ(told(plan::Keep::none), 12U);
}

}  // namespace
}  // namespace courthand::server::planner
