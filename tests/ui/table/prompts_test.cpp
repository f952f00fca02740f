// All that must happen before the next service: the first large, with its act, the others below.
#include "table_fixture.h"

namespace courthand::client::test {
namespace {

class Prompts : public TableTest {
  protected:
    /// Both line-ups are in; the boxes of the second team are blank, and nobody has checked a six.
    void sheets_are_in() {
        open_match(*session);
        session->record(Toss{Team::A, Team::A});
        session->record(SetStarted{1});
        session->record(LineUp{Team::A,
                               {no(1), no(2), no(3), no(4), no(5), no(6)},
                               {LiberoBox{LiberoBox::Mark::number, no(21)},
                                LiberoBox{LiberoBox::Mark::number, no(22)}},
                               no(3)});
        session->record(LineUp{Team::B,
                               {no(31), no(32), no(33), no(34), no(35), no(36)},
                               {LiberoBox{LiberoBox::Mark::number, no(41)}, LiberoBox{}},
                               no(33)});
    }
};

TEST_F(Prompts, ThoseThatFollowStandBelowInOrder) {
    ready_to_serve(*session);
    session->record(LiberoReplacement{Team::B, no(41), no(35)});
    session->record(Substitution{Team::A, 1, {Pair{no(13), no(3)}}});
    show();
    ASSERT_TRUE(hand->touch("wonRight"));
    EXPECT_EQ(hand->text("next"), "Mill Lane: 35 returns for 41 before the serve");
    EXPECT_EQ(hand->text("then"),
              "then  Harbour Lights: who is game captain now?  ·  32 serves for Mill Lane");
    hand->picture("table-prompts");
    ASSERT_TRUE(hand->touch("expected"));
    EXPECT_EQ(hand->text("next"), "Harbour Lights: who is game captain now?");
    EXPECT_EQ(hand->text("then"), "then  32 serves for Mill Lane");
    ASSERT_TRUE(hand->touch("expected"));
    ASSERT_TRUE(hand->touch("captain5"));
    EXPECT_EQ(hand->text("next"), "32 serves for Mill Lane");
    EXPECT_FALSE(hand->shows("then")) << "nothing comes after the service";
}

TEST_F(Prompts, MoreThanThereIsRoomForAreCounted) {
    sheets_are_in();
    show();
    EXPECT_TRUE(hand->text("next").contains("second libero"));
    EXPECT_EQ(seat->next()->then().size(), NextSteps::most_then);
    EXPECT_EQ(seat->next()->more(), 1);
    EXPECT_TRUE(hand->text("then").endsWith("and 2 more")) << hand->text("then").toStdString();
}

TEST_F(Prompts, WhatIsDueStaysInSightWhileSomethingIsChosen) {
    ready_to_serve(*session);
    show();
    ASSERT_TRUE(hand->touch("leftLibero0"));
    EXPECT_TRUE(hand->text("next").contains("touch the place"));
    EXPECT_EQ(hand->text("then"), "then  1 serves for Harbour Lights");
}

TEST_F(Prompts, TheQuestionForTheSameSixIsAnsweredByItsOwnButton) {
    ready_to_serve(*session);
    show();
    ASSERT_TRUE(hand->touch("timeOut"));
    ASSERT_TRUE(hand->touch("timeOutLeft"));
    hand->key(Qt::Key_Escape);
    hand->settle();
    EXPECT_TRUE(hand->text("next").contains("same six of Harbour Lights"));
    const std::size_t before = session->facts().size();
    ASSERT_TRUE(hand->touch("expected"));
    EXPECT_EQ(session->facts().size(), before) << "it is no entry, and above all no service";
    EXPECT_TRUE(hand->text("next").contains("same six of Mill Lane"));
    ASSERT_TRUE(hand->touch("expected"));
    EXPECT_EQ(hand->text("next"), "1 serves for Harbour Lights");
}

struct Room {
    const char* name;
    QSize size;
    double density;
};

class PromptRoom : public Prompts, public testing::WithParamInterface<Room> {};

// The line was cut on the page on which the second referee's check is written.
TEST_P(PromptRoom, NothingIsCutFromTheLineUpsToTheFirstService) {
    sheets_are_in();
    show(GetParam().size, GetParam().density);
    hand->settle();
    hand->picture(QStringLiteral("table-check-box-%1").arg(GetParam().name));
    EXPECT_EQ(cut().join(" | ").toStdString(), "");
    session->record(LiberoBoxSettled{Team::B, 1, LiberoBox{LiberoBox::Mark::none, {}}});
    seat->lookAgain();
    hand->settle();
    EXPECT_EQ(hand->text("next"), "Harbour Lights: the second referee checks the six on court");
    hand->picture(QStringLiteral("table-check-%1").arg(GetParam().name));
    EXPECT_EQ(cut().join(" | ").toStdString(), "");
    const double cap = hand->find("next")->property("font").value<QFont>().pixelSize() * 0.714 /
                       GetParam().density;
    EXPECT_GE(cap, 2.8) << "it is read at arm's length";
}

INSTANTIATE_TEST_SUITE_P(Glass, PromptRoom,
                         testing::Values(Room{"1280x800", {1280, 800}, 149.0 / 25.4},
                                         Room{"1024x768", {1024, 768}, 118.0 / 25.4}),
                         [](const auto& room) {
                             return "of" + std::to_string(room.param.size.width());
                         });

}  // namespace
}  // namespace courthand::client::test
