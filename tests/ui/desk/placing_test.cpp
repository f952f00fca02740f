// A match gets its court and time at the desk.
#include "tournament_fixture.h"

namespace courthand::tests {
namespace {

constexpr const char* small_cup =
    "# memory\n"
    "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
    "division U16 profile international-2021 chain international-2017 format best-of 3\n"
    "court 1\n"
    "team \"Mill Lane\" in U16\n"
    "team \"Quayside\" in U16\n"
    "team \"Saltmarsh\" in U16\n"
    "draw U16 serpentine pools 1\n";

class PlacingTest : public TournamentTest {
  protected:
    void look_at_a1() {
        ASSERT_NO_FATAL_FAILURE(open(event_of(small_cup)));
        screen->key(Qt::Key_F8);
        ASSERT_TRUE(
            Screen::wait([&] { return seat->tournament()->results()->rows()->count() == 3; }));
        screen->click(QStringLiteral("result-A1"));
    }
    [[nodiscard]] const event::MatchState& a1() { return state().match(*state().find_match("A1")); }
};

TEST_F(PlacingTest, ACourtThatNobodyOpenedIsOpenedWithIt) {
    ASSERT_NO_FATAL_FAILURE(look_at_a1());
    screen->type(QStringLiteral("placeCourt"), QStringLiteral("3"));
    screen->type(QStringLiteral("placeTime"), QStringLiteral("9:30"));
    screen->picture(QStringLiteral("place-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->click(QStringLiteral("placeNow"));
    record();
    ASSERT_TRUE(a1().placement);
    EXPECT_EQ(a1().placement->court, 3);
    EXPECT_EQ(event::written(a1().placement->at), "2026-11-28T09:30");
    EXPECT_TRUE(state().courts.contains(3));
}

TEST_F(PlacingTest, WhatIsNoCourtOrTimeIsToldAndAsksNothing) {
    ASSERT_NO_FATAL_FAILURE(look_at_a1());
    screen->type(QStringLiteral("placeCourt"), QStringLiteral("1"));
    screen->type(QStringLiteral("placeTime"), QStringLiteral("soon"));
    screen->click(QStringLiteral("placeNow"));
    EXPECT_TRUE(seat->tournament()->results()->placeProblem().contains(QStringLiteral("soon")));
    EXPECT_FALSE(seat->tournament()->preview()->open());
}

TEST_F(PlacingTest, WithoutACourtItIsTakenOffItsCourt) {
    ASSERT_NO_FATAL_FAILURE(look_at_a1());
    event->say({{event::MatchPlaced{"A1", 1, {}, event::Timing::follows, true}, {}}});
    ASSERT_TRUE(Screen::wait(
        [&] { return seat->tournament()->results()->court() == QStringLiteral("1"); }));
    seat->tournament()->results()->place({}, {});
    record();
    EXPECT_FALSE(a1().placement);
}

}  // namespace
}  // namespace courthand::tests
