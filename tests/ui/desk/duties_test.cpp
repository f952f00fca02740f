// Who works a match: shown in its row and on its sheet, given by a sheet that tells clashes first.
#include <variant>

#include "tournament_fixture.h"

namespace courthand::tests {
namespace {

constexpr const char* cup =
    "# memory\n"
    "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
    "division U16 profile international-2021 chain international-2017 format best-of 3\n"
    "team \"Harbour Lights\" in U16\n"
    "team \"Mill Lane\" in U16\n"
    "team \"Saltmarsh\" in U16\n"
    "team \"Quayside\" in U16\n"
    "team \"Ropewalk\" in U16\n"
    "team \"Lantern Hill\" in U16\n"
    "draw U16 serpentine pools 2\n"
    "court 1\ncourt 2\n"
    "place A1 court 1 at 2026-11-28T09:00\n"
    "place B1 court 2 at 2026-11-28T09:00\n"
    "place A2 court 1 at 2026-11-28T10:00\n"
    "person 3 official\n"
    "person 4 official team \"Mill Lane\"\n"
    "crew \"Blue\" persons 3\n"
    "conflict 3 with \"Ropewalk\"\n";

class DutiesTest : public TournamentTest {
  protected:
    void open_results() {
        ASSERT_NO_FATAL_FAILURE(open(event_of(cup)));
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
    EXPECT_EQ(place("A1"), QStringLiteral("Court 1, 09:00 · work: Quayside"));
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
        return place("A1") == QStringLiteral("Court 1, 09:00 · work: Mill Lane · referees 3, 4");
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
    EXPECT_EQ(place("A2"), QStringLiteral("Court 1, 10:00 · work: loser of A1 · crew Blue"));
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

}  // namespace
}  // namespace courthand::tests
