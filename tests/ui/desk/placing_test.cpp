// A match gets its court and time at the desk.
#include "courthand/event/duty.h"
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

/// As it would be typed; what stands in the field means the same when it is said again.
TEST_F(PlacingTest, ATimeStandsInItsFieldAsItIsTyped) {
    struct Case {
        const char* at;
        const char* shown;
    };
    for (const Case& one : {Case{"2026-11-28T09:30", "9:30"}, Case{"2026-11-28T12:20", "12:20"},
                            Case{"2026-11-29T09:30", "2026-11-29T09:30"}}) {
        ASSERT_NO_FATAL_FAILURE(look_at_a1());
        const auto at = *event::local_time_of(one.at);
        event->say({{event::MatchPlaced{"A1", 1, at, event::Timing::fixed, false}, {}}});
        auto& page = *seat->tournament()->results();
        EXPECT_TRUE(Screen::wait([&] { return page.time() == QString::fromLatin1(one.shown); }))
            << page.time().toStdString();
        page.place(QStringLiteral("1"), page.time());
        EXPECT_EQ(page.placeProblem(), QString());
        record();
        EXPECT_EQ(a1().placement->at, at);
    }
}

TEST_F(PlacingTest, WhatSpeaksAgainstACourtAndATimeIsToldFirst) {
    std::string script = small_cup;
    script.insert(script.find(" format"), " lasts 50 rest 20");
    ASSERT_NO_FATAL_FAILURE(open(event_of(script + "place A1 court 1 at 2026-11-28T09:00\n")));
    const auto told = [&](const char* court, const char* at) {
        auto& page = *seat->tournament()->results();
        page.look(QStringLiteral("A2"));
        page.place(QString::fromLatin1(court), QString::fromLatin1(at));
        QStringList clashes = seat->tournament()->preview()->notes();
        clashes.removeFirst();  // the teams
        seat->tournament()->preview()->close();
        return clashes;
    };
    EXPECT_EQ(told("1", "10:10"), QStringList());
    const QStringList together = told("1", "9:30");
    EXPECT_TRUE(together.contains(QStringLiteral("Clash: A1 holds this court at this time")));
    EXPECT_TRUE(together.contains(QStringLiteral("Clash: Saltmarsh plays A1 at this time")))
        << together.join('\n').toStdString();
    EXPECT_TRUE(told("2", "10:00")
                    .contains(QStringLiteral(
                        "Clash: Saltmarsh has 10 minutes of rest beside A1, and not 20")));
}

/// Who works a match by the pool's order is not to play another one at that time.
TEST_F(PlacingTest, WhatSpeaksAgainstTheDutyOfAnotherMatchIsToldFirst) {
    std::string script = small_cup;
    script.insert(script.find(" format"), " lasts 50");
    ASSERT_NO_FATAL_FAILURE(open(event_of(script + "place A1 court 1 at 2026-11-28T09:00\n")));
    const auto work = state().find_match("A1");
    const auto workers = event::workers_of(state(), *work);
    ASSERT_TRUE(workers);
    const auto team = state().divisions[work->division].settled[*workers].team;
    const QString name = QString::fromStdString(state().teams[team].name);
    auto& page = *seat->tournament()->results();
    page.look(QStringLiteral("A2"));
    page.place(QStringLiteral("2"), QStringLiteral("9:30"));
    const QStringList together = seat->tournament()->preview()->notes();
    EXPECT_TRUE(together.contains(QStringLiteral("Clash: A1: %1 plays A2 at this time").arg(name)))
        << together.join('\n').toStdString();
    seat->tournament()->preview()->close();
    page.place(QStringLiteral("2"), QStringLiteral("9:50"));
    for (const QString& note : seat->tournament()->preview()->notes())
        EXPECT_FALSE(note.startsWith(QStringLiteral("Clash: A1: "))) << note.toStdString();
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
