// The record in memory keeps the promises of the source, and does what a test of a screen asks.
#include "venue/memory_event.h"

#include "event_source_contract.h"

namespace courthand::venue {
namespace {

class MemoryTwin final : public EventTwin {
  public:
    EventSource& source() override { return event_; }
    void others_say(const std::vector<event::Said>& facts) override { event_.say(facts); }

  private:
    MemoryEvent event_;
};

event::Said court(std::uint16_t number) {
    event::CourtOpened court;
    court.court = number;
    return {court, ""};
}

ActOutcome acted(MemoryEvent& event, const EventAct& act) {
    ActOutcome outcome;
    event.act(act, [&](const ActOutcome& told) { outcome = told; });
    return outcome;
}

TEST(MemoryEvent, TheNextActFailsOnceWhenItIsTold) {
    MemoryEvent event;
    event.fail_next("The server does not answer.");
    const EventAct act = new_act(0, {court(1)});
    const ActOutcome failed = acted(event, act);
    EXPECT_EQ(failed.fate, ActOutcome::Fate::failed);
    EXPECT_EQ(failed.problem, "The server does not answer.");
    EXPECT_EQ(event.book().state->last(), 0u);
    EXPECT_EQ(acted(event, act).fate, ActOutcome::Fate::kept);
    ASSERT_EQ(event.kept().size(), 1u);
    EXPECT_EQ(event.kept()[0].ids, act.ids);
}

TEST(MemoryEvent, TheNextActIsOvertakenOnceWhenItIsTold) {
    MemoryEvent event;
    event.overtake_next({court(2)});
    const EventAct act = new_act(0, {court(1)});
    ActOutcome looked;
    event.preview(act, [&](const ActOutcome& told) { looked = told; });
    EXPECT_EQ(looked.fate, ActOutcome::Fate::kept) << "a look changes nothing";
    EXPECT_EQ(acted(event, act).fate, ActOutcome::Fate::overtaken);
    EXPECT_EQ(event.book().state->last(), 1u);
    EXPECT_TRUE(event.kept().empty());
    EXPECT_EQ(acted(event, act).fate, ActOutcome::Fate::kept);
}

TEST(MemoryEvent, TheNewBookComesBeforeTheAnswer) {
    MemoryEvent event;
    std::vector<std::string> told;
    event.start({[&](const EventBook& book) {
                     told.push_back("book " + std::to_string(book.state->last()));
                 },
                 {}});
    event.act(new_act(0, {court(1)}), [&](const ActOutcome&) { told.push_back("answer"); });
    EXPECT_EQ(told, (std::vector<std::string>{"book 0", "book 1", "answer"}));
}

}  // namespace

std::unique_ptr<EventTwin> make_event_twin() {
    return std::make_unique<MemoryTwin>();
}

}  // namespace courthand::venue
