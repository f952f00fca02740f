// What the calls of the tournament's record take and refuse, and what they answer.
#include "server/service/tournament_message.h"

#include <gtest/gtest.h>

#include <functional>

#include "server/testing/or_throw.h"
#include "wire/event_convert.h"
#include "wire/tournament_limits.h"

namespace courthand::server::service {
namespace {

using tournament::Outcome;

v1::ActRequest request(int facts = 1) {
    v1::ActRequest request;
    request.set_author("desk 2");
    request.set_device_time_us(1'700'000'000'000'000);
    request.set_seen(7);
    for (int i = 0; i < facts; ++i) {
        v1::ActFact& fact = *request.add_facts();
        fact.set_fact_id(to_bytes(new_uuid()));
        wire::to_proto(event::NoteWritten{"A1", ""}, *fact.mutable_fact());
        fact.set_words("The floor is wet.");
    }
    return request;
}

TEST(TournamentMessage, AnActIsReadAsItWasSaid) {
    const v1::ActRequest sent = request(2);
    const DeviceId device{new_uuid()};
    const auto act = value_or_throw(act_of(sent, device));
    EXPECT_EQ(act.device, device);
    EXPECT_EQ(act.author, "desk 2");
    EXPECT_EQ(act.device_time_us, 1'700'000'000'000'000);
    EXPECT_EQ(act.seen, 7u);
    ASSERT_EQ(act.facts.size(), 2u);
    EXPECT_EQ(to_bytes(act.facts[1].id.value), sent.facts(1).fact_id());
    EXPECT_EQ(act.facts[1].said, (event::Said{event::NoteWritten{"A1", ""}, "The floor is wet."}));
}

struct BadAct {
    const char* names;  ///< what the message must name
    std::function<void(v1::ActRequest&)> spoil;
};

TEST(TournamentMessage, AnActThatCannotBeReadIsRefusedWithItsPlaceAndACure) {
    const std::vector<BadAct> bad{
        {"author", [](auto& act) { act.clear_author(); }},
        {"author", [](auto& act) { act.set_author(std::string(65, 'x')); }},
        {"author", [](auto& act) { act.set_author("desk\a2"); }},
        {"1 to 1024", [](auto& act) { act.clear_facts(); }},
        {"1 to 1024", [](auto& act) { act = request(1025); }},
        {"facts[0].fact_id", [](auto& act) { act.mutable_facts(0)->clear_fact_id(); }},
        {"facts[0].fact_id",
         [](auto& act) { act.mutable_facts(0)->set_fact_id(std::string(16, '\0')); }},
        {"facts[0].", [](auto& act) { act.mutable_facts(0)->clear_fact(); }},
        {"facts[0].",
         [](auto& act) {
             act.mutable_facts(0)->mutable_fact()->mutable_note_written()->set_match(
                 std::string(49, 'A'));
         }},
        {"facts[0].words",
         [](auto& act) { act.mutable_facts(0)->set_words(std::string(501, 'x')); }},
        {"facts[0].words", [](auto& act) { act.mutable_facts(0)->set_words("\x01"); }},
        {"more than 64",
         [](auto& act) {
             act = request(65);
             for (auto& fact : *act.mutable_facts())
                 fact.mutable_fact()->mutable_taken_back()->set_fact(3);
         }},
        {"larger than",
         [](auto& act) {
             // More than any act has, in fields that this program does not know.
             act.GetReflection()->MutableUnknownFields(&act)->AddLengthDelimited(
                 99, std::string(wire::most_act_bytes, 'x'));
         }},
    };
    for (const BadAct& one : bad) {
        v1::ActRequest act = request();
        one.spoil(act);
        const Status status = act_of(act, DeviceId{new_uuid()}).status();
        EXPECT_EQ(status.code, StatusCode::invalid) << one.names;
        EXPECT_NE(status.message.find(one.names), std::string::npos) << status.message;
        EXPECT_FALSE(status.cure.empty()) << one.names;
    }
    EXPECT_TRUE(act_of(request(wire::most_act_facts), {}).ok());
}

TEST(TournamentMessage, AWatchBeginsAnewOrBehindAFactThatItNames) {
    v1::WatchRecordRequest watch;
    EXPECT_EQ(value_or_throw(record_wish(watch, true)).from, tournament::FactHead{});
    watch.set_after(3);
    EXPECT_EQ(record_wish(watch, true).status().code, StatusCode::invalid);
    watch.set_after_hash(std::string(32, 'h'));
    const RecordWish wish = value_or_throw(record_wish(watch, false));
    EXPECT_EQ(wish.from.number, 3u);
    EXPECT_EQ(wish.from.hash[31], 'h');
    EXPECT_FALSE(wish.with_words);
    for (const std::size_t bytes : {31u, 33u}) {
        watch.set_after_hash(std::string(bytes, 'h'));
        EXPECT_EQ(record_wish(watch, true).status().code, StatusCode::invalid);
    }
    watch.set_after(0);
    watch.set_after_hash(std::string(32, 'h'));
    EXPECT_EQ(record_wish(watch, true).status().code, StatusCode::invalid);
}

TEST(TournamentMessage, WordsAreErasedOfANamedNumberOfFacts) {
    v1::EraseWordsRequest erase;
    erase.set_author("desk 1");
    EXPECT_EQ(facts_to_erase(erase).status().code, StatusCode::invalid);
    erase.add_facts(4);
    EXPECT_EQ(value_or_throw(facts_to_erase(erase)), std::vector<tournament::FactNumber>{4});
    while (erase.facts_size() <= static_cast<int>(wire::most_erased_facts)) erase.add_facts(1);
    EXPECT_EQ(facts_to_erase(erase).status().code, StatusCode::invalid);
    erase.mutable_facts()->RemoveLast();
    EXPECT_TRUE(facts_to_erase(erase).ok());
    erase.clear_author();
    EXPECT_EQ(facts_to_erase(erase).status().code, StatusCode::invalid);
}

TEST(TournamentMessage, AnOutcomeIsToldAsFarAsAPersonReads) {
    Outcome outcome;
    outcome.fate = Outcome::Fate::overtaken;
    outcome.first = 8;
    outcome.last = 9;
    // A letter of two bytes stands across the limit.
    const std::string long_text = std::string(499, 'x') + "é and more";
    for (event::FactNumber i = 1; i <= 1500; ++i) {
        outcome.findings.push_back(
            {i, event::Problem::score_impossible, {"match A1", long_text, "correct it"}});
        outcome.effects.facts.push_back(i);
        outcome.effects.matches.push_back("A" + std::to_string(i));
        outcome.effects.places.push_back("place " + std::to_string(i));
    }
    const v1::ActResponse response = to_message(outcome);
    EXPECT_EQ(response.fate(), v1::ActResponse::FATE_OVERTAKEN);
    EXPECT_EQ(response.first(), 8u);
    EXPECT_EQ(response.last(), 9u);
    EXPECT_EQ(response.findings_size(), 100);
    EXPECT_EQ(response.finding_count(), 1500u);
    EXPECT_EQ(response.findings(99).fact(), 100u);
    EXPECT_EQ(response.findings(0).problem(), "score-impossible");
    EXPECT_EQ(response.findings(0).message(), std::string(499, 'x'));
    EXPECT_EQ(response.findings(0).cure(), "correct it");
    EXPECT_EQ(response.facts_undone_size(), 1000);
    EXPECT_EQ(response.matches_changed(999), "A1000");
    EXPECT_EQ(response.places_changed_size(), 1000);
}

TEST(TournamentMessage, TheAuditNamesWhatWasSaidButNotTheWordsBesideIt) {
    const v1::ActRequest act = request(3);
    const ActWords words = words_of(act);
    EXPECT_EQ(words.act, "act");
    EXPECT_EQ(words.subject, id_text(act.facts(0).fact_id()));
    EXPECT_EQ(words.detail, "desk 2: note_written and 2 more");
    EXPECT_EQ(words_of(v1::ActRequest{}).subject, "no fact");
    v1::EraseWordsRequest erase;
    erase.set_author("desk 1");
    erase.add_facts(4);
    erase.add_facts(7);
    EXPECT_EQ(words_of(erase).act, "erase-words");
    EXPECT_EQ(words_of(erase).subject, "facts 4, 7");
    EXPECT_EQ(words_of(erase).detail, "desk 1");
}

TEST(TournamentMessage, AnActOfWhichNothingWasKeptIsNoActInTheAudit) {
    Outcome outcome;
    EXPECT_EQ(nothing_done(to_message(outcome)), "");
    outcome.fate = Outcome::Fate::had;
    EXPECT_NE(nothing_done(to_message(outcome)), "");
    outcome.fate = Outcome::Fate::overtaken;
    EXPECT_NE(nothing_done(to_message(outcome)), "");
}

}  // namespace
}  // namespace courthand::server::service
