// The pools page: cross tables, the reason of a place, what is needed, and a decision.
#include <variant>

#include "heard_warnings.h"
#include "tournament_fixture.h"

namespace courthand::tests {
namespace {

const QString page_key = QStringLiteral("page5");

TEST_F(TournamentTest, ACrossTableOfEachPoolWithPlacesAndTheReasonOneTouchAway) {
    ASSERT_NO_FATAL_FAILURE(
        open(event_case("harbour-cup-24-teams", "result F6 paper 21-16 18-21 15-10")));
    screen->click(page_key);
    auto& rows = *seat->tournament()->pools()->rows();
    EXPECT_EQ(rows.count(), 6 + 24);
    const int row = rows.rowOf(QStringLiteral("U16|A|Boathouse"));
    ASSERT_GE(row, 0);
    const QVariantList cells = rows.field(row, QStringLiteral("cells")).toList();
    ASSERT_EQ(cells.size(), 4);
    EXPECT_TRUE(cells[1].toMap().value(QStringLiteral("own")).toBool());
    EXPECT_EQ(rows.field(rows.rowOf(QStringLiteral("U16|A")), QStringLiteral("state")).toString(),
              QStringLiteral("settled"));
    EXPECT_EQ(rows.field(rows.rowOf(QStringLiteral("U16|F")), QStringLiteral("state")).toString(),
              QStringLiteral("1 match open"));
    screen->picture(QStringLiteral("pools-1366"));
    EXPECT_EQ(screen->cut(), QStringList());

    screen->touch(QStringLiteral("pool-U16|A|Boathouse"));
    EXPECT_TRUE(screen->text_of(QStringLiteral("reason0"))
                    .startsWith(QStringLiteral("matches won, all matches: ")));
    EXPECT_NE(screen->find(QStringLiteral("poolMatch2")), nullptr);
    screen->picture(QStringLiteral("pools-reason-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    EXPECT_EQ(screen->nameless(), QStringList());
}

TEST_F(TournamentTest, ByKeyTooAndWhatATeamStillNeedsIsCounted) {
    ASSERT_NO_FATAL_FAILURE(
        open(event_case("harbour-cup-24-teams", "result A5 paper 21-19 19-21 15-12"), 1920, 1080));
    screen->key(Qt::Key_F6);
    screen->picture(QStringLiteral("pools-1920"));
    screen->key(Qt::Key_Down);
    screen->key(Qt::Key_Down);
    screen->key(Qt::Key_Return);
    EXPECT_TRUE(Screen::wait([&] { return screen->peek(QStringLiteral("need0")) != nullptr; }));
    screen->picture(QStringLiteral("pools-needs-1920"));
    EXPECT_EQ(screen->cut(), QStringList());
    const auto needs = seat->tournament()->pools()->needs();
    EXPECT_TRUE(std::any_of(needs.begin(), needs.end(), [](const QString& need) {
        return need.contains(QStringLiteral("the first 2"));
    })) << needs.join('\n').toStdString();
}

TEST_F(TournamentTest, TeamsThatTheChainLeavesLevelAreDecidedByAPersonOnceItIsSeenWhatItChanges) {
    ASSERT_NO_FATAL_FAILURE(open_a_decision());
    EXPECT_NE(screen->find(QStringLiteral("decide-U16|A")), nullptr);
    EXPECT_FALSE(screen->find(QStringLiteral("decideNow"))->isEnabled());
    screen->touch(QStringLiteral("level-Saltmarsh"));
    screen->touch(QStringLiteral("level-Mill Lane"));
    screen->picture(QStringLiteral("pools-decision-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->touch(QStringLiteral("by-director"));
    screen->touch(QStringLiteral("decideNow"));
    EXPECT_NE(screen->find(QStringLiteral("actEffect0")), nullptr) << "the bracket gets its sides";
    screen->picture(QStringLiteral("pools-decision-preview-1366"));
    record();
    const auto* const decision = std::get_if<event::DecisionMade>(&last_fact());
    ASSERT_NE(decision, nullptr);
    EXPECT_EQ(decision->by, standings::Decider::director);
    EXPECT_EQ(decision->teams,
              (std::vector<std::string>{"Saltmarsh", "Mill Lane", "Harbour Lights"}));
    EXPECT_TRUE(
        Screen::wait([&] { return screen->peek(QStringLiteral("decide-U16|A")) == nullptr; }));
}

TEST_F(TournamentTest, WhatCameBetweenIsToldAndTheQuestionAskedAgain) {
    ASSERT_NO_FATAL_FAILURE(open_a_decision());
    screen->key(Qt::Key_2);
    screen->key(Qt::Key_1);
    screen->key(Qt::Key_Return);
    EXPECT_NE(screen->find(QStringLiteral("actNow")), nullptr);
    read();
    event->overtake_next({{event::NoteWritten{"A1", ""}, "the ball was checked"}});
    screen->key(Qt::Key_Return);
    EXPECT_EQ(screen->text_of(QStringLiteral("actBetween0")), QStringLiteral("Note to A1 written"));
    screen->picture(QStringLiteral("act-overtaken-1366"));
    EXPECT_FALSE(std::holds_alternative<event::DecisionMade>(last_fact()));
    record();
    EXPECT_TRUE(std::holds_alternative<event::DecisionMade>(last_fact()));
}

TEST_F(TournamentTest, AnActThatFailsIsToldAndTheSameActCanBeDoneAgain) {
    ASSERT_NO_FATAL_FAILURE(open_a_decision());
    screen->key(Qt::Key_1);
    screen->key(Qt::Key_2);
    screen->key(Qt::Key_Return);
    EXPECT_NE(screen->find(QStringLiteral("actNow")), nullptr);
    read();
    event->fail_next("The server is not there. Try again in a moment.");
    screen->key(Qt::Key_Return);
    EXPECT_EQ(screen->text_of(QStringLiteral("actProblem")),
              QStringLiteral("The server is not there. Try again in a moment."));
    record();
    EXPECT_TRUE(std::holds_alternative<event::DecisionMade>(last_fact()));
}

TEST_F(TournamentTest, APreviewThatBecomesAnotherThingUnderThePersonsEyesSaysWhy) {
    ASSERT_NO_FATAL_FAILURE(open_a_decision());
    screen->key(Qt::Key_2);
    screen->key(Qt::Key_1);
    screen->key(Qt::Key_Return);
    EXPECT_NE(screen->find(QStringLiteral("actEffect0")), nullptr);
    event->say({{event::NoteWritten{"A1", ""}, {}}});
    Screen::settle();
    EXPECT_EQ(screen->peek(QStringLiteral("actBetween0")), nullptr) << "it changes nothing here";
    event->say({{event::ResultReopened{"A1"}, {}}});
    EXPECT_NE(screen->find(QStringLiteral("actBetween1")), nullptr);
    EXPECT_EQ(screen->text_of(QStringLiteral("actBetween1")),
              QStringLiteral("Result of A1 reopened"));
}

TEST_F(TournamentTest, ADecisionOfAPoolThatIsGoneIsClosed) {
    ASSERT_NO_FATAL_FAILURE(open_a_decision());
    screen->key(Qt::Key_2);
    screen->key(Qt::Key_1);
    EXPECT_TRUE(seat->tournament()->pools()->whole());
    event::FactNumber draw = 0;
    for (std::size_t i = 0; i < state().facts.size(); ++i)
        if (std::holds_alternative<event::DrawMade>(state().facts[i]))
            draw = static_cast<event::FactNumber>(i + 1);
    const HeardWarnings heard;
    event->say({{event::TakenBack{draw}, {}}});
    EXPECT_TRUE(Screen::wait([&] { return screen->peek(QStringLiteral("decideNow")) == nullptr; }));
    EXPECT_EQ(heard.all(), QStringList());
    seat->tournament()->pools()->decide(QStringLiteral("lot"), {});
    EXPECT_FALSE(seat->tournament()->preview()->open());
}

TEST_F(TournamentTest, WhyATeamStandsThereIsToldAnewWhenTheRecordGoesOn) {
    ASSERT_NO_FATAL_FAILURE(
        open(event_case("harbour-cup-24-teams", "result F6 paper 21-16 18-21 15-10")));
    screen->click(page_key);
    screen->touch(QStringLiteral("pool-U16|A|Boathouse"));
    EXPECT_NE(screen->find(QStringLiteral("poolMatch2")), nullptr);
    auto& pools = *seat->tournament()->pools();
    const QStringList before = pools.matches();
    event->say({{event::ResultReopened{"A1"}, {}}, {event::ResultReopened{"A2"}, {}}});
    EXPECT_TRUE(Screen::wait([&] { return pools.matches() != before; }));
    screen->key(Qt::Key_Escape);
    EXPECT_TRUE(
        Screen::wait([&] { return screen->peek(QStringLiteral("poolMatch2")) == nullptr; }));
}

std::vector<event::Said> two_sets(const std::string& chain) {
    return event_of(
        "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
        "division U16 profile international-2021 chain " +
        chain +
        " format sets 2\n"
        "team \"Harbour Lights\" in U16\n"
        "team \"Mill Lane\" in U16\n"
        "team \"Saltmarsh\" in U16\n"
        "draw U16 serpentine pools 1 cuts 1\n");
}

TEST_F(TournamentTest, WhereBothSetsArePlayedAMatchMayEndLevel) {
    ASSERT_NO_FATAL_FAILURE(open(two_sets("us-junior-national")));
    auto& pools = *seat->tournament()->pools();
    EXPECT_TRUE(Screen::wait([&] { return pools.rows()->count() == 4; }));
    pools.look(QStringLiteral("U16|A|Mill Lane"));
    EXPECT_TRUE(Screen::wait([&] { return !pools.counting(); }));
    // 2-0, 1-1 and 0-2 of three matches.
    EXPECT_TRUE(pools.needs().join(QLatin1Char(' ')).contains(QStringLiteral("of 27 courses")))
        << pools.needs().join(QLatin1Char(' ')).toStdString();
}

TEST_F(TournamentTest, AChainThatDoesNotValueADrawIsNamedWhereNothingCanBeCounted) {
    ASSERT_NO_FATAL_FAILURE(open(two_sets("international-2017")));
    auto& pools = *seat->tournament()->pools();
    EXPECT_TRUE(Screen::wait([&] { return pools.rows()->count() == 4; }));
    pools.look(QStringLiteral("U16|A|Mill Lane"));
    EXPECT_TRUE(Screen::wait([&] { return !pools.counting(); }));
    EXPECT_EQ(pools.needs(),
              QStringList{QStringLiteral("Not counted: international-2017 gives no match points "
                                         "for 1-1; choose a chain for this format")});
}

TEST_F(TournamentTest, KeysAreListedByKeyAndCtrlNBeginsWhatThePageIsFor) {
    ASSERT_NO_FATAL_FAILURE(open(event_case("decision-by-lot", "take-back 11")));
    screen->key(Qt::Key_F6);
    screen->key(Qt::Key_Question);
    EXPECT_NE(screen->find(QStringLiteral("keyLine0")), nullptr);
    screen->picture(QStringLiteral("desk-keys-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->key(Qt::Key_Escape);
    screen->key(Qt::Key_N, Qt::ControlModifier);
    EXPECT_NE(screen->find(QStringLiteral("drawNow")), nullptr);
    screen->key(Qt::Key_Escape);
    EXPECT_TRUE(Screen::wait([&] { return screen->peek(QStringLiteral("drawNow")) == nullptr; }));
    screen->key(Qt::Key_F3);
    screen->key(Qt::Key_N, Qt::ControlModifier);
    EXPECT_NE(screen->find(QStringLiteral("enterNow")), nullptr);
}

TEST_F(TournamentTest, WhileMatchesAreOpenPlacesAreProvisionalAndNobodyIsAskedToDecide) {
    ASSERT_NO_FATAL_FAILURE(
        open(event_case("harbour-cup-24-teams", "result A2 paper 21-15 21-17")));
    screen->key(Qt::Key_F6);
    auto& rows = *seat->tournament()->pools()->rows();
    const auto row = [&](const char* team, const char* field) {
        return rows.field(rows.rowOf(QStringLiteral("U16|A|") + QString::fromLatin1(team)),
                          QString::fromLatin1(field));
    };
    ASSERT_TRUE(Screen::wait([&] { return rows.count() == 30; }));
    // A1 was Harbour Lights against Kelp Row: Boathouse and Oyster Bed have not played.
    EXPECT_EQ(row("Harbour Lights", "place").toString(), QStringLiteral("1"));
    EXPECT_EQ(row("Kelp Row", "place").toString(), QStringLiteral("2"));
    for (const char* team : {"Boathouse", "Oyster Bed"}) {
        EXPECT_EQ(row(team, "place").toString(), QString()) << team;
        EXPECT_EQ(row(team, "state").toString(), QStringLiteral("not played yet")) << team;
    }
    auto& pools = *seat->tournament()->pools();
    for (const char* team : {"Harbour Lights", "Kelp Row", "Boathouse", "Oyster Bed"}) {
        pools.look(QStringLiteral("U16|A|") + QString::fromLatin1(team));
        EXPECT_EQ(pools.reasons().filter(QStringLiteral("decision")), QStringList()) << team;
    }
    EXPECT_EQ(pools.reasons(),
              QStringList{QStringLiteral("The team has not played yet: it has no place so far.")});
    pools.look(QStringLiteral("U16|A|Kelp Row"));
    EXPECT_EQ(pools.title(), QStringLiteral("Place 2 of pool A so far: Kelp Row"));
    EXPECT_EQ(pools.reasons().value(0),
              QStringLiteral("places are provisional: 5 matches of the pool are open"));
    for (int i = 0; i < seat->work()->count(); ++i)
        EXPECT_FALSE(
            seat->work()->field(i, "title").toString().contains(QStringLiteral("decision")));
    screen->picture(QStringLiteral("pools-provisional-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
}

TEST_F(TournamentTest, OnAPhonePlacesAndResultsAreRead) {
    ASSERT_NO_FATAL_FAILURE(
        open(event_case("harbour-cup-24-teams", "result F6 paper 21-16 18-21 15-10"), 390, 844));
    screen->click(page_key);
    EXPECT_NE(screen->find(QStringLiteral("pool-U16|A|Boathouse")), nullptr);
    screen->picture(QStringLiteral("pools-phone"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->touch(QStringLiteral("pool-U16|A|Boathouse"));
    EXPECT_NE(screen->find(QStringLiteral("poolMatch2")), nullptr);
    screen->key(Qt::Key_Escape);
    EXPECT_TRUE(
        Screen::wait([&] { return screen->peek(QStringLiteral("poolMatch2")) == nullptr; }));
    screen->click(QStringLiteral("page7"));
    screen->picture(QStringLiteral("results-phone"));
    EXPECT_EQ(screen->cut(), QStringList());
}

}  // namespace
}  // namespace courthand::tests
