// What once lost or falsified a record at the table: each shown by the events of a hand.
#include <QAccessible>
#include <QTest>
#include <algorithm>

#include "table_fixture.h"

namespace courthand::client::test {
namespace {

class RecordFault : public TableTest {
  protected:
    template <class F>
    [[nodiscard]] std::size_t count() const {
        const std::vector<Fact> facts = session->facts();
        return static_cast<std::size_t>(
            std::count_if(facts.begin(), facts.end(),
                          [](const Fact& fact) { return std::holds_alternative<F>(fact); }));
    }
    /// A libero in the front row of the team named first, found once the ball is in play.
    void libero_in_front() { session->record(LiberoReplacement{Team::A, no(21), no(3)}); }
    void ruling_of_the_head(const Verdict& verdict) {
        session->record(Ruling{Ruling::Decision::overrule, verdict.reason, verdict.team});
        seat->lookAgain();
    }
    [[nodiscard]] QString described(const QString& name) const {
        QQuickItem* item = hand->find(name);
        QAccessibleInterface* spoken = QAccessible::queryAccessibleInterface(item);
        return spoken == nullptr ? QString{} : spoken->text(QAccessible::Description);
    }
    void without_lists() {
        MatchSheet sheet = harbour_cup_sheet("us-domestic-2014");
        sheet.players = {};
        session = std::make_unique<MemorySession>("us-domestic-2014", sheet);
        session->record(MatchOpened{session->rules().format});
    }
    void open_line_up() {
        open_match(*session);
        session->record(Toss{Team::A, Team::A});
        session->record(SetStarted{1});
    }
};

// ---- undo ---------------------------------------------------------------------------------------

TEST_F(RecordFault, UndoStrikesItsOwnEntryAndNeverTheRulingOfTheHeadOfficial) {
    ready_to_serve(*session);
    libero_in_front();
    show();
    ASSERT_TRUE(hand->touch("wonLeft"));
    ASSERT_FALSE(session->standing().empty());
    ruling_of_the_head(session->standing().front());
    ASSERT_EQ(count<Ruling>(), 1U);
    ASSERT_TRUE(hand->touch("undo"));
    EXPECT_EQ(count<Ruling>(), 1U) << "it is not the table's to take back";
    EXPECT_EQ(count<RallyWon>(), 0U);
    EXPECT_EQ(count<Serve>(), 0U) << "service and rally were one touch";
}

TEST_F(RecordFault, UndoAfterARestartPassesOverARuling) {
    ready_to_serve(*session);
    libero_in_front();
    session->record(Serve{});
    session->record(RallyWon{Team::A});
    ASSERT_FALSE(session->standing().empty());
    session->record(
        Ruling{Ruling::Decision::overrule, session->standing().front().reason, Team::A});
    show();
    ASSERT_TRUE(hand->touch("undo"));
    EXPECT_EQ(count<Ruling>(), 1U);
    EXPECT_EQ(count<RallyWon>(), 0U);
}

TEST_F(RecordFault, UndoSaysBeforehandWhatItTakesBackAndTheScoreAfterIt) {
    ready_to_serve(*session);
    show();
    ASSERT_TRUE(hand->touch("wonLeft"));
    ASSERT_TRUE(hand->touch("wonRight"));
    EXPECT_TRUE(described("undo").contains("ally won by Mill Lane"));
    EXPECT_TRUE(described("undo").contains("1 : 1 → 1 : 0")) << described("undo").toStdString();
}

TEST_F(RecordFault, WhatCouldNotBeTakenBackIsTakenBackByTheNextUndo) {
    ready_to_serve(*session);
    show();
    ASSERT_TRUE(hand->touch("wonLeft"));
    session->disk_error = "The disk is full: nothing was saved. Free some room, then touch again.";
    ASSERT_TRUE(hand->touch("undo"));
    EXPECT_EQ(count<RallyWon>(), 1U);
    session->disk_error.clear();
    ASSERT_TRUE(hand->touch("undo"));
    EXPECT_EQ(count<RallyWon>(), 0U);
    EXPECT_EQ(count<Serve>(), 0U);
}

// ---- one touch, one rally -----------------------------------------------------------------------

TEST_F(RecordFault, AHeldArrowKeyIsOneRally) {
    ready_to_serve(*session);
    show();
    hand->hold(Qt::Key_Left, 12);
    EXPECT_EQ(score(), (Score{1, 0}));
}

TEST_F(RecordFault, AHeldSpaceOnARallyAreaIsOneRally) {
    ready_to_serve(*session);
    show();
    hand->find("wonLeft")->forceActiveFocus(Qt::TabFocusReason);
    hand->hold(Qt::Key_Space, 12);
    EXPECT_EQ(score(), (Score{1, 0}));
}

TEST_F(RecordFault, AHeldUndoTakesBackOneTouch) {
    ready_to_serve(*session);
    show();
    for (int i = 0; i < 4; ++i) ASSERT_TRUE(hand->touch("wonLeft"));
    ASSERT_EQ(score(), (Score{4, 0}));
    hand->hold(Qt::Key_Z, 12, Qt::ControlModifier);
    EXPECT_EQ(score(), (Score{3, 0}));
}

TEST_F(RecordFault, ADoubleTapOnARallyAreaIsOneRally) {
    ready_to_serve(*session);
    show();
    clock.stand_still();
    ASSERT_TRUE(hand->touch("wonLeft"));
    ASSERT_TRUE(hand->touch("wonLeft"));
    EXPECT_EQ(score(), (Score{1, 0}));
    clock.pass(TableSeat::rally_rest - std::chrono::milliseconds{1});
    ASSERT_TRUE(hand->click("wonLeft"));
    EXPECT_EQ(score(), (Score{1, 0}));
    clock.pass(std::chrono::milliseconds{1});
    ASSERT_TRUE(hand->click("wonLeft"));
    EXPECT_EQ(score(), (Score{2, 0}));
}

TEST_F(RecordFault, TheRestOfARallyAreaHoldsNobodyUpWhoDidSomethingElse) {
    ready_to_serve(*session);
    show();
    clock.stand_still();
    ASSERT_TRUE(hand->touch("wonLeft"));
    ASSERT_TRUE(hand->touch("wonRight")) << "the other area does not rest";
    EXPECT_EQ(score(), (Score{1, 1}));
    ASSERT_TRUE(hand->touch("undo"));
    ASSERT_TRUE(hand->touch("wonRight")) << "written anew after an undo";
    EXPECT_EQ(score(), (Score{1, 1}));
}

// ---- the key for what is expected ---------------------------------------------------------------

TEST_F(RecordFault, ReturnUnderNotLegalDropsNothingAndRecordsNoServe) {
    ready_to_serve(*session);
    show();
    ASSERT_TRUE(hand->touch("leftLibero0"));
    ASSERT_TRUE(hand->touch("left2"));
    ASSERT_TRUE(hand->shows("happened"));
    hand->key(Qt::Key_Return);
    EXPECT_EQ(count<Serve>(), 0U);
    EXPECT_TRUE(hand->shows("happened")) << "the question still stands";
    hand->key(Qt::Key_H);
    EXPECT_EQ(count<LiberoReplacement>(), 1U);
}

TEST_F(RecordFault, ReturnWhileANumberIsChosenRecordsNoServe) {
    ready_to_serve(*session);
    show();
    ASSERT_TRUE(hand->touch("leftLibero0"));
    hand->key(Qt::Key_Return);
    EXPECT_EQ(count<Serve>(), 0U);
    EXPECT_TRUE(hand->shows("letGo"));
}

// ---- the right team -----------------------------------------------------------------------------

TEST_F(RecordFault, AnotherTeamOnTheSanctionSheetAsksAnewForThePerson) {
    ready_to_serve(*session);
    show();
    ASSERT_TRUE(touch_more("sanctions"));
    ASSERT_TRUE(hand->touch("teamLeft"));
    ASSERT_TRUE(hand->touch("person4"));
    ASSERT_TRUE(hand->touch("teamRight"));
    EXPECT_FALSE(hand->touch("misconduct1")) << "number 4 was of the other team";
    EXPECT_EQ(count<Misconduct>(), 0U);
}

TEST_F(RecordFault, AnotherTeamOnTheInjurySheetAsksAnewForThePlayer) {
    ready_to_serve(*session);
    show();
    ASSERT_TRUE(touch_more("injury"));
    ASSERT_TRUE(hand->touch("teamLeft"));
    ASSERT_TRUE(hand->touch("injured4"));
    ASSERT_TRUE(hand->touch("teamRight"));
    EXPECT_FALSE(hand->touch("recordInjury"));
    EXPECT_FALSE(hand->touch("recovery"));
    EXPECT_EQ(count<Injury>(), 0U);
}

TEST_F(RecordFault, AProtestIsNobodysUntilATeamIsChosen) {
    ready_to_serve(*session);
    show();
    ASSERT_TRUE(touch_more("protest"));
    ASSERT_NE(hand->await("words"), nullptr);
    hand->settle();
    for (const char letter : std::string{"score"}) QTest::keyClick(window, letter);
    EXPECT_FALSE(hand->touch("recordWords"));
    ASSERT_TRUE(hand->touch("teamRight"));
    ASSERT_TRUE(hand->touch("recordWords"));
    ASSERT_NE(last<Protest>(), nullptr);
    EXPECT_EQ(last<Protest>()->team, Team::B);
}

TEST_F(RecordFault, ATypedNumberOfTheRightTeamDoesNotOpenTheLeftTeamsSubstitution) {
    ready_to_serve(*session);
    show();
    hand->type("33");
    ASSERT_NE(hand->await("recordSubstitution"), nullptr);
    EXPECT_FALSE(seat->substitution()->onLeft());
    EXPECT_EQ(seat->substitution()->teamName(), "Mill Lane");
}

TEST_F(RecordFault, ATypedNumberOfBothTeamsAsksForTheTeam) {
    MatchSheet sheet = harbour_cup_sheet("us-domestic-2014");
    sheet.players.b.push_back({no(12), {}, false, false});
    session = std::make_unique<MemorySession>("us-domestic-2014", sheet);
    ready_to_serve(*session);
    show();
    hand->type("12");
    hand->settle();
    EXPECT_FALSE(hand->shows("recordSubstitution")) << "nobody said of which team";
    EXPECT_TRUE(hand->text("next").contains("12"));
    hand->picture("table-number-of-both");
    hand->key(Qt::Key_L);
    hand->key(Qt::Key_L);
    hand->key(Qt::Key_Return);
    ASSERT_NE(hand->await("recordSubstitution"), nullptr);
    EXPECT_EQ(seat->substitution()->teamName(), "Mill Lane");
}

TEST_F(RecordFault, ATypedNumberOfNeitherTeamOpensNothing) {
    ready_to_serve(*session);
    show();
    hand->type("77");
    hand->settle();
    EXPECT_FALSE(hand->shows("recordSubstitution"));
    EXPECT_FALSE(seat->picking()->choosing());
}

// ---- rulings ------------------------------------------------------------------------------------

TEST_F(RecordFault, ARulingThatComesInWhileTheSheetIsOpenMovesNoOtherUnderTheFinger) {
    ready_to_serve(*session);
    libero_in_front();
    session->record(LiberoReplacement{Team::B, no(41), no(33)});
    session->record(Serve{});
    show();
    const std::size_t before = session->standing().size();
    ASSERT_GE(before, 2U);
    const Verdict shown = session->standing().front();
    ASSERT_EQ(seat->board()->worst(), 0);
    ASSERT_TRUE(hand->touch("ruling"));
    ASSERT_NE(hand->await("accept"), nullptr);
    ruling_of_the_head(shown);
    ASSERT_EQ(session->standing().size(), before - 1);
    hand->settle();
    hand->picture("table-ruling-gone");
    EXPECT_FALSE(hand->touch("accept")) << "what was looked at has been ruled";
    EXPECT_EQ(session->standing().size(), before - 1) << "the others were not asked about";
    EXPECT_EQ(count<Ruling>(), 1U);
}

TEST_F(RecordFault, ARulingGoesToTheVerdictThatIsShown) {
    ready_to_serve(*session);
    libero_in_front();
    session->record(LiberoReplacement{Team::B, no(41), no(33)});
    session->record(Serve{});
    show();
    ASSERT_GE(session->standing().size(), 2U);
    const Verdict second = session->standing()[1];
    ASSERT_TRUE(hand->touch("ruling"));
    ASSERT_TRUE(hand->touch("notice1"));
    ASSERT_TRUE(hand->touch("overrule"));
    const Ruling* ruling = last<Ruling>();
    ASSERT_NE(ruling, nullptr);
    EXPECT_EQ(ruling->team, second.team);
    EXPECT_EQ(ruling->reason, second.reason);
}

// ---- line-up ------------------------------------------------------------------------------------

TEST_F(RecordFault, UndoOnTheLineUpPageTakesBackTheLastNumberFirst) {
    open_line_up();
    show();
    const std::size_t before = session->facts().size();
    ASSERT_TRUE(hand->touch("roster1"));
    ASSERT_TRUE(hand->touch("roster2"));
    ASSERT_TRUE(hand->touch("undo"));
    EXPECT_EQ(session->facts().size(), before) << "no entry was asked back";
    EXPECT_EQ(hand->find("cell0")->property("number").toString(), "1");
    EXPECT_EQ(hand->find("cell1")->property("number").toString(), "");
    ASSERT_TRUE(hand->touch("roster5"));
    EXPECT_EQ(hand->find("cell1")->property("number").toString(), "5");
    hand->key(Qt::Key_Z, Qt::ControlModifier);
    hand->key(Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(hand->find("cell0")->property("number").toString(), "");
    EXPECT_EQ(session->facts().size(), before);
    ASSERT_TRUE(hand->touch("undo"));
    EXPECT_EQ(session->facts().size(), before - 1) << "an empty sheet: the last entry";
}

// ---- errors are said ----------------------------------------------------------------------------

TEST_F(RecordFault, WhatIsNotSavedIsSaidAboveAVerdict) {
    ready_to_serve(*session);
    libero_in_front();
    session->record(Serve{});
    show();
    ASSERT_FALSE(session->standing().empty());
    session->disk_error = "The disk is full: nothing was saved. Free some room, then touch again.";
    ASSERT_TRUE(hand->touch("wonLeft"));
    EXPECT_TRUE(hand->text("noticeText").contains("disk is full"));
    EXPECT_TRUE(hand->text("noticeRemedy").contains("Harbour Lights")) << "the verdict as well";
    hand->picture("table-disk-full-verdict");
}

TEST_F(RecordFault, WhatIsNotSavedIsSaidOnEveryPage) {
    session->record(MatchOpened{session->rules().format});
    show();
    session->disk_error = "The disk is full: nothing was saved. Free some room, then touch again.";
    ASSERT_TRUE(hand->touch("takeLists"));
    EXPECT_TRUE(hand->text("help").contains("disk is full"));
    session->disk_error.clear();
    ASSERT_TRUE(hand->touch("takeLists"));
    EXPECT_FALSE(hand->shows("help"));
    session->disk_error = "The disk is full: nothing was saved. Free some room, then touch again.";
    ASSERT_TRUE(hand->touch("sideA"));
    ASSERT_TRUE(hand->touch("serveA"));
    ASSERT_TRUE(hand->touch("recordToss"));
    EXPECT_TRUE(hand->text("help").contains("disk is full"));
    hand->picture("table-disk-full-toss");
}

TEST_F(RecordFault, TheLastErrorOfTheServerIsShownAlsoWithoutANetwork) {
    ready_to_serve(*session);
    session->sync.link = SyncStatus::Link::offline;
    session->sync.last_error = "The certificate of this device has ended. Enrol it anew.";
    show();
    EXPECT_TRUE(hand->text("noticeRemedy").contains("certificate"));
    ASSERT_TRUE(hand->touch("wonLeft"));
    EXPECT_TRUE(hand->text("noticeText").contains("ally won by Harbour Lights"));
    EXPECT_TRUE(hand->text("noticeRemedy").contains("certificate"));
    hand->picture("table-last-error");
}

// ---- a table that always starts -----------------------------------------------------------------

TEST_F(RecordFault, ATableWithoutTeamListsStartsByTouchedAndTypedNumbers) {
    without_lists();
    show();
    for (const int n : {1, 2, 3, 4, 5, 6, 21})
        ASSERT_TRUE(hand->touch(QStringLiteral("write%1").arg(n))) << n;
    ASSERT_TRUE(hand->touch("listCaptain"));
    ASSERT_TRUE(hand->touch("listed3"));
    EXPECT_FALSE(hand->touch("recordLists")) << "the other team has no numbers yet";
    ASSERT_TRUE(hand->touch("teamRight"));
    for (const char* number : {"31", "32", "33", "34", "35", "36", "41", "7"}) {
        hand->type(QString::fromLatin1(number));
        hand->key(Qt::Key_Return);
    }
    hand->picture("table-team-list");
    ASSERT_TRUE(hand->touch("listed7")) << "a number written by mistake is touched away";
    ASSERT_TRUE(hand->touch("recordLists"));
    EXPECT_EQ(session->state().team.a.count, 7);
    EXPECT_EQ(session->state().team.a.captain, no(3));
    EXPECT_EQ(session->state().team.b.count, 7);
    EXPECT_NE(find(session->state().team.b, no(41)), nullptr);
    EXPECT_NE(hand->await("recordToss"), nullptr) << "and the match goes on";
}

TEST_F(RecordFault, AnEmptySheetIsNotTakenOverInSilence) {
    without_lists();
    show();
    EXPECT_FALSE(hand->shows("takeLists")) << "there is nothing to take over";
    EXPECT_TRUE(hand->shows("recordLists"));
}

TEST_F(RecordFault, TheListOfTheDeskThatComesLaterIsOfferedOnTheTeamListPage) {
    without_lists();
    show();
    ASSERT_TRUE(hand->touch("write1"));
    session->desk_sends(harbour_cup_sheet("us-domestic-2014").players);
    seat->lookAgain();
    ASSERT_TRUE(hand->touch("takeLists"));
    EXPECT_EQ(session->state().team.a.count, 12);
    EXPECT_EQ(session->state().team.b.count, 10);
}

TEST_F(RecordFault, TheListOfTheDeskThatComesInPlayIsOfferedAndCountsFromTheBeginning) {
    const MatchSheet desk = harbour_cup_sheet("us-domestic-2014");
    without_lists();
    for (const Team team : {Team::A, Team::B}) {
        Roster roster;
        roster.team = team;
        for (const MatchSheet::Player& player : desk.players[team])
            if (player.number != no(14)) roster.players[roster.count++] = player.number;
        session->record(roster);
    }
    ready_from_toss(*session);
    session->record(Serve{});
    session->record(RallyWon{Team::A});
    show();
    EXPECT_FALSE(hand->shows("lookAtList"));
    session->desk_sends(desk.players);
    seat->lookAgain();
    ASSERT_TRUE(hand->touch("lookAtList"));
    ASSERT_NE(hand->await("takeDeskList"), nullptr);
    EXPECT_EQ(hand->text("deskListNew"), "14");
    EXPECT_EQ(hand->text("deskListMissing"), "none");
    hand->picture("table-desk-list");
    ASSERT_TRUE(hand->touch("takeDeskList"));
    EXPECT_NE(find(session->state().team.a, no(14)), nullptr);
    EXPECT_EQ(session->state().team.a.captain, no(3));
    EXPECT_EQ(score(), (Score{1, 0})) << "nothing that was played is lost";
    hand->settle();
    ASSERT_TRUE(hand->touch("undo"));
    EXPECT_EQ(find(session->state().team.a, no(14)), nullptr) << "it can be taken back";
    EXPECT_EQ(score(), (Score{1, 0}));
}

// ---- score --------------------------------------------------------------------------------------

TEST_F(RecordFault, AScoreThatNoPlayLeadsToClosesNoSetByOneTouch) {
    ready_to_serve(*session);
    session->record(ScoreCorrection{{24, 5}});
    show();
    ASSERT_TRUE(touch_more("score"));
    for (int i = 0; i < 6; ++i) ASSERT_TRUE(hand->touch("plusLeft"));
    ASSERT_TRUE(hand->touch("setScore"));
    EXPECT_EQ(score(), (Score{24, 5})) << "nothing is written by the first touch";
    EXPECT_EQ(session->state().team.a.sets_won, 0);
    hand->settle();
    EXPECT_TRUE(hand->text("why").contains("No course of play")) << hand->text("why").toStdString();
    EXPECT_TRUE(hand->text("next").contains("30 : 5"));
    EXPECT_TRUE(hand->text("next").contains("over")) << "and what it would do";
    hand->picture("table-impossible-score");
    hand->key(Qt::Key_Return);
    EXPECT_EQ(score(), (Score{24, 5}));
    ASSERT_TRUE(hand->touch("letGo"));
    EXPECT_EQ(session->state().team.a.sets_won, 0);
}

TEST_F(RecordFault, AScoreThatEndsTheSetIsAskedAboutFirst) {
    ready_to_serve(*session);
    session->record(ScoreCorrection{{24, 5}});
    show();
    ASSERT_TRUE(touch_more("score"));
    ASSERT_TRUE(hand->touch("plusLeft"));
    ASSERT_TRUE(hand->touch("setScore"));
    EXPECT_EQ(session->state().team.a.sets_won, 0);
    ASSERT_TRUE(hand->touch("happened"));
    EXPECT_EQ(session->state().team.a.sets_won, 1);
}

TEST_F(RecordFault, AnOrdinaryScoreIsSetAtOnce) {
    ready_to_serve(*session);
    show();
    ASSERT_TRUE(touch_more("score"));
    ASSERT_TRUE(hand->touch("plusLeft"));
    ASSERT_TRUE(hand->touch("setScore"));
    EXPECT_EQ(score(), (Score{1, 0}));
}

}  // namespace
}  // namespace courthand::client::test
