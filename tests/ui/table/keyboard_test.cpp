// Everything by keyboard; each key can be changed or turned off.
#include "table_fixture.h"

namespace courthand::client::test {
namespace {

using KeyboardScreen = TableTest;

TEST_F(KeyboardScreen, RalliesLiberoAndUndo) {
    ready_to_serve(*session);
    show();
    hand->key(Qt::Key_L);
    hand->type("21");
    hand->type("6");
    hand->key(Qt::Key_Return);
    const LiberoReplacement* replacement = last<LiberoReplacement>();
    ASSERT_NE(replacement, nullptr);
    EXPECT_EQ(replacement->in, no(21));
    EXPECT_EQ(replacement->out, no(6));
    hand->key(Qt::Key_Up);
    EXPECT_NE(last<Serve>(), nullptr);
    hand->key(Qt::Key_Left);
    EXPECT_EQ(score(), (Score{1, 0}));
    hand->key(Qt::Key_Right);
    EXPECT_EQ(score(), (Score{1, 1}));
    hand->key(Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(score(), (Score{1, 0}));
}

TEST_F(KeyboardScreen, LTwiceIsTheRightTeamAndHRecordsWhatHappened) {
    ready_to_serve(*session);
    show();
    hand->key(Qt::Key_L);
    hand->key(Qt::Key_L);
    hand->type("41");
    hand->type("33");
    EXPECT_EQ(last<LiberoReplacement>(), nullptr) << "33 is in the front row";
    EXPECT_TRUE(seat->picking()->proposing());
    hand->key(Qt::Key_H);
    const LiberoReplacement* replacement = last<LiberoReplacement>();
    ASSERT_NE(replacement, nullptr);
    EXPECT_EQ(replacement->team, Team::B);
}

TEST_F(KeyboardScreen, ASubstitutionByNumbers) {
    ready_to_serve(*session);
    show();
    hand->key(Qt::Key_S);
    ASSERT_TRUE(hand->await("recordSubstitution") != nullptr);
    hand->type("11");
    hand->key(Qt::Key_Return);
    hand->type("2");
    hand->key(Qt::Key_Return);
    hand->key(Qt::Key_Return);
    const Substitution* request = last<Substitution>();
    ASSERT_NE(request, nullptr);
    EXPECT_EQ(request->pairs[0], (Pair{no(11), no(2)}));
}

TEST_F(KeyboardScreen, AKeyThatIsTurnedOffOrMovedDoesNothing) {
    ready_to_serve(*session);
    show();
    seat->keys()->turn(KeyMap::RallyLeft, false);
    hand->key(Qt::Key_Left);
    EXPECT_EQ(score(), (Score{0, 0}));
    EXPECT_FALSE(seat->keys()->remap(KeyMap::RallyRight, "L")) << "L is taken";
    EXPECT_TRUE(seat->keys()->remap(KeyMap::RallyRight, "P"));
    hand->key(Qt::Key_Right);
    EXPECT_EQ(score(), (Score{0, 0}));
    hand->key(Qt::Key_P);
    EXPECT_EQ(score(), (Score{0, 1}));
}

TEST_F(KeyboardScreen, KeysThatWereChosenGoOnInTheNextMatch) {
    KeyMap before;
    int told = 0;
    QObject::connect(&before, &KeyMap::chosen, [&told] { ++told; });
    const int sheet =
        before.know(QStringLiteral("injury"), QStringLiteral("Injury"), QStringLiteral("I"));
    EXPECT_EQ(before.choices(), QString()) << "the usual ones are no choice";
    before.turn(KeyMap::RallyLeft, false);
    ASSERT_TRUE(before.remap(KeyMap::RallyRight, QStringLiteral("P")));
    ASSERT_TRUE(before.remap(sheet, QStringLiteral("Ctrl+J")));
    EXPECT_EQ(told, 3);

    // The seat of the next match.
    ready_to_serve(*session);
    show();
    seat->keys()->choose(before.choices() + QStringLiteral("\nnonsense\nUndo 7 X\n"));
    hand->key(Qt::Key_Left);
    hand->key(Qt::Key_Right);
    EXPECT_EQ(score(), (Score{0, 0}));
    hand->key(Qt::Key_P);
    EXPECT_EQ(score(), (Score{0, 1}));
    EXPECT_EQ(seat->keys()->keys(KeyMap::Undo), QStringLiteral("Ctrl+Z"));
    EXPECT_EQ(seat->keys()->choices(), before.choices());
    // A sheet that makes itself known later.
    KeyMap later;
    later.choose(before.choices());
    EXPECT_EQ(later.keys(later.know(QStringLiteral("injury"), QStringLiteral("Injury"),
                                    QStringLiteral("I"))),
              QStringLiteral("Ctrl+J"));
    later.restore();
    EXPECT_EQ(later.choices(), QString());
    EXPECT_TRUE(later.on(KeyMap::RallyLeft));
    EXPECT_EQ(later.keys(KeyMap::RallyRight), QStringLiteral("Right"));
}

TEST_F(KeyboardScreen, TheListOfKeysOpensAndCloses) {
    ready_to_serve(*session);
    show();
    hand->key(Qt::Key_Question);
    ASSERT_TRUE(hand->await("keyOn0") != nullptr);
    hand->picture("table-keys");
    hand->key(Qt::Key_Left);
    EXPECT_EQ(score(), (Score{0, 0})) << "a sheet keeps the keys of play to itself";
    hand->key(Qt::Key_Escape);
    hand->settle();
    EXPECT_FALSE(hand->shows("keyOn0"));
    hand->key(Qt::Key_Left);
    EXPECT_EQ(score(), (Score{1, 0}));
}

TEST_F(KeyboardScreen, AFocusedTouchAreaIsNotPressedByAccident) {
    ready_to_serve(*session);
    show();
    ASSERT_TRUE(hand->click("wonLeft"));
    EXPECT_EQ(score(), (Score{1, 0}));
    hand->key(Qt::Key_Space);
    EXPECT_EQ(score(), (Score{1, 0})) << "a click leaves no focus behind";
}

}  // namespace
}  // namespace courthand::client::test
