// One out of many: what Enter takes of what was typed, and what a touch or a key leaves as it is.
#include <QKeyEvent>
#include <QQuickItem>
#include <initializer_list>

#include "tournament_fixture.h"

namespace courthand::tests {
namespace {

class PickTest : public TournamentTest {
  protected:
    void open_duty() {
        auto facts = event_case("harbour-cup-24-teams", "result C1 paper 21-12 21-14");
        for (const auto number : std::initializer_list<std::uint16_t>{1, 10, 11}) {
            event::PersonListed official;
            official.person = number;
            facts.push_back({official, {}});
        }
        ASSERT_NO_FATAL_FAILURE(open(std::move(facts)));
        screen->key(Qt::Key_F8);
        screen->touch(QStringLiteral("result-C2"));
        screen->click(QStringLiteral("whoWorks"));
        ASSERT_NE(screen->find(QStringLiteral("workersFind")), nullptr);
    }
    void open_list() {
        ASSERT_NO_FATAL_FAILURE(
            open(event_case("harbour-cup-24-teams", "result C1 paper 21-12 21-14")));
        screen->key(Qt::Key_F11);
        screen->key(Qt::Key_N, Qt::ControlModifier);
        ASSERT_NE(screen->find(QStringLiteral("ownTeamFind")), nullptr);
    }
    void write(const char* field, const char* typed) {
        const QString name = QString::fromLatin1(field);
        screen->find(name)->setProperty("text", QString());
        screen->type(name, QString::fromLatin1(typed));
    }
    [[nodiscard]] bool checked(const char* name) {
        return screen->find(QString::fromLatin1(name))->property("checked").toBool();
    }
    [[nodiscard]] QString at() {
        auto* const item = screen->window().activeFocusItem();
        return item == nullptr ? QString() : item->objectName();
    }
    void hold(Qt::Key key) {
        QKeyEvent held(QEvent::KeyPress, key, Qt::NoModifier, QStringLiteral("\r"), true);
        QCoreApplication::sendEvent(&screen->window(), &held);
        Screen::settle();
    }
};

TEST_F(PickTest, EnterTakesWhatBeginsAsItWasTyped) {
    ASSERT_NO_FATAL_FAILURE(open_duty());
    const auto workers = [&] { return seat->tournament()->duties()->workers().toStdString(); };
    struct Typed {
        const char* typed;
        const char* chosen;
    };
    const Typed all[] = {{"bo", "Boathouse"},
                         {"mill", "Mill Lane"},
                         // Mill Lane is chosen and stands first.
                         {"lan", "Lantern Hill"},
                         {"bed", "Oyster Bed"},
                         // The beginning of "nobody" is not yet nobody.
                         {"no", "Oyster Bed"},
                         {"nobody", ""},
                         {"QUAY", "Quayside"},
                         {"copper", "Copper Quay"},
                         {"xyz", "Copper Quay"}};
    for (const Typed& each : all) {
        write("workersFind", each.typed);
        screen->key(Qt::Key_Return);
        EXPECT_EQ(workers(), each.chosen) << each.typed;
    }
    // A number is meant whole before it is the beginning of another.
    write("firstFind", "10");
    screen->key(Qt::Key_Return);
    EXPECT_EQ(seat->tournament()->duties()->firstReferee(), QStringLiteral("10"));
    write("firstFind", "1");
    screen->key(Qt::Key_Return);
    EXPECT_EQ(seat->tournament()->duties()->firstReferee(), QStringLiteral("1"));
}

TEST_F(PickTest, EnterChoosesAndNeverTakesAway) {
    ASSERT_NO_FATAL_FAILURE(open_list());
    write("ownTeamFind", "tide");
    screen->key(Qt::Key_Return);
    EXPECT_TRUE(checked("ownTeam-Tidewater"));
    hold(Qt::Key_Return);
    EXPECT_TRUE(checked("ownTeam-Tidewater")) << "held";
    EXPECT_FALSE(seat->tournament()->preview()->open());
    screen->key(Qt::Key_Return);
    EXPECT_TRUE(checked("ownTeam-Tidewater")) << "twice: it goes on with what is chosen";
    EXPECT_TRUE(seat->tournament()->preview()->open());
    record();
    EXPECT_EQ(state().teams[state().persons.at(1).team].name, "Tidewater");

    // And it can be taken away again, by its own button.
    screen->key(Qt::Key_N, Qt::ControlModifier);
    screen->touch(QStringLiteral("ownTeam-Mill Lane"));
    EXPECT_FALSE(checked("ownTeam-"));
    screen->touch(QStringLiteral("ownTeam-"));
    screen->click(QStringLiteral("listNow"));
    record();
    EXPECT_EQ(state().persons.at(2).team, event::no_team);
}

TEST_F(PickTest, AKeyThatIsHeldIsOnePress) {
    ASSERT_NO_FATAL_FAILURE(open_list());
    write("officialName", "Third Example");
    hold(Qt::Key_Return);
    hold(Qt::Key_Enter);
    EXPECT_FALSE(seat->tournament()->preview()->open());
    screen->key(Qt::Key_Enter);
    EXPECT_TRUE(seat->tournament()->preview()->open());
}

TEST_F(PickTest, WhatIsChosenShowsItHoweverOftenItIsTouched) {
    ASSERT_NO_FATAL_FAILURE(open_duty());
    screen->touch(QStringLiteral("first-10"));
    EXPECT_TRUE(checked("first-10"));
    screen->touch(QStringLiteral("first-10"));
    EXPECT_TRUE(checked("first-10"));
    EXPECT_EQ(seat->tournament()->duties()->firstReferee(), QStringLiteral("10"));
    screen->key(Qt::Key_Escape);
    screen->key(Qt::Key_Escape);
    screen->key(Qt::Key_F11);
    screen->key(Qt::Key_N, Qt::ControlModifier);
    screen->touch(QStringLiteral("role-official"));
    EXPECT_TRUE(checked("role-official"));
}

/// What is chosen comes to stand first: the focus goes with it.
TEST_F(PickTest, TheFocusStaysWithWhatWasChosen) {
    ASSERT_NO_FATAL_FAILURE(open_duty());
    screen->find(QStringLiteral("firstFind"))->forceActiveFocus();
    for (int i = 0; i < 40 && at() != QStringLiteral("first-10"); ++i) screen->key(Qt::Key_Tab);
    ASSERT_EQ(at(), QStringLiteral("first-10"));
    screen->key(Qt::Key_Space);
    EXPECT_EQ(at(), QStringLiteral("first-10"));
    EXPECT_TRUE(checked("first-10"));
    // Others are listed and taken off meanwhile.
    event::PersonListed other;
    other.person = 2;
    event->say({{other, {}}, {event::TakenBack{state().persons.at(1).listed}, {}}});
    Screen::settle();
    EXPECT_EQ(at(), QStringLiteral("first-10"));
    screen->key(Qt::Key_Space);
    EXPECT_EQ(seat->tournament()->duties()->firstReferee(), QStringLiteral("10"));
}

}  // namespace
}  // namespace courthand::tests
