// The bracket page: drawn, read, gone through by key.
#include "tournament_fixture.h"

namespace courthand::tests {
namespace {

TEST_F(TournamentTest, TheBracketIsDrawnWithSidesResultsAndPlaceMatches) {
    ASSERT_NO_FATAL_FAILURE(
        open(event_case("harbour-cup-24-teams", "result M7 paper 25-20 25-22")));
    screen->key(Qt::Key_F7);
    auto& bracket = *seat->tournament()->bracket();
    EXPECT_TRUE(Screen::wait([&] { return bracket.boxes()->count() == 23; }));
    EXPECT_EQ(bracket.headings()->count(), 3) << "places 1 and 2, 3 and 4, 13 and 14";
    auto& boxes = *bracket.boxes();
    EXPECT_EQ(boxes.field(boxes.rowOf(QStringLiteral("M1")), "winner").toInt(), 1);
    EXPECT_EQ(boxes.field(boxes.rowOf(QStringLiteral("M11")), "first").toString(),
              QStringLiteral("loser of M9"));
    screen->picture(QStringLiteral("bracket-1366"));
    screen->key(Qt::Key_0);
    screen->picture(QStringLiteral("bracket-all-1366"));
    screen->key(Qt::Key_Right);
    screen->key(Qt::Key_Right);
    screen->key(Qt::Key_Return);
    EXPECT_FALSE(seat->tournament()->results()->match().isEmpty());
    screen->picture(QStringLiteral("bracket-match-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
}

TEST_F(TournamentTest, KeysGoFromMatchToMatchAndZoom) {
    ASSERT_NO_FATAL_FAILURE(
        open(event_case("harbour-cup-24-teams", "result M7 paper 25-20 25-22"), 1920, 1080));
    screen->key(Qt::Key_F7);
    screen->picture(QStringLiteral("bracket-1920"));
    QQuickItem* const view = screen->find(QStringLiteral("bracketView"));
    const double zoom = view->property("zoom").toDouble();
    screen->key(Qt::Key_Plus, Qt::ShiftModifier);
    EXPECT_GT(view->property("zoom").toDouble(), zoom);
    screen->key(Qt::Key_Minus);
    EXPECT_NEAR(view->property("zoom").toDouble(), zoom, 1e-9);
    EXPECT_EQ(screen->nameless(), QStringList());
}

/// 64 teams, every place played for: 192 matches.
std::vector<event::Said> sixty_four(const std::string& kind) {
    std::string script =
        "# memory\n"
        "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
        "division U16 profile international-2021 chain international-2017 format best-of 3\n";
    for (int i = 1; i <= 64; ++i) script += "team \"Boat " + std::to_string(i) + "\" in U16\n";
    return event_of(script + "bracket U16 " + kind + " prefix M\n");
}

TEST_F(TournamentTest, SixtyFourTeamsAreReadableOfEveryKind) {
    for (const char* kind : {"single", "double", "consolation", "placement"}) {
        ASSERT_NO_FATAL_FAILURE(open(sixty_four(kind)));
        screen->key(Qt::Key_F7);
        auto& bracket = *seat->tournament()->bracket();
        EXPECT_TRUE(Screen::wait([&] { return bracket.boxes()->count() >= 63; })) << kind;
        Screen::settle();
        screen->picture(QStringLiteral("bracket-64-%1-1366").arg(kind));
        screen->key(Qt::Key_0);
        screen->picture(QStringLiteral("bracket-64-%1-all-1366").arg(kind));
        EXPECT_EQ(screen->cut(), QStringList()) << kind;
    }
}

}  // namespace
}  // namespace courthand::tests
