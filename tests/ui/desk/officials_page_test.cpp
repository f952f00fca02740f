// Officials at the desk: listed, conflicts of interest declared and taken back, crews, a name
// erased.
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

}  // namespace
}  // namespace courthand::tests
