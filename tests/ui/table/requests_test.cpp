// Time-out, substitution, captain, re-designation, sanctions, injury, remark.
#include "table_fixture.h"

namespace courthand::client::test {
namespace {

using RequestScreen = TableTest;

TEST_F(RequestScreen, ATimeOutTellsWhichLiberoIsOnAndAsksForTheSameSix) {
    ready_to_serve(*session);
    session->record(LiberoReplacement{Team::A, no(22), no(6)});
    session->record(Serve{});
    session->record(RallyWon{Team::A});
    show();
    ASSERT_TRUE(hand->touch("timeOut"));
    ASSERT_TRUE(hand->touch("timeOutRight"));
    const TimeOut* called = last<TimeOut>();
    ASSERT_NE(called, nullptr);
    EXPECT_EQ(called->team, Team::B);
    EXPECT_EQ(hand->text("tellLeft"), "libero 22 is on court for 6");
    EXPECT_EQ(hand->text("tellRight"), "no libero on court");
    hand->picture("table-time-out");
    EXPECT_TRUE(seat->next()->words().contains("same six"));
    ASSERT_TRUE(hand->touch("sameLeft"));
    ASSERT_TRUE(hand->touch("sameRight"));
    hand->settle();
    EXPECT_FALSE(hand->shows("tellLeft"));
    EXPECT_EQ(hand->text("next"), "1 serves for Harbour Lights");
}

TEST_F(RequestScreen, ATimeOutTooManyIsRefusedButCanHaveHappened) {
    ready_to_serve(*session);
    for (int i = 0; i < session->rules().time_outs; ++i) session->record(TimeOut{Team::A});
    show();
    ASSERT_TRUE(hand->touch("timeOut"));
    ASSERT_TRUE(hand->touch("timeOutLeft"));
    hand->settle();
    EXPECT_FALSE(hand->text("why").isEmpty());
    const std::size_t before = session->facts().size();
    ASSERT_TRUE(hand->touch("happened"));
    EXPECT_EQ(session->facts().size(), before + 1);
}

TEST_F(RequestScreen, SubstitutionWithTwoPairsIsOneRequest) {
    ready_to_serve(*session);
    show();
    ASSERT_TRUE(hand->touch("substitution"));
    ASSERT_TRUE(hand->touch("out1"));
    hand->picture("table-substitution");
    ASSERT_TRUE(hand->touch("in11"));
    ASSERT_TRUE(hand->touch("in12"));
    ASSERT_TRUE(hand->touch("out4"));
    ASSERT_TRUE(hand->touch("recordSubstitution"));
    const Substitution* request = last<Substitution>();
    ASSERT_NE(request, nullptr);
    EXPECT_EQ(request->count, 2);
    EXPECT_EQ(request->pairs[0], (Pair{no(11), no(1)}));
    EXPECT_EQ(request->pairs[1], (Pair{no(12), no(4)}));
    EXPECT_EQ(session->state().set.team.a.substitutions, 2);
}

TEST_F(RequestScreen, TheCaptainIsNamedWhenHeLeaves) {
    ready_to_serve(*session);
    session->record(Substitution{Team::A, 1, {Pair{no(13), no(3)}}});
    show();
    EXPECT_TRUE(hand->text("next").contains("captain"));
    ASSERT_TRUE(hand->touch("expected"));
    hand->picture("table-captain");
    ASSERT_TRUE(hand->touch("captain5"));
    const GameCaptain* named = last<GameCaptain>();
    ASSERT_NE(named, nullptr);
    EXPECT_EQ(named->player, no(5));
    EXPECT_EQ(session->state().set.team.a.game_captain, no(5));
}

TEST_F(RequestScreen, ReDesignationNeedsOldNewReasonAndConsent) {
    use("international-2025");
    ready_to_serve(*session);
    session->record(LiberoUnable{Team::A, no(22), Cause::illness});
    show();
    ASSERT_TRUE(hand->touch("redesignation"));
    ASSERT_TRUE(hand->touch("old21"));
    ASSERT_TRUE(hand->touch("cause0"));
    ASSERT_TRUE(hand->touch("new1"));
    EXPECT_TRUE(hand->shows("refusal")) << "1 is on court";
    hand->picture("table-redesignation-refused");
    ASSERT_TRUE(hand->touch("new14"));
    hand->settle();
    EXPECT_FALSE(hand->shows("refusal")) << hand->text("refusal").toStdString();
    EXPECT_FALSE(hand->touch("recordRedesignation")) << "without the referee's consent";
    ASSERT_TRUE(hand->touch("consent"));
    hand->picture("table-redesignation");
    ASSERT_TRUE(hand->touch("recordRedesignation"));
    const Redesignation* change = last<Redesignation>();
    ASSERT_NE(change, nullptr);
    EXPECT_EQ(change->out, no(21));
    EXPECT_EQ(change->in, no(14));
    EXPECT_NE(session->last_text().find("injury"), std::string::npos);
    const PlayerRecord* out = find(session->state().team.a, no(21));
    ASSERT_NE(out, nullptr);
    EXPECT_NE(out->libero, LiberoRole::designated);
}

TEST_F(RequestScreen, AnIneligibleReDesignationCanHaveHappened) {
    ready_to_serve(*session);
    show();
    ASSERT_TRUE(hand->touch("redesignation"));
    ASSERT_TRUE(hand->touch("old21"));
    ASSERT_TRUE(hand->touch("new1"));
    ASSERT_TRUE(hand->await("refusal") != nullptr);
    ASSERT_TRUE(hand->touch("consent"));
    ASSERT_TRUE(hand->touch("recordRedesignation"));
    ASSERT_NE(last<Redesignation>(), nullptr);
    EXPECT_FALSE(session->standing().empty());
}

TEST_F(RequestScreen, SanctionsAreThreeTouchesAndOneOfThemIsWhom) {
    ready_to_serve(*session);
    show();
    ASSERT_TRUE(touch_more("sanctions"));
    EXPECT_FALSE(hand->touch("misconduct1")) << "nobody has been chosen";
    ASSERT_TRUE(hand->touch("teamRight"));
    ASSERT_TRUE(hand->touch("person34"));
    hand->picture("table-sanctions");
    ASSERT_TRUE(hand->touch("misconduct1"));
    const Misconduct* sanction = last<Misconduct>();
    ASSERT_NE(sanction, nullptr);
    EXPECT_EQ(sanction->team, Team::B);
    EXPECT_EQ(sanction->person, no(34));
    EXPECT_EQ(sanction->sanction, Sanction::penalty);
}

TEST_F(RequestScreen, TheInjurySheetLeavesTheDecisionToMedicalStaff) {
    ready_to_serve(*session);
    show();
    ASSERT_TRUE(touch_more("injury"));
    ASSERT_TRUE(hand->touch("teamLeft"));
    ASSERT_TRUE(hand->touch("injured4"));
    hand->picture("table-injury");
    ASSERT_TRUE(hand->touch("recordInjury"));
    const Injury* injury = last<Injury>();
    ASSERT_NE(injury, nullptr);
    EXPECT_EQ(injury->player, no(4));
}

TEST_F(RequestScreen, AWrongServerIsRecordedWithHisNumber) {
    ready_to_serve(*session);
    show();
    ASSERT_TRUE(touch_more("server"));
    ASSERT_TRUE(hand->touch("server4"));
    const Serve* serve = last<Serve>();
    ASSERT_NE(serve, nullptr);
    EXPECT_EQ(serve->server, no(4));
    EXPECT_FALSE(session->standing().empty());
}

TEST_F(RequestScreen, AnInterruptedMatchGoesOnWithTheExpectedAct) {
    ready_to_serve(*session);
    show();
    ASSERT_TRUE(touch_more("interrupted"));
    ASSERT_NE(last<Interrupted>(), nullptr);
    EXPECT_EQ(session->state().set.interrupted, 1);
    hand->picture("table-interrupted");
    ASSERT_TRUE(hand->click("expected"));
    const Resumed* resumed = last<Resumed>();
    ASSERT_NE(resumed, nullptr);
    EXPECT_EQ(resumed->how, Resumed::How::same_court);
    EXPECT_EQ(session->state().set.interrupted, 0);
}

TEST_F(RequestScreen, APositionalFaultIsCalled) {
    ready_to_serve(*session);
    show();
    ASSERT_TRUE(hand->touch("more"));
    hand->picture("table-more");
    ASSERT_TRUE(hand->touch("more-positionRight"));
    const PositionalFault* called = last<PositionalFault>();
    ASSERT_NE(called, nullptr);
    EXPECT_EQ(called->team, opponent(session->state().set.left));
}

}  // namespace
}  // namespace courthand::client::test
