// Acts as messages, and what the server's answer becomes.
#include "venue/event_message.h"

#include <gtest/gtest.h>

#include "venue/event_act.h"
#include "wire/event_convert.h"
#include "wire/tournament_limits.h"
#include "wire/uuid.h"

namespace courthand::venue {
namespace {

EventAct notes(std::size_t count, const std::string& words = "The floor is wet.") {
    return new_act(3, std::vector<event::Said>(count, {event::NoteWritten{"A1", ""}, words}));
}

TEST(EventMessage, AnActTravelsWithItsIdsFactsAndWords) {
    const EventAct act = notes(2);
    EXPECT_NE(act.ids[0], act.ids[1]);
    const v1::ActRequest request = act_request(act, "desk 2", true);
    EXPECT_EQ(request.author(), "desk 2");
    EXPECT_EQ(request.seen(), 3u);
    EXPECT_TRUE(request.preview());
    EXPECT_GT(request.device_time_us(), 0);
    ASSERT_EQ(request.facts_size(), 2);
    EXPECT_EQ(wire::Uuid::from_bytes(request.facts(1).fact_id())->to_text(), act.ids[1]);
    EXPECT_EQ(request.facts(1).words(), "The floor is wet.");
    EXPECT_EQ(std::get<event::Fact>(wire::from_proto(request.facts(1).fact())), act.facts[1].fact);
    // The same on each retry.
    EXPECT_EQ(act_request(act, "desk 2", false).facts(0).fact_id(), request.facts(0).fact_id());
}

TEST(EventMessage, WhatTheServerWouldRefuseIsSaidHere) {
    const auto why = [](const EventAct& act) {
        return not_sendable(act, act_request(act, "desk 2", false));
    };
    EXPECT_EQ(why(notes(1)), "");
    EXPECT_EQ(why(notes(wire::most_act_facts)), "");
    EXPECT_NE(why(notes(0)), "");
    EXPECT_NE(why(notes(wire::most_act_facts + 1)), "");
    EXPECT_NE(why(notes(1000, std::string(3000, 'x'))), "");
    EventAct nameless = notes(2);
    nameless.ids.pop_back();
    EXPECT_NE(why(nameless), "");
    EXPECT_EQ(why(new_act(3, std::vector<event::Said>(64, {event::TakenBack{1}, ""}))), "");
    EXPECT_NE(why(new_act(3, std::vector<event::Said>(65, {event::TakenBack{1}, ""}))), "");
}

TEST(EventMessage, AnAnswerBecomesWhatBecameOfTheAct) {
    v1::ActResponse response;
    response.set_fate(v1::ActResponse::FATE_OVERTAKEN);
    v1::ActFinding& finding = *response.add_findings();
    finding.set_fact(4);
    finding.set_problem("result-there");
    finding.set_place("match A1");
    finding.set_message("it has a result");
    finding.set_cure("reopen it");
    response.add_facts_undone(2);
    response.add_matches_changed("A1");
    response.add_places_changed("place 1 in U16");
    const ActOutcome outcome = outcome_of(response);
    EXPECT_EQ(outcome.fate, ActOutcome::Fate::overtaken);
    ASSERT_EQ(outcome.findings.size(), 1u);
    EXPECT_EQ(outcome.findings[0],
              (event::Finding{
                  4, event::Problem::result_there, {"match A1", "it has a result", "reopen it"}}));
    EXPECT_EQ(outcome.effects, (event::Effects{{2}, {"A1"}, {"place 1 in U16"}}));
    EXPECT_EQ(outcome.problem, "");
}

TEST(EventMessage, EveryKindOfFindingIsKnownByItsWordAndANewerOneByItsWords) {
    for (std::size_t i = 0; i < event::problem_words.size(); ++i) {
        v1::ActResponse response;
        response.set_fate(v1::ActResponse::FATE_KEPT);
        response.add_findings()->set_problem(std::string{event::problem_words[i]});
        EXPECT_EQ(outcome_of(response).findings.at(0).problem, static_cast<event::Problem>(i));
    }
    v1::ActResponse newer;
    newer.add_findings()->set_problem("of a later year");
    newer.mutable_findings(0)->set_message("the hall is closed");
    EXPECT_EQ(outcome_of(newer).findings.at(0).fault.message, "the hall is closed");
    // An answer without a fate is none.
    EXPECT_EQ(outcome_of(newer).fate, ActOutcome::Fate::failed);
    EXPECT_NE(outcome_of(newer).problem, "");
}

}  // namespace
}  // namespace courthand::venue
