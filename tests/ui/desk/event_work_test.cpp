// What of the tournament waits for the desk stands in the one work list, and one touch begins it.
#include <variant>

#include "courthand/event/ending.h"
#include "tournament_fixture.h"
#include "venue_words.h"

namespace courthand::tests {
namespace {

int row_of(const seats::RowList& work, const char* key) {
    return work.rowOf(QString::fromLatin1(key));
}

TEST_F(TournamentTest, APoolThatNeedsADecisionIsDecidedFromTheWorkList) {
    ASSERT_NO_FATAL_FAILURE(open(event_case(
        "decision-by-lot",
        "decision U16 pool A by lot teams \"Mill Lane\" \"Saltmarsh\" \"Harbour Lights\"")));
    EXPECT_TRUE(Screen::wait([&] { return row_of(*seat->work(), "decide-U16|A-1") >= 0; }));
    screen->picture(QStringLiteral("work-1366"));
    screen->touch(QStringLiteral("work-decide-U16|A-1"));
    EXPECT_NE(screen->find(QStringLiteral("decideNow")), nullptr);
}

TEST_F(TournamentTest, AResultOfOtherTeamsWaitsUntilItIsReopenedOrCountsAgain) {
    ASSERT_NO_FATAL_FAILURE(open(event_case("result-reopened")));
    event->say({{event::ResultReopened{"M1"}, {}}});
    EXPECT_TRUE(Screen::wait([&] { return row_of(*seat->work(), "event-M4-0") >= 0; }));
    const int row = row_of(*seat->work(), "event-M4-0");
    EXPECT_EQ(seat->work()->field(row, QStringLiteral("mark")).toInt(),
              static_cast<int>(seats::Mark::fault));
    screen->touch(QStringLiteral("work-event-M4-0"));
    EXPECT_NE(screen->find(QStringLiteral("reopenResult")), nullptr);
    EXPECT_EQ(seat->tournament()->results()->match(), QStringLiteral("M4"));
}

TEST_F(TournamentTest, TeamsWithoutPoolAndMatchesWithoutCourtAreCounted) {
    auto facts = event_case("harbour-cup-24-teams", "result A1 paper 21-12 21-14");
    facts.push_back({event::TeamEntered{"Late Comers", "U16", ""}, {}});
    event::CourtOpened court;
    court.court = 1;
    court.opens = *event::local_time_of("2026-11-28T08:00");
    court.closes = *event::local_time_of("2026-11-28T20:00");
    facts.push_back({court, {}});
    facts.push_back({event::MatchPlaced{"A1", 1, *event::local_time_of("2026-11-28T09:00"),
                                        event::Timing::fixed, false},
                     {}});
    ASSERT_NO_FATAL_FAILURE(open(std::move(facts)));
    EXPECT_TRUE(Screen::wait([&] { return row_of(*seat->work(), "poolless-U16") >= 0; }));
    EXPECT_EQ(seat->work()->field(row_of(*seat->work(), "poolless-U16"), "detail").toString(),
              QStringLiteral("Late Comers"));
    EXPECT_EQ(seat->work()->field(row_of(*seat->work(), "placeless-U16"), "title").toString(),
              QStringLiteral("U16: matches without court and time: 58"));
    screen->touch(QStringLiteral("work-poolless-U16"));
    EXPECT_NE(screen->find(QStringLiteral("entryList")), nullptr);
}

TEST_F(TournamentTest, ATableThatWritesAfterItsResultWasConfirmedIsLookedAt) {
    ASSERT_NO_FATAL_FAILURE(
        open(event_case("harbour-cup-24-teams", "result C1 paper 21-12 21-14")));
    finish_c1();
    EXPECT_TRUE(Screen::wait([&] { return row_of(*seat->work(), "confirm-C1") >= 0; }));
    seat->tournament()->results()->look(QStringLiteral("C1"));
    seat->tournament()->results()->confirm();
    record();
    EXPECT_TRUE(Screen::wait([&] { return row_of(*seat->work(), "confirm-C1") < 0; }));
    EXPECT_LT(row_of(*seat->work(), "written-C1"), 0);
    // Somebody signs after the result was confirmed: the record goes on, its result stays.
    table_writes({{21, 18}, {19, 21}, {15, 11}}, '\x5b');
    Screen::settle();
    EXPECT_LT(row_of(*seat->work(), "written-C1"), 0);
    table_writes({{21, 18}, {21, 19}}, '\x5c');
    EXPECT_TRUE(Screen::wait([&] { return row_of(*seat->work(), "written-C1") >= 0; }));
    EXPECT_EQ(seat->work()->field(row_of(*seat->work(), "written-C1"), "title").toString(),
              QStringLiteral("C1: the table has written since"));
}

TEST_F(TournamentTest, AnAlertThatNobodyTookStandsBelowResultsToConfirmAndEndsWithTheEvent) {
    ASSERT_NO_FATAL_FAILURE(
        open(event_case("harbour-cup-24-teams", "result C1 paper 21-12 21-14")));
    finish_c1();
    auto later = board->board();
    later.as_of += std::chrono::seconds(30);
    board->show(later);
    EXPECT_TRUE(Screen::wait([&] { return row_of(*seat->work(), "alert-a1") >= 0; }));
    EXPECT_TRUE(Screen::wait([&] { return row_of(*seat->work(), "confirm-C1") >= 0; }));
    EXPECT_LT(row_of(*seat->work(), "confirm-C1"), row_of(*seat->work(), "alert-a1"));

    ASSERT_NO_FATAL_FAILURE(open(event_case("harbour-cup-24-teams")));
    ASSERT_TRUE(event::event_over(state()));
    board->show(later);
    Screen::settle();
    EXPECT_LT(row_of(*seat->work(), "alert-a1"), 0);
}

TEST_F(TournamentTest, ARecordThatIsNotReadFurtherIsToldBeforeAllElse) {
    ASSERT_NO_FATAL_FAILURE(open(event_case("decision-by-lot", "take-back 11")));
    event->show_whole(false);
    EXPECT_TRUE(Screen::wait([&] { return row_of(*seat->work(), "record-coming") >= 0; }));
    event->show_whole(true);
    EXPECT_TRUE(Screen::wait([&] { return row_of(*seat->work(), "record-coming") < 0; }));
    event->show(venue::Link{venue::LinkState::refused, "Fact 9 is not the one that was signed."});
    EXPECT_TRUE(Screen::wait([&] { return row_of(*seat->work(), "record-refused") == 0; }));
    EXPECT_EQ(seat->work()->field(0, QStringLiteral("detail")).toString(),
              QStringLiteral("Fact 9 is not the one that was signed."));
}

}  // namespace
}  // namespace courthand::tests
