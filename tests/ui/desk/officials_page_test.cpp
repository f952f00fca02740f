// Officials at the desk: listed, conflicts of interest declared and taken back, crews, a name
// erased.
#include <QKeyEvent>
#include <QQuickItem>
#include <algorithm>
#include <variant>

#include "tournament_fixture.h"

namespace courthand::tests {
namespace {

class OfficialsPageTest : public TournamentTest {
  protected:
    void open_cup() {
        ASSERT_NO_FATAL_FAILURE(
            open(event_case("harbour-cup-24-teams", "result C1 paper 21-12 21-14")));
        event::PersonListed robin;
        robin.person = 7;
        event::PersonListed second;
        second.person = 8;
        second.team = "Mill Lane";
        event->say({{robin, "Official Example"}, {second, {}}});
        screen->key(Qt::Key_F11);
        ASSERT_TRUE(Screen::wait([&] { return rows().count() == 2; }));
    }
    [[nodiscard]] seats::RowList& rows() { return *seat->tournament()->officials()->rows(); }
    [[nodiscard]] QString word(const char* name) {
        auto* const item = screen->peek(QString::fromLatin1(name));
        return item == nullptr ? QString() : item->property("word").toString();
    }
    [[nodiscard]] const std::vector<event::TeamIndex>& declared(std::uint16_t person) {
        return state().persons.at(person).conflicts;
    }
};

TEST_F(OfficialsPageTest, AConflictIsDeclaredWithWhatItClashesWithAndTakenBack) {
    ASSERT_NO_FATAL_FAILURE(open_cup());
    event->say({{event::DutyGiven{"C1", {}, {}, 7, 0}, {}}});
    Screen::settle();
    const std::string side = state().teams[state().side(*state().find_match("C1"), 0).team].name;
    screen->picture(QStringLiteral("officials-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    EXPECT_EQ(screen->nameless(), QStringList());

    // By key alone: Enter on the first, part of the name, Enter, the reason, Enter.
    screen->key(Qt::Key_Return);
    ASSERT_NE(screen->find(QStringLiteral("noConflict")), nullptr);
    screen->type(QStringLiteral("conflictTeamFind"), QString::fromStdString(side));
    screen->key(Qt::Key_Return);
    screen->type(QStringLiteral("conflictWhy"), QStringLiteral("coaches there"));
    screen->picture(QStringLiteral("official-conflict-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->key(Qt::Key_Return);
    EXPECT_EQ(screen->text_of(QStringLiteral("actNote0")),
              QStringLiteral("Clash in C1: Official Example (7) has a conflict of interest with ") +
                  QString::fromStdString(side));
    screen->picture(QStringLiteral("official-conflict-preview-1366"));
    record();
    ASSERT_EQ(declared(7).size(), 1u);
    EXPECT_EQ(book.words->at(state().last()), "coaches there");
    EXPECT_TRUE(Screen::wait([&] {
        return rows().field(0, QStringLiteral("state")).toString() == QStringLiteral("1 clash");
    }));
    EXPECT_NE(screen->find(QStringLiteral("work-clash-C1")), nullptr) << "it waits for the desk";

    // What speaks against a match already is not what the next conflict brings.
    const std::string other = state().teams[state().side(*state().find_match("C1"), 1).team].name;
    auto& page = *seat->tournament()->officials();
    page.look(7);
    page.declare(QString::fromStdString(other), {});
    EXPECT_EQ(seat->tournament()->preview()->notes(),
              (QStringList{QStringLiteral("Clash in C1: Official Example (7) has a conflict of "
                                          "interest with ") +
                           QString::fromStdString(other)}));
    seat->tournament()->preview()->close();
    EXPECT_TRUE(Screen::wait([&] { return screen->peek(QStringLiteral("actNow")) == nullptr; }));

    screen->touch(QStringLiteral("official-person|7"));
    screen->click(QStringLiteral("takeBack-") + QString::fromStdString(side));
    record();
    EXPECT_TRUE(declared(7).empty());
    EXPECT_TRUE(
        Screen::wait([&] { return screen->peek(QStringLiteral("work-clash-C1")) == nullptr; }));
}

TEST_F(OfficialsPageTest, AnOfficialIsListedAndACrewFormed) {
    ASSERT_NO_FATAL_FAILURE(open_cup());
    screen->key(Qt::Key_N, Qt::ControlModifier);
    screen->type(QStringLiteral("officialName"), QStringLiteral("Third Example"));
    screen->type(QStringLiteral("ownTeamFind"), QStringLiteral("tide"));
    screen->click(QStringLiteral("ownTeam-Tidewater"));
    screen->picture(QStringLiteral("official-list-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->click(QStringLiteral("listNow"));
    record();
    ASSERT_TRUE(state().persons.contains(1));
    EXPECT_EQ(state().teams[state().persons.at(1).team].name, "Tidewater");
    EXPECT_EQ(book.words->at(state().last()), "Third Example");

    screen->click(QStringLiteral("newCrew"));
    screen->click(QStringLiteral("member-1"));
    screen->click(QStringLiteral("member-8"));
    screen->click(QStringLiteral("formCrew"));
    EXPECT_EQ(word("crewProblem"), QStringLiteral("Give the crew a name."));
    EXPECT_FALSE(seat->tournament()->preview()->open());
    screen->type(QStringLiteral("crewName"), QStringLiteral("Blue"));
    screen->picture(QStringLiteral("crew-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->click(QStringLiteral("formCrew"));
    ASSERT_NE(screen->find(QStringLiteral("actSays0")), nullptr);
    EXPECT_EQ(word("actSays0"), QStringLiteral("Crew Blue formed, persons: 1, 8"));
    record();
    EXPECT_EQ(state().crews.at("Blue"), (std::vector<std::uint16_t>{1, 8}));

    // Said again with one less.
    screen->touch(QStringLiteral("official-crew|Blue"));
    screen->click(QStringLiteral("member-1"));
    screen->click(QStringLiteral("formCrew"));
    record();
    EXPECT_EQ(state().crews.at("Blue"), (std::vector<std::uint16_t>{8}));
    screen->picture(QStringLiteral("officials-crew-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
}

TEST_F(OfficialsPageTest, ANameIsErasedWithWhatWasNotedAboutThePerson) {
    ASSERT_NO_FATAL_FAILURE(open_cup());
    const auto listed = state().persons.at(7).listed;
    event->say({{event::ConflictDeclared{7, "Quayside"}, "a sister plays there"},
                {event::DutyGiven{"C1", {}, {}, 7, 0}, "asked for by Official Example"},
                {event::DutyGiven{"C2", {}, {}, 8, 0}, "somebody else"}});
    Screen::settle();
    const auto last = state().last();
    const auto facts = state().facts;
    screen->touch(QStringLiteral("official-person|7"));
    screen->click(QStringLiteral("eraseOfficial"));
    EXPECT_EQ(screen->text_of(QStringLiteral("eraseName")), QStringLiteral("Official Example"));
    screen->picture(QStringLiteral("official-erase-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->click(QStringLiteral("eraseNow"));
    EXPECT_TRUE(Screen::wait([&] { return screen->peek(QStringLiteral("eraseNow")) == nullptr; }));
    EXPECT_EQ(state().facts, facts) << "the record stays as it is";
    EXPECT_FALSE(book.words->contains(listed));
    EXPECT_FALSE(book.words->contains(last - 2));
    EXPECT_FALSE(book.words->contains(last - 1));
    EXPECT_TRUE(book.words->contains(last)) << "what was said of another person";
    EXPECT_TRUE(Screen::wait(
        [&] { return rows().field(0, "name").toString() == QStringLiteral("Official 7"); }));
    EXPECT_EQ(screen->peek(QStringLiteral("eraseOfficial")), nullptr);
    // The place of a person may go too: what hangs on it is shown first.
    screen->click(QStringLiteral("takeOff"));
    EXPECT_TRUE(seat->tournament()->preview()->effects().size() > 0);
    record();
    EXPECT_FALSE(state().persons.contains(7));
}

/// The number is the next free one when the act is done, not when it was asked.
TEST_F(OfficialsPageTest, WhoeverIsListedMeanwhileKeepsTheNumber) {
    ASSERT_NO_FATAL_FAILURE(open_cup());
    const auto before = state().persons.size();
    screen->key(Qt::Key_N, Qt::ControlModifier);
    screen->type(QStringLiteral("officialName"), QStringLiteral("Third Example"));
    screen->click(QStringLiteral("listNow"));
    event::PersonListed other;
    other.person = 1;
    event->say({{other, "First Example"}});
    Screen::settle();
    EXPECT_EQ(word("actBetween0"),
              QStringLiteral("The number has been given to somebody else: the next one is free."));
    // Once more, in the moment in which it is recorded.
    other.person = 2;
    event->overtake_next({{other, "Second Example"}});
    read();
    screen->click(QStringLiteral("actNow"));
    EXPECT_TRUE(Screen::wait([&] { return state().persons.contains(2); }));
    EXPECT_NE(screen->peek(QStringLiteral("actNow")), nullptr) << "it is asked again";
    record();
    EXPECT_EQ(state().persons.size(), before + 3);
    const auto& words = *book.words;
    EXPECT_EQ(words.at(state().persons.at(1).listed), "First Example");
    EXPECT_EQ(words.at(state().persons.at(2).listed), "Second Example");
    EXPECT_EQ(words.at(state().persons.at(3).listed), "Third Example");
}

TEST_F(OfficialsPageTest, AnActWhoseAnswerWasLostListsNobodyTwice) {
    ASSERT_NO_FATAL_FAILURE(open_cup());
    const auto before = state().persons.size();
    screen->key(Qt::Key_N, Qt::ControlModifier);
    screen->click(QStringLiteral("listNow"));
    read();
    line->lose_next();
    screen->click(QStringLiteral("actNow"));
    event->say({{event::NoteWritten{"A1", ""}, {}}});
    EXPECT_TRUE(Screen::wait([&] { return screen->peek(QStringLiteral("actNow")) == nullptr; }));
    EXPECT_EQ(state().persons.size(), before + 1);
}

/// A number that somebody had is on papers and beside words: it is not given again.
TEST_F(OfficialsPageTest, TheNumberOfSomebodyTakenOffIsNotGivenAgain) {
    ASSERT_NO_FATAL_FAILURE(open_cup());
    event::PersonListed first;
    first.person = 1;
    event->say({{first, "First Example"}});
    event->say({{event::TakenBack{state().last()}, {}}});
    Screen::settle();
    screen->key(Qt::Key_N, Qt::ControlModifier);
    screen->click(QStringLiteral("listNow"));
    record();
    EXPECT_FALSE(state().persons.contains(1));
    EXPECT_TRUE(state().persons.contains(2));
}

/// Only who was touched is changed in a crew; the others are those of the record by then.
TEST_F(OfficialsPageTest, WhatAnotherDeskDoesToACrewStays) {
    ASSERT_NO_FATAL_FAILURE(open_cup());
    event::PersonListed ninth;
    ninth.person = 9;
    event->say({{ninth, {}}, {event::CrewFormed{"Blue", {7}}, {}}});
    Screen::settle();
    screen->touch(QStringLiteral("official-crew|Blue"));
    screen->touch(QStringLiteral("member-9"));
    event->say({{event::CrewFormed{"Blue", {7, 8}}, {}}});
    Screen::settle();
    EXPECT_TRUE(screen->find(QStringLiteral("member-8"))->property("checked").toBool());
    EXPECT_TRUE(screen->find(QStringLiteral("member-9"))->property("checked").toBool());
    screen->click(QStringLiteral("formCrew"));
    EXPECT_EQ(word("actSays0"), QStringLiteral("Crew Blue formed, persons: 7, 8, 9"));
    event->say({{event::CrewFormed{"Blue", {8}}, {}}});
    Screen::settle();
    EXPECT_EQ(word("actSays0"), QStringLiteral("Crew Blue formed, persons: 8, 9"));
    EXPECT_EQ(word("actBetween0"),
              QStringLiteral("The crew has been changed meanwhile: what you chose is done to it "
                             "as it is now."));
    record();
    EXPECT_EQ(state().crews.at("Blue"), (std::vector<std::uint16_t>{8, 9}));
}

TEST_F(OfficialsPageTest, TwoDesksDoNotFormACrewOfOneName) {
    ASSERT_NO_FATAL_FAILURE(open_cup());
    screen->click(QStringLiteral("newCrew"));
    screen->click(QStringLiteral("member-7"));
    screen->type(QStringLiteral("crewName"), QStringLiteral("Blue"));
    screen->click(QStringLiteral("formCrew"));
    event->say({{event::CrewFormed{"Blue", {8}}, {}}});
    Screen::settle();
    EXPECT_EQ(word("actFinding0"),
              QStringLiteral("There is a crew Blue already: open it in the list."));
    EXPECT_FALSE(screen->find(QStringLiteral("actNow"))->isEnabled());
}

TEST_F(OfficialsPageTest, ACrewWithSomebodyTakenOffTheListIsMendedOnItsSheet) {
    ASSERT_NO_FATAL_FAILURE(open_cup());
    event->say({{event::CrewFormed{"Blue", {7, 8}}, {}}});
    Screen::settle();
    screen->touch(QStringLiteral("official-crew|Blue"));
    event->say({{event::TakenBack{state().persons.at(7).listed}, {}}});
    Screen::settle();
    EXPECT_EQ(screen->text_of(QStringLiteral("member-7")),
              QStringLiteral("person 7, off the list"));
    screen->click(QStringLiteral("formCrew"));
    EXPECT_NE(word("actFinding0"), QString()) << "somebody who is not there";
    screen->key(Qt::Key_Escape);
    EXPECT_TRUE(Screen::wait([&] { return screen->peek(QStringLiteral("actNow")) == nullptr; }));
    screen->touch(QStringLiteral("member-7"));
    screen->picture(QStringLiteral("crew-mended-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->click(QStringLiteral("formCrew"));
    record();
    EXPECT_EQ(state().crews.at("Blue"), (std::vector<std::uint16_t>{8}));
}

/// Tab and Space alone: the button that was pressed keeps the focus.
TEST_F(OfficialsPageTest, ACrewIsFormedByTabAndSpace) {
    ASSERT_NO_FATAL_FAILURE(open_cup());
    screen->click(QStringLiteral("newCrew"));
    const auto at = [&] {
        auto* const item = screen->window().activeFocusItem();
        return item == nullptr ? QString() : item->objectName();
    };
    const auto go_to = [&](const char* name) {
        for (int i = 0; i < 8 && at() != QString::fromLatin1(name); ++i) screen->key(Qt::Key_Tab);
        EXPECT_EQ(at(), QString::fromLatin1(name));
    };
    screen->type(QStringLiteral("crewName"), QStringLiteral("Blue"));
    for (const char* member : {"member-7", "member-8"}) {
        go_to(member);
        screen->key(Qt::Key_Space);
        EXPECT_EQ(at(), QString::fromLatin1(member)) << "the focus stays";
    }
    screen->key(Qt::Key_Space);
    EXPECT_FALSE(screen->find(QStringLiteral("member-8"))->property("checked").toBool());
    screen->key(Qt::Key_Space);
    go_to("formCrew");
    screen->key(Qt::Key_Space);
    record();
    EXPECT_EQ(state().crews.at("Blue"), (std::vector<std::uint16_t>{7, 8}));
}

/// Listed twice, as by an import after a correction: off the list is off the list.
TEST_F(OfficialsPageTest, WhoeverIsTakenOffIsOffHoweverOftenListed) {
    ASSERT_NO_FATAL_FAILURE(open_cup());
    event::PersonListed again;
    again.person = 7;
    again.team = "Quayside";
    event->say({{again, "Corrected Example"}});
    Screen::settle();
    screen->touch(QStringLiteral("official-person|7"));
    screen->click(QStringLiteral("takeOff"));
    // Another desk corrects once more before it is recorded.
    event->say({{again, {}}});
    Screen::settle();
    record();
    EXPECT_FALSE(state().persons.contains(7));
}

TEST_F(OfficialsPageTest, TheNameOfSomebodyTakenOffIsToldAndCanBeErased) {
    ASSERT_NO_FATAL_FAILURE(open_cup());
    const auto listed = state().persons.at(7).listed;
    event->say({{event::ConflictDeclared{7, "Quayside"}, "a sister plays there"}});
    Screen::settle();
    screen->touch(QStringLiteral("official-person|7"));
    screen->click(QStringLiteral("takeOff"));
    EXPECT_TRUE(word("actNote0")
                    .startsWith(QStringLiteral("What was written about this person "
                                               "stays beside the record")));
    screen->picture(QStringLiteral("official-off-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    record();
    EXPECT_TRUE(book.words->contains(listed));
    ASSERT_TRUE(Screen::wait([&] { return rows().rowOf(QStringLiteral("left|7")) >= 0; }));
    screen->picture(QStringLiteral("officials-left-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->touch(QStringLiteral("official-left|7"));
    EXPECT_EQ(screen->text_of(QStringLiteral("eraseName")), QStringLiteral("Official Example"));
    screen->click(QStringLiteral("eraseNow"));
    EXPECT_TRUE(Screen::wait([&] { return rows().rowOf(QStringLiteral("left|7")) < 0; }));
    EXPECT_TRUE(event->book().words->empty());
}

TEST_F(OfficialsPageTest, TheNumberPadOpensALineToo) {
    ASSERT_NO_FATAL_FAILURE(open_cup());
    QKeyEvent held(QEvent::KeyPress, Qt::Key_Enter, Qt::NoModifier, QStringLiteral("\r"), true);
    QCoreApplication::sendEvent(&screen->window(), &held);
    Screen::settle();
    EXPECT_EQ(screen->peek(QStringLiteral("takeOff")), nullptr) << "a key that is held";
    screen->key(Qt::Key_Enter);
    EXPECT_NE(screen->find(QStringLiteral("takeOff")), nullptr);
}

}  // namespace
}  // namespace courthand::tests
