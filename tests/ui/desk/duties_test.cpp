// Who works a match: shown in its row and on its sheet, given by a sheet that tells clashes first.
#include <QQuickItem>
#include <variant>

#include "courthand/event/duty.h"
#include "tests/testkit/small_cup.h"
#include "tournament_fixture.h"

namespace courthand::tests {
namespace {

std::string cup() {
    return "# memory\n" + testkit::six_teams() +
           "draw U16 serpentine pools 2\n"
           "court 1\ncourt 2\n"
           "place A1 court 1 at 2026-11-28T09:00\n"
           "place B1 court 2 at 2026-11-28T09:00\n"
           "place A2 court 1 at 2026-11-28T10:00\n"
           "person 3 official\n"
           "person 4 official team \"Mill Lane\"\n"
           "crew \"Blue\" persons 3\n"
           "conflict 3 with \"Ropewalk\"\n";
}

class DutiesTest : public TournamentTest {
  protected:
    void open_results() {
        ASSERT_NO_FATAL_FAILURE(open(event_of(cup())));
        screen->key(Qt::Key_F8);
        ASSERT_TRUE(
            Screen::wait([&] { return seat->tournament()->results()->rows()->count() == 6; }));
    }
    [[nodiscard]] QString place(const char* match) {
        auto& rows = *seat->tournament()->results()->rows();
        return rows.field(rows.rowOf(QString::fromLatin1(match)), QStringLiteral("place"))
            .toString();
    }
    [[nodiscard]] const event::Duty& duty(const char* match) {
        return state().match(*state().find_match(match)).duty;
    }
    [[nodiscard]] QString word(const char* name) {
        auto* const item = screen->peek(QString::fromLatin1(name));
        return item == nullptr ? QString() : item->property("word").toString();
    }
};

TEST_F(DutiesTest, TheRowShowsThePoolsWorkersUntilTheDeskSaysOtherwise) {
    ASSERT_NO_FATAL_FAILURE(open_results());
    EXPECT_EQ(place("A1"), QStringLiteral("Court 1, 2026-11-28 09:00 · work: Quayside"));
    screen->picture(QStringLiteral("results-work-1366"));
    EXPECT_EQ(screen->cut(), QStringList());

    // By key: W on the first row, a name, Enter; the clash stands there before anything is asked.
    screen->key(Qt::Key_W);
    ASSERT_NE(screen->find(QStringLiteral("workersFind")), nullptr);
    EXPECT_EQ(screen->text_of(QStringLiteral("dutyNow0")),
              QStringLiteral("Work team by the pool’s order: Quayside"));
    EXPECT_EQ(word("clash0"), QString());
    screen->type(QStringLiteral("workersFind"), QStringLiteral("mill"));
    screen->key(Qt::Key_Return);
    const auto b1 = *state().find_match("B1");
    const bool mill_plays = state().teams[state().side(b1, 0).team].name == "Mill Lane" ||
                            state().teams[state().side(b1, 1).team].name == "Mill Lane";
    EXPECT_TRUE(mill_plays);
    EXPECT_EQ(word("clash0"), QStringLiteral("Clash: Mill Lane plays B1 at this time"));
    screen->click(QStringLiteral("first-3"));
    screen->click(QStringLiteral("second-4"));
    EXPECT_EQ(word("clash1"), QStringLiteral("Clash: official 3 has a conflict of interest with "
                                             "Ropewalk"));
    screen->picture(QStringLiteral("duty-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    EXPECT_EQ(screen->nameless(), QStringList());
    screen->click(QStringLiteral("giveDuty"));
    EXPECT_EQ(screen->text_of(QStringLiteral("actNote0")),
              QStringLiteral("Clash: Mill Lane plays B1 at this time"));
    EXPECT_EQ(duty("A1").fact, 0U) << "nothing is recorded before it was read";
    screen->picture(QStringLiteral("duty-preview-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    record();
    EXPECT_EQ(duty("A1").workers.of, "Mill Lane");
    EXPECT_EQ(duty("A1").first_referee, 3);
    EXPECT_EQ(duty("A1").second_referee, 4);
    EXPECT_TRUE(Screen::wait([&] {
        return place("A1") ==
               QStringLiteral("Court 1, 2026-11-28 09:00 · work: Mill Lane · referees 3, 4");
    }));

    // The work list leads back to the sheet.
    screen->touch(QStringLiteral("work-clash-A1"));
    screen->click(QStringLiteral("first-0"));
    screen->type(QStringLiteral("workersFind"), QStringLiteral("quay"));
    screen->click(QStringLiteral("workers-Quayside"));
    EXPECT_EQ(word("clash0"), QString());
    screen->click(QStringLiteral("giveDuty"));
    record();
    EXPECT_EQ(duty("A1").workers.of, "Quayside");
    EXPECT_TRUE(
        Screen::wait([&] { return screen->peek(QStringLiteral("work-clash-A1")) == nullptr; }));
}

TEST_F(DutiesTest, TheLoserOfAMatchWorksTheNext) {
    ASSERT_NO_FATAL_FAILURE(open_results());
    screen->touch(QStringLiteral("result-A2"));
    EXPECT_TRUE(screen->text_of(QStringLiteral("matchWork"))
                    .startsWith(QStringLiteral("Work team by the pool’s order")));
    screen->picture(QStringLiteral("match-sheet-work-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->click(QStringLiteral("whoWorks"));
    screen->type(QStringLiteral("workersFind"), QStringLiteral("A1"));
    screen->click(QStringLiteral("workers-loser A1"));
    screen->click(QStringLiteral("crew-Blue"));
    screen->click(QStringLiteral("giveDuty"));
    record();
    EXPECT_EQ(duty("A2").workers.kind, event::Source::Kind::loser);
    EXPECT_EQ(duty("A2").crew, "Blue");
    EXPECT_EQ(place("A2"),
              QStringLiteral("Court 1, 2026-11-28 10:00 · work: loser of A1 · crew Blue"));
}

/// The match is moved to another time while the sheet is open: the clash comes to it.
TEST_F(DutiesTest, WhatComesBetweenIsTold) {
    ASSERT_NO_FATAL_FAILURE(open_results());
    event->say(event_of("move B1 court 2 at 2026-11-28T11:00\n"));
    Screen::settle();
    screen->key(Qt::Key_W);
    screen->type(QStringLiteral("workersFind"), QStringLiteral("salt"));
    screen->key(Qt::Key_Return);
    EXPECT_EQ(seat->tournament()->duties()->workers(), QStringLiteral("Saltmarsh"));
    EXPECT_EQ(word("clash0"), QString());
    event->say(event_of("move B1 court 2 at 2026-11-28T09:00\n"));
    EXPECT_TRUE(Screen::wait([&] {
        return word("clash0") == QStringLiteral("Clash: Saltmarsh works B1 at this time");
    }));
    EXPECT_EQ(seat->tournament()->duties()->workers(), QStringLiteral("Saltmarsh"))
        << "what was chosen stays";
}

/// Another desk gives the same match other people: what was not touched is as the record has it.
TEST_F(DutiesTest, OnlyWhatWasChosenIsSaid) {
    ASSERT_NO_FATAL_FAILURE(open_results());
    screen->key(Qt::Key_W);
    screen->click(QStringLiteral("first-3"));
    event->say(event_of("duty A1 workers \"Mill Lane\" crew \"Blue\"\n"));
    Screen::settle();
    EXPECT_EQ(seat->tournament()->duties()->workers(), QStringLiteral("Mill Lane"));
    EXPECT_EQ(seat->tournament()->duties()->firstReferee(), QStringLiteral("3"));
    screen->click(QStringLiteral("giveDuty"));
    // And once more while it is read.
    event->say(event_of("duty A1 workers \"Saltmarsh\" second-referee 4\n"));
    Screen::settle();
    EXPECT_NE(word("actBetween0"), QString());
    record();
    EXPECT_EQ(duty("A1").workers.of, "Saltmarsh");
    EXPECT_EQ(duty("A1").crew, "");
    EXPECT_EQ(duty("A1").first_referee, 3);
    EXPECT_EQ(duty("A1").second_referee, 4);
}

/// The pool's own work team is that of the pool as it is by then.
TEST_F(DutiesTest, ThePoolsWorkersFollowANewDraw) {
    ASSERT_NO_FATAL_FAILURE(open_results());
    screen->key(Qt::Key_W);
    ASSERT_EQ(seat->tournament()->duties()->workers(), QStringLiteral("Quayside"));
    event->say(event_of("move-team \"Quayside\" to B\nmove-team \"Mill Lane\" to A\n"));
    Screen::settle();
    const auto a1 = *state().find_match("A1");
    const auto side = state().divisions[0].settled[*event::workers_of(state(), a1)];
    ASSERT_TRUE(side.is_team());
    const std::string now = state().teams[side.team].name;
    ASSERT_NE(now, "Quayside");
    EXPECT_EQ(seat->tournament()->duties()->workers().toStdString(), now);
    EXPECT_FALSE(seat->tournament()->duties()->differs());
    screen->click(QStringLiteral("first-3"));
    screen->click(QStringLiteral("giveDuty"));
    record();
    EXPECT_EQ(duty("A1").workers.of, now);
}

TEST_F(DutiesTest, AMatchIsFoundHoweverItsNameIsTyped) {
    ASSERT_NO_FATAL_FAILURE(open_results());
    event->say(event_of("match Gold1 in U16 first 3 of A second 3 of B\n"));
    Screen::settle();
    screen->key(Qt::Key_W);
    for (const char* typed : {"Gold1", "gold1"}) {
        screen->find(QStringLiteral("workersFind"))->setProperty("text", QString());
        screen->type(QStringLiteral("workersFind"), QString::fromLatin1(typed));
        EXPECT_NE(screen->peek(QStringLiteral("workers-loser Gold1")), nullptr) << typed;
    }
    screen->key(Qt::Key_Return);
    EXPECT_EQ(seat->tournament()->duties()->workers(), QStringLiteral("loser Gold1"));
    screen->find(QStringLiteral("workersFind"))->setProperty("text", QString());
    screen->type(QStringLiteral("workersFind"), QStringLiteral("winner gold1"));
    screen->key(Qt::Key_Return);
    EXPECT_EQ(seat->tournament()->duties()->workers(), QStringLiteral("winner Gold1"));
}

/// Ten officials to choose from on a small screen: what speaks against the choice is in sight.
TEST_F(DutiesTest, ClashesAreInSightBesideManyOfficials) {
    auto facts = event_case("harbour-cup-24-teams", "result C1 paper 21-12 21-14");
    for (std::uint16_t number = 1; number <= 10; ++number) {
        event::PersonListed official;
        official.person = number;
        facts.push_back({official, "Official Longer Example " + std::to_string(number)});
    }
    for (const char* team : {"Saltmarsh", "Drydock", "Ferry Gate", "Sandbar", "Windlass"})
        facts.push_back({event::ConflictDeclared{1, team}, {}});
    ASSERT_NO_FATAL_FAILURE(open(std::move(facts)));
    event->say(event_of("duty C2 workers \"Saltmarsh\"\nduty C2 first-referee 1\n"));
    Screen::settle();
    screen->key(Qt::Key_F8);
    seat->tournament()->results()->look(QStringLiteral("C2"));
    screen->touch(QStringLiteral("result-C2"));
    screen->click(QStringLiteral("whoWorks"));
    ASSERT_NE(screen->find(QStringLiteral("firstFind")), nullptr);
    seat->tournament()->duties()->chooseReferee(QStringLiteral("1"), false);
    seat->tournament()->duties()->chooseReferee(QStringLiteral("1"), true);
    Screen::settle();
    const auto clashes = seat->tournament()->duties()->clashes();
    ASSERT_GE(clashes.size(), 2);
    screen->picture(QStringLiteral("duty-many-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    for (const char* name : {"clash0", "clash1"}) {
        QQuickItem* const clash = screen->find(QString::fromLatin1(name));
        ASSERT_NE(clash, nullptr);
        QRectF seen = clash->mapRectToScene(QRectF(0, 0, clash->width(), clash->height()));
        ASSERT_GT(seen.height(), 0);
        const QRectF whole = seen;
        for (QQuickItem* around = clash->parentItem(); around != nullptr;
             around = around->parentItem())
            if (around->clip())
                seen &= around->mapRectToScene(QRectF(0, 0, around->width(), around->height()));
        seen &= QRectF(0, 0, screen->window().width(), screen->window().height());
        EXPECT_EQ(seen, whole) << name;
    }
}

}  // namespace
}  // namespace courthand::tests
