// Rallies, libero replacements legal and illegal, undo, what is said in words.
#include "table_fixture.h"

namespace courthand::client::test {
namespace {

using PlayScreen = TableTest;

TEST_F(PlayScreen, OneTouchRecordsARally) {
    ready_to_serve(*session);
    show();
    ASSERT_TRUE(hand->touch("wonLeft"));
    EXPECT_EQ(score(), (Score{1, 0}));
    EXPECT_EQ(hand->text("leftPoints"), "1");
    ASSERT_TRUE(hand->touch("wonRight"));
    EXPECT_EQ(score(), (Score{1, 1}));
    EXPECT_EQ(session->state().set.serving, Team::B);
    EXPECT_EQ(at(Team::B, Position::I), no(32)) << "B rotates as it gains the service";
    EXPECT_EQ(hand->text("next"), "32 serves for Mill Lane");
}

TEST_F(PlayScreen, UndoTakesBackTheWholeTouch) {
    ready_to_serve(*session);
    show();
    const MatchState before = session->state();
    ASSERT_TRUE(hand->touch("wonRight"));
    ASSERT_TRUE(hand->click("undo"));
    EXPECT_EQ(score(), (Score{0, 0}));
    EXPECT_EQ(session->state().set.stage, before.set.stage) << "serve and rally were one touch";
    ASSERT_TRUE(hand->touch("wonLeft"));
    ASSERT_TRUE(hand->touch("wonLeft"));
    ASSERT_TRUE(hand->touch("undo"));
    ASSERT_TRUE(hand->touch("undo"));
    EXPECT_EQ(score(), (Score{0, 0}));
}

TEST_F(PlayScreen, ALiberoComesInWithTwoTouches) {
    ready_to_serve(*session);
    show();
    const std::size_t before = session->facts().size();
    ASSERT_TRUE(hand->touch("leftLibero0"));
    hand->picture("table-libero-chosen");
    EXPECT_EQ(hand->find("left5")->property("offer").toInt(), 2) << "back row VI is legal";
    EXPECT_EQ(hand->find("left2")->property("offer").toInt(), 3) << "front row III is not";
    EXPECT_FALSE(hand->find("left2")->property("whyNot").toString().isEmpty());
    ASSERT_TRUE(hand->touch("left5"));
    ASSERT_EQ(session->facts().size(), before + 1);
    const LiberoReplacement* replacement = last<LiberoReplacement>();
    ASSERT_NE(replacement, nullptr);
    EXPECT_EQ(replacement->in, no(21));
    EXPECT_EQ(replacement->out, no(6));
    EXPECT_TRUE(session->standing().empty());
    EXPECT_EQ(hand->find("leftLibero0")->property("number").toString(), "6")
        << "beside the court now stands whom he replaces";

    ASSERT_TRUE(hand->touch("wonLeft"));
    ASSERT_TRUE(hand->touch("leftLibero0"));
    ASSERT_TRUE(hand->touch("left5"));
    replacement = last<LiberoReplacement>();
    ASSERT_NE(replacement, nullptr);
    EXPECT_EQ(replacement->in, no(6));
    EXPECT_EQ(replacement->out, no(21));
}

TEST_F(PlayScreen, AnIllegalOneIsExplainedAndStillRecordedWithOneMoreTouch) {
    ready_to_serve(*session);
    show();
    ASSERT_TRUE(hand->touch("leftLibero0"));
    ASSERT_TRUE(hand->touch("left2"));
    EXPECT_EQ(last<LiberoReplacement>(), nullptr) << "nothing is recorded by touching it";
    EXPECT_FALSE(hand->text("why").isEmpty());
    hand->picture("table-not-legal");
    ASSERT_TRUE(hand->touch("happened"));
    ASSERT_NE(last<LiberoReplacement>(), nullptr);
    EXPECT_EQ(at(Team::A, Position::III), no(21));
    ASSERT_FALSE(session->standing().empty());

    ASSERT_TRUE(hand->touch("wonLeft"));
    ASSERT_FALSE(session->standing().empty());
    EXPECT_EQ(session->standing().front().phase, Phase::open);
    EXPECT_TRUE(hand->text("noticeText").contains("Harbour Lights"));
    EXPECT_TRUE(hand->text("noticeRemedy").contains("common practice")) << "the source is named";
    EXPECT_TRUE(hand->text("noticeRemedy").contains("Mill Lane")) << "and the remedy";
    EXPECT_EQ(cut().join(" | ").toStdString(), "") << "rule and remedy are there to be read";
    hand->picture("table-open-verdict");

    ASSERT_TRUE(hand->touch("ruling"));
    hand->picture("table-ruling");
    EXPECT_TRUE(hand->text("rulingRule")
                    .contains("libero.front-row-opens = at-once (common "
                              "practice)"))
        << "the values it rests on that were not seen in print: "
        << hand->text("rulingRule").toStdString();
    ASSERT_TRUE(hand->touch("accept"));
    const Ruling* ruling = last<Ruling>();
    ASSERT_NE(ruling, nullptr);
    EXPECT_EQ(ruling->decision, Ruling::Decision::accept);
    EXPECT_EQ(session->state().set.serving, Team::B);
}

TEST_F(PlayScreen, AnotherReturnerThanTheReplacedOneCanBeRecorded) {
    ready_to_serve(*session);
    session->record(LiberoReplacement{Team::A, no(21), no(6)});
    session->record(Serve{});
    session->record(RallyWon{Team::A});
    show();
    ASSERT_TRUE(hand->touch("left5"));
    ASSERT_TRUE(hand->touch("other11"));
    EXPECT_FALSE(hand->text("why").isEmpty());
    ASSERT_TRUE(hand->touch("happened"));
    const LiberoReplacement* replacement = last<LiberoReplacement>();
    ASSERT_NE(replacement, nullptr);
    EXPECT_EQ(replacement->in, no(11));
    EXPECT_FALSE(session->standing().empty());
}

TEST_F(PlayScreen, TheExpectedActIsOneTouch) {
    ready_to_serve(*session);
    session->record(LiberoReplacement{Team::B, no(41), no(35)});
    show();
    // B wins the service: 41, for 35 in V, goes to IV.
    ASSERT_TRUE(hand->touch("wonRight"));
    EXPECT_EQ(at(Team::B, Position::IV), no(41));
    EXPECT_EQ(hand->text("next"), "Mill Lane: 35 returns for 41 before the serve");
    ASSERT_TRUE(hand->touch("expected"));
    EXPECT_EQ(at(Team::B, Position::IV), no(35));
    EXPECT_TRUE(session->standing().empty());
}

TEST_F(PlayScreen, AFullDiskIsSaidAndNothingIsConfirmed) {
    ready_to_serve(*session);
    show();
    session->disk_error = "The disk is full: nothing was saved. Free some room, then touch again.";
    ASSERT_TRUE(hand->touch("wonLeft"));
    EXPECT_EQ(score(), (Score{0, 0}));
    EXPECT_EQ(hand->text("leftPoints"), "0");
    EXPECT_EQ(hand->text("saved"), "NOT saved");
    EXPECT_TRUE(hand->text("noticeText").contains("disk is full"));
    hand->picture("table-disk-full");
    session->disk_error.clear();
    ASSERT_TRUE(hand->touch("wonLeft"));
    EXPECT_EQ(hand->text("leftPoints"), "1");
    EXPECT_NE(hand->text("saved"), "NOT saved");
}

TEST_F(PlayScreen, ASetEndsAndTheNextOneBegins) {
    ready_to_serve(*session);
    show();
    for (int point = 0; point < 25; ++point) ASSERT_TRUE(hand->touch("wonLeft")) << point;
    EXPECT_EQ(session->state().team.a.sets_won, 1);
    hand->picture("table-set-over");
    ASSERT_TRUE(hand->touch("interval"));
    ASSERT_NE(last<Interval>(), nullptr);
    ASSERT_TRUE(hand->touch("beginSet"));
    ASSERT_NE(last<SetStarted>(), nullptr);
    EXPECT_EQ(last<SetStarted>()->number, 2);
    EXPECT_TRUE(hand->await("cell0") != nullptr) << "the next thing is a line-up sheet";
}

TEST_F(PlayScreen, ADecidingSetMirrorsTheScreenAtTheChangeOfCourtsAndEndsTheMatch) {
    MatchFormat format = session->rules().format;
    format.sets = 1;
    session->record(MatchOpened{format});
    ready_to_serve(*session);
    show();
    ASSERT_EQ(seat->left()->name(), "Harbour Lights");
    for (int point = 0; point < 8; ++point) ASSERT_TRUE(hand->touch("wonLeft")) << point;
    EXPECT_EQ(hand->text("next"), "The teams change courts");
    const Six six = on_court(session->state().set.team.a);
    ASSERT_TRUE(hand->touch("expected"));
    ASSERT_NE(last<CourtSwitch>(), nullptr);
    EXPECT_EQ(seat->right()->name(), "Harbour Lights");
    EXPECT_EQ(hand->text("rightPoints"), "8");
    EXPECT_EQ(on_court(session->state().set.team.a), six) << "nobody moves in the order";
    EXPECT_EQ(session->state().set.serving, Team::A);
    // The six are compared again before play goes on, where the profile asks for it.
    for (int team = 0; team < 2 && seat->next()->act().startsWith("Checked"); ++team)
        ASSERT_TRUE(hand->touch("expected"));
    for (int point = 8; point < 15; ++point) ASSERT_TRUE(hand->touch("wonRight")) << point;
    EXPECT_EQ(session->state().set.stage, Stage::match_over);
    EXPECT_EQ(hand->text("result"), "Harbour Lights wins 1 : 0");
    hand->picture("table-result");
    ASSERT_TRUE(hand->touch("undo"));
    EXPECT_EQ(score(), (Score{14, 0})) << "the last rally can still be taken back";
}

TEST_F(PlayScreen, TurningTheViewRoundChangesNoData) {
    ready_to_serve(*session);
    show();
    const MatchState before = session->state();
    const QString left = seat->left()->name();
    ASSERT_TRUE(hand->touch("more"));
    hand->picture("table-more");
    seat->flipView();
    EXPECT_EQ(seat->right()->name(), left);
    EXPECT_EQ(session->state(), before);
}

}  // namespace
}  // namespace courthand::client::test
