// What every twin of the source of the tournament's record promises to a screen. Each test program
// gives `EventTwin` a way to make its source.
#pragma once

#include <gtest/gtest.h>

#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "courthand/event/fold.h"
#include "tests/testkit/eventually.h"
#include "venue/event_act.h"
#include "venue/event_source.h"

namespace courthand::venue {

class EventTwin {
  public:
    virtual ~EventTwin() = default;
    virtual EventSource& source() = 0;
    /// Another desk says this, whatever it has seen.
    virtual void others_say(const std::vector<event::Said>& facts) = 0;
};
[[nodiscard]] std::unique_ptr<EventTwin> make_event_twin();

class EventSourceContract : public ::testing::Test {
  protected:
    using Fate = ActOutcome::Fate;
    using Said = event::Said;

    ~EventSourceContract() override { twin_->source().stop(); }

    void start() {
        twin_->source().start({[this](const EventBook& book) {
                                   const std::scoped_lock lock{mutex_};
                                   book_ = book;
                                   ++books_;
                               },
                               [this](const Link& link) {
                                   const std::scoped_lock lock{mutex_};
                                   link_ = link;
                               }});
    }
    EventBook book() {
        const std::scoped_lock lock{mutex_};
        return book_.value_or(EventBook{});
    }
    int books() {
        const std::scoped_lock lock{mutex_};
        return books_;
    }
    Link link() {
        const std::scoped_lock lock{mutex_};
        return link_;
    }
    ::testing::AssertionResult comes_to(event::FactNumber last) {
        return testkit::eventually(
            [&] { return book().whole && book().state->last() == last && books() > 0; });
    }

    /// What a request is answered, waited for.
    template <class Outcome, class Ask>
    static Outcome answer(const Ask& ask) {
        struct Wait {
            std::mutex mutex;
            std::condition_variable news;
            std::optional<Outcome> outcome;
        };
        const auto wait = std::make_shared<Wait>();
        ask([wait](const Outcome& outcome) {
            const std::scoped_lock lock{wait->mutex};
            wait->outcome = outcome;
            wait->news.notify_all();
        });
        std::unique_lock lock{wait->mutex};
        if (!wait->news.wait_for(lock, testkit::patience,
                                 [&] { return wait->outcome.has_value(); })) {
            ADD_FAILURE() << "no answer has come";
            return {};
        }
        return *wait->outcome;
    }
    ActOutcome act(const EventAct& what) {
        return answer<ActOutcome>([&](auto told) { twin_->source().act(what, std::move(told)); });
    }
    ActOutcome preview(const EventAct& what) {
        return answer<ActOutcome>(
            [&](auto told) { twin_->source().preview(what, std::move(told)); });
    }
    Outcome erase(const std::vector<event::FactNumber>& facts) {
        return answer<Outcome>(
            [&](auto told) { twin_->source().erase_words(facts, std::move(told)); });
    }

    static Said court(std::uint16_t number, std::string name = {}) {
        event::CourtOpened court;
        court.court = number;
        court.name = std::move(name);
        return {court, ""};
    }
    static Said note(std::string words) { return {event::NoteWritten{}, std::move(words)}; }
    static std::vector<Said> pool() {
        event::DivisionOpened division;
        division.division = "U16";
        division.profile = "international-2025";
        division.chain = "international-2017";
        std::vector<Said> facts{{division, ""}};
        for (const char* team : {"Mill Lane", "Quayside", "Saltmarsh", "Harbour Lights"})
            facts.push_back({event::TeamEntered{team, "U16", ""}, ""});
        event::DrawMade draw;
        draw.division = "U16";
        facts.push_back({draw, ""});
        return facts;
    }
    Said result(std::uint16_t loser_points) {
        event::ResultConfirmed confirmed;
        confirmed.match = book().state->match_names.begin()->first;
        confirmed.from = event::ResultFrom::paper;
        confirmed.sets.assign(3, {25, loser_points});
        return {confirmed, ""};
    }

    std::unique_ptr<EventTwin> twin_ = make_event_twin();

  private:
    std::mutex mutex_;
    std::optional<EventBook> book_;
    int books_ = 0;
    Link link_;
};

TEST_F(EventSourceContract, TheRecordComesWholeWithWhatWasThere) {
    twin_->others_say({court(1), note("The floor is wet.")});
    start();
    ASSERT_TRUE(comes_to(2));
    EXPECT_EQ(link(), (Link{LinkState::live, {}}));
    EXPECT_EQ(*book().words, (EventBook::Words{{2, "The floor is wet."}}));
    twin_->others_say({court(2)});
    ASSERT_TRUE(comes_to(3));
    EXPECT_EQ(book().state->courts.size(), 2u);
    EXPECT_EQ(*book().state, event::fold(book().state->facts));
}

TEST_F(EventSourceContract, AnEmptyRecordIsABookToo) {
    start();
    ASSERT_TRUE(comes_to(0));
    EXPECT_TRUE(book().whole);
}

TEST_F(EventSourceContract, AnActIsKeptAndShown) {
    start();
    ASSERT_TRUE(comes_to(0));
    const ActOutcome outcome = act(new_act(0, {court(1), note("The floor is wet.")}));
    EXPECT_EQ(outcome.fate, Fate::kept) << outcome.problem;
    EXPECT_TRUE(outcome.findings.empty());
    ASSERT_TRUE(comes_to(2));
    EXPECT_EQ(*book().words, (EventBook::Words{{2, "The floor is wet."}}));
}

TEST_F(EventSourceContract, ARetryIsHadAndKeptOnce) {
    start();
    ASSERT_TRUE(comes_to(0));
    const EventAct once = new_act(0, {court(1)});
    EXPECT_EQ(act(once).fate, Fate::kept);
    EXPECT_EQ(act(once).fate, Fate::had);
    EXPECT_EQ(preview(once).fate, Fate::had);
    EventAct other = once;
    other.facts = {court(2)};
    const ActOutcome refused = act(other);
    EXPECT_EQ(refused.fate, Fate::failed);
    EXPECT_FALSE(refused.problem.empty());
    EventAct more = once;
    more.facts.push_back(court(3));
    more.ids.push_back(new_act(0, {court(3)}).ids.front());
    EXPECT_EQ(act(more).fate, Fate::failed);
    twin_->others_say({court(4)});
    ASSERT_TRUE(comes_to(2));
}

TEST_F(EventSourceContract, APreviewTellsWhatTheActWouldDoAndKeepsNothing) {
    twin_->others_say(pool());
    start();
    ASSERT_TRUE(comes_to(6));
    const EventAct wanted = new_act(6, {result(20)});
    const ActOutcome before = preview(wanted);
    EXPECT_EQ(before.fate, Fate::kept) << before.problem;
    EXPECT_FALSE(before.effects.matches.empty());
    const ActOutcome kept = act(wanted);
    EXPECT_EQ(kept.fate, Fate::kept);
    EXPECT_EQ(kept.effects, before.effects);
    ASSERT_TRUE(comes_to(7));
}

TEST_F(EventSourceContract, WhatCameBetweenOvertakesAnActThatItChanges) {
    twin_->others_say(pool());
    start();
    ASSERT_TRUE(comes_to(6));
    const EventAct late = new_act(6, {result(15)});
    twin_->others_say({result(20)});
    const ActOutcome outcome = act(late);
    EXPECT_EQ(outcome.fate, Fate::overtaken) << outcome.problem;
    ASSERT_EQ(outcome.findings.size(), 1u);
    EXPECT_EQ(outcome.findings[0].problem, event::Problem::result_there);
    EXPECT_FALSE(outcome.findings[0].fault.message.empty());
    // What it does not change goes in all the same.
    EXPECT_EQ(act(new_act(6, {court(9)})).fate, Fate::kept);
    ASSERT_TRUE(comes_to(8));
}

TEST_F(EventSourceContract, AFactWithoutEffectIsKeptAndToldWhy) {
    start();
    ASSERT_TRUE(comes_to(0));
    const ActOutcome outcome = act(new_act(0, {{event::ResultReopened{"Z9"}, "A slip."}}));
    EXPECT_EQ(outcome.fate, Fate::kept) << outcome.problem;
    ASSERT_EQ(outcome.findings.size(), 1u);
    EXPECT_EQ(outcome.findings[0].problem, event::Problem::unknown_match);
    EXPECT_EQ(outcome.findings[0].fact, 1u);
    ASSERT_TRUE(comes_to(1));
    EXPECT_EQ(book().state->findings, outcome.findings);
}

TEST_F(EventSourceContract, AFrozenListChangesForAReasonOnly) {
    event::DivisionOpened division;
    division.division = "U16";
    division.profile = "international-2025";
    division.chain = "international-2017";
    twin_->others_say({{division, ""},
                       {event::TeamEntered{"Mill Lane", "U16", ""}, ""},
                       {event::RosterFrozen{"Mill Lane", {1, 2}}, ""}});
    start();
    ASSERT_TRUE(comes_to(3));
    const Said changed{event::RosterFrozen{"Mill Lane", {1, 3}}, ""};
    const ActOutcome looked = preview(new_act(3, {changed}));
    ASSERT_EQ(looked.findings.size(), 1u) << looked.problem;
    EXPECT_EQ(looked.findings[0].problem, event::Problem::reason_missing);
    const ActOutcome refused = act(new_act(3, {changed}));
    EXPECT_EQ(refused.fate, Fate::failed);
    EXPECT_NE(refused.problem.find("Mill Lane"), std::string::npos) << refused.problem;
    EXPECT_NE(refused.problem.find("reason"), std::string::npos) << refused.problem;
    EXPECT_EQ(act(new_act(3, {{changed.fact, "number 2 is ill"}})).fate, Fate::kept);
    ASSERT_TRUE(comes_to(4));
}

TEST_F(EventSourceContract, WhatCannotBeActedSaysWhy) {
    start();
    ASSERT_TRUE(comes_to(0));
    EventAct nameless = new_act(0, {court(1)});
    nameless.ids.clear();
    for (const EventAct& bad : {new_act(0, {}), nameless, new_act(7, {court(1)})}) {
        const ActOutcome outcome = act(bad);
        EXPECT_EQ(outcome.fate, Fate::failed);
        EXPECT_FALSE(outcome.problem.empty());
    }
    twin_->others_say({court(1)});
    ASSERT_TRUE(comes_to(1));
}

TEST_F(EventSourceContract, ErasedWordsAreGoneAndTheFactsStay) {
    twin_->others_say({note("Anna Example"), note("Ben Example"), court(1)});
    start();
    ASSERT_TRUE(comes_to(3));
    const EventBook before = book();
    EXPECT_TRUE(erase({1, 3}).done);
    ASSERT_TRUE(testkit::eventually([&] { return book().words->size() == 1; }));
    EXPECT_EQ(*book().words, (EventBook::Words{{2, "Ben Example"}}));
    EXPECT_EQ(book().state->last(), 3u);
    EXPECT_EQ(before.words->size(), 2u) << "a book never changes";
    EXPECT_TRUE(erase({1}).done) << "asked for twice, it is done";
}

TEST_F(EventSourceContract, AfterItsEndNothingIsTold) {
    start();
    ASSERT_TRUE(comes_to(0));
    twin_->source().stop();
    const int told = books();
    twin_->others_say({court(1)});
    EXPECT_EQ(books(), told);
    // Started again, it tells what came meanwhile.
    start();
    ASSERT_TRUE(comes_to(1));
}

}  // namespace courthand::venue
