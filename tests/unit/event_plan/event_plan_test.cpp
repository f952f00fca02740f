// What the record asks of a plan, and that a plan comes back into it as facts that the record
// agrees with.
#include <gtest/gtest.h>

#include <algorithm>

#include "courthand/event/act.h"
#include "courthand/event/duty.h"
#include "courthand/event/plan_clash.h"
#include "courthand/plan/checker.h"
#include "cup_to_plan.h"

namespace courthand::event_plan {
namespace {

using event::TournamentState;
using testing::cup;
using testing::index_of;
using testing::state_of;
using testing::two_courts;

std::vector<std::string> from_names(const EventTask& task, plan::PartyIndex party) {
    std::vector<std::string> names;
    for (const plan::MatchIndex match : task.task.parties[party].from)
        names.push_back(task.task.matches[match].name);
    return names;
}

TEST(EventTask, HasTeamsThatAreKnownAndThoseThatAreNot) {
    const TournamentState state = state_of(cup(two_courts));
    const EventTask task = task_of(state, {});
    ASSERT_TRUE(plan::faults_of(task.task).empty()) << plan::faults_of(task.task).front().message;
    EXPECT_EQ(task.matches.size(), 10U);  // six in pools, semi-finals, third place, final
    const plan::TaskMatch& a1 = task.task.matches[index_of(task, "A1")];
    EXPECT_EQ(a1.duration, 50);
    EXPECT_EQ(task.task.groups[a1.group].rest, 20);
    EXPECT_EQ(task.task.pools[*a1.pool], "A");
    EXPECT_EQ(task.task.parties[a1.sides[0]].kind, plan::Party::Kind::team);
    ASSERT_EQ(a1.workers.size(), 1U);  // the team of the pool that does not play
    const plan::TaskMatch& semi = task.task.matches[index_of(task, "M1")];
    EXPECT_EQ(task.task.parties[semi.sides[0]].kind, plan::Party::Kind::expected);
    EXPECT_EQ(from_names(task, semi.sides[0]).size(), 3U);
    EXPECT_FALSE(semi.pool);
    EXPECT_EQ(plan::in_words(task.task, task.task.courts[0].open[0].hours.from), "09:00");
}

/// The record judges by itself: its own clashes of plan and duty find nothing.
TEST(EventPlan, ComesBackAsFactsThatNothingSpeaksAgainst) {
    TournamentState state = state_of(cup(two_courts));
    const EventTask task = task_of(state, {});
    const plan::Plan plan = plan::in_list_order(task.task);
    ASSERT_TRUE(plan::check(task.task, plan).fine());
    const auto facts = facts_of(state, task, plan);
    EXPECT_EQ(facts.size(), 10U);
    EXPECT_TRUE(event::meaning_of(state, facts).findings.empty());
    for (const event::Fact& fact : facts) event::fold_in(state, fact);
    EXPECT_TRUE(state.findings.empty());
    for (const event::MatchRef match : task.matches)
        EXPECT_TRUE(event::plan_clashes(state, match).empty()) << state.node(match).name;
    EXPECT_TRUE(event::clashes(state).empty());
    EXPECT_EQ(event::written(state.match(task.matches[index_of(task, "A1")]).placement->at),
              "2026-11-28T09:00");
    // Said once more there is nothing to say.
    EXPECT_TRUE(facts_of(state, task_of(state, {}), plan).empty());
}

TEST(EventPlan, OnlyWhatChangesIsSaid) {
    const TournamentState state =
        state_of(cup(std::string{two_courts} + "place A1 court 1 at 2026-11-28T09:00\n"
                                               "place A2 court 2 at 2026-11-28T13:00\n"
                                               "place A3 court 2 at 2026-11-28T15:00\n"
                                               "publish 1\n"));
    const EventTask task = task_of(state, {});
    plan::Plan plan{std::vector<std::optional<plan::Place>>(10)};
    for (const char* name : {"A1", "A2"})
        plan.places[index_of(task, name)] = task.task.matches[index_of(task, name)].published;
    EXPECT_EQ(plan.places[index_of(task, "A2")], (plan::Place{1, 13 * 60}));
    plan.places[index_of(task, "A2")]->court = 0;
    plan.places[index_of(task, "B1")] = plan::Place{1, 9 * 60};
    using event::Fact;
    EXPECT_EQ(facts_of(state, task, plan),
              (std::vector<Fact>{
                  event::MatchMoved{"A2", 1, *event::local_time_of("2026-11-28T13:00")},
                  event::MatchUnplaced{"A3"},
                  event::MatchPlaced{"B1", 2, *event::local_time_of("2026-11-28T09:00")}}));
    EXPECT_EQ(people_to_tell(task.task, plan).size(), 3U);  // the three teams of pool A
}

TEST(EventTask, WhatIsOverStandsWhereItWas) {
    const TournamentState state =
        state_of(cup(std::string{two_courts} + "place A1 court 2 at 2026-11-28T10:00\n"
                                               "result A1 paper 25-20 25-22\n"
                                               "result A2 paper 25-20 25-22\n"));
    ASSERT_TRUE(state.findings.empty());
    const EventTask task = task_of(state, {});
    EXPECT_EQ(task.matches.size(), 9U);  // nobody knows where A2 was
    const plan::TaskMatch& a1 = task.task.matches[index_of(task, "A1")];
    EXPECT_TRUE(a1.begun);
    EXPECT_EQ(a1.pinned, (plan::Place{1, 600}));
    const plan::TaskMatch& semi = task.task.matches[index_of(task, "M1")];
    EXPECT_EQ(from_names(task, semi.sides[0]).size() + from_names(task, semi.sides[1]).size(), 5U);
}

TEST(EventTask, PersonsWorkPlayAndHaveInterests) {
    const TournamentState state =
        state_of(cup(std::string{two_courts} + "person 7 coach team \"Quayside\"\n"
                                               "person 9 official\n"
                                               "conflict 9 with \"Saltmarsh\"\n"
                                               "duty B1 first-referee 7 second-referee 9\n"
                                               "duty B2 second-referee 9\n"
                                               "duty B3 second-referee 9\n"));
    ASSERT_TRUE(state.findings.empty()) << state.findings.front().fault.message;
    Demands demands;
    demands.shared_people = {{*state.find_team("Harbour Lights"), *state.find_team("Mill Lane")}};
    const EventTask task = task_of(state, demands);
    const auto with = [&](const std::string& name, auto member) {
        std::size_t count = 0;
        for (const plan::TaskMatch& match : task.task.matches)
            for (const plan::PartyIndex party : match.*member)
                if (task.task.parties[party].name == name) ++count;
        return count;
    };
    EXPECT_EQ(with("person 7", &plan::TaskMatch::workers), 1U);
    EXPECT_EQ(with("person 7", &plan::TaskMatch::present), 2U);  // both matches of Quayside
    EXPECT_EQ(with("a person of Harbour Lights and Mill Lane", &plan::TaskMatch::present), 4U);
    EXPECT_EQ(with("person 9", &plan::TaskMatch::barred), 2U);  // both of Saltmarsh
    const plan::Faults faults = plan::faults_of(task.task);
    ASSERT_EQ(faults.size(), 2U);
    EXPECT_EQ(faults[0].message, "person 9 works it and has a conflict of interest");
}

struct Bad {
    const char* about;
    std::string script;
    const char* place;
    const char* message;
};

TEST(EventTask, WhatCannotBePlannedSaysWhere) {
    const Bad cases[] = {
        {"no courts", cup(""), "plan", "there is no court"},
        {"no hours", cup("court 1\n"), "plan", "no court has hours"},
        {"no length", cup(two_courts, " rest 20"), "A1", "it is planned for 0 minutes"},
        {"a duty in the own match",
         cup(std::string{two_courts} + "duty A1 workers \"Harbour Lights\"\n"
                                       "duty A2 workers \"Harbour Lights\"\n"
                                       "duty A3 workers \"Harbour Lights\"\n"),
         "", "Harbour Lights plays and works it"},
    };
    for (const Bad& one : cases) {
        SCOPED_TRACE(one.about);
        const plan::Faults faults = plan::faults_of(task_of(state_of(one.script), {}).task);
        ASSERT_FALSE(faults.empty());
        EXPECT_EQ(faults.front().message, one.message);
        if (one.place[0] != '\0') {
            EXPECT_EQ(faults.front().place, one.place);
        }
        EXPECT_NE(faults.front().cure, "");
    }
}

}  // namespace
}  // namespace courthand::event_plan
