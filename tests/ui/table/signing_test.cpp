// The sheet of the signatures: team lists before the match, the result after it.
#include <QTest>

#include "courthand/match/signatures.h"
#include "table_fixture.h"

namespace courthand::client::test {
namespace {

class Signs : public TableTest {
  protected:
    void play_to_the_end() {
        use("international-2021");
        ready_to_serve(*session);
        session->record(Default{Team::B});
        ASSERT_EQ(session->state().set.stage, Stage::match_over);
        show();
    }
    [[nodiscard]] bool shows(const QString& name, const QString& words) {
        return QTest::qWaitFor([&] { return hand->text(name) == words; });
    }
    [[nodiscard]] SignerSet signed_now() const {
        return Signatures{session->written()}.under_record();
    }
};

TEST_F(Signs, AResultIsClosedByOneTouchOfEachWhoMustSign) {
    play_to_the_end();
    EXPECT_TRUE(shows("signed",
                      "Not signed: captain of Harbour Lights, captain of Mill Lane, first "
                      "referee"));
    hand->picture("table-sign-result");
    ASSERT_TRUE(hand->touch("sign"));
    ASSERT_NE(hand->await("sign-captain-a"), nullptr);
    hand->picture("table-sign-sheet");
    EXPECT_EQ(cut(), QStringList());
    EXPECT_TRUE(hand->text("sheetNote").contains("with that signature the result goes out"));
    for (const char* name : {"sign-scorer", "sign-captain-a", "sign-captain-b"})
        ASSERT_TRUE(hand->touch(name)) << name;
    EXPECT_TRUE(shows("signState", "Not signed: first referee"));
    EXPECT_EQ(signed_now(), (SignerSet{Signer::scorer, Signer::captain_a, Signer::captain_b}));
    ASSERT_TRUE(hand->touch("sign-first-referee"));
    EXPECT_TRUE(shows("signState", "The match is closed"));
    EXPECT_EQ(hand->text("sign-captain-a"), "✓ captain of Harbour Lights");
    hand->picture("table-sign-closed");
    EXPECT_EQ(cut(), QStringList());
    hand->key(Qt::Key_Escape);
    EXPECT_TRUE(shows("signed", "The match is closed"));
    hand->picture("table-sign-result-closed");
}

TEST_F(Signs, NobodySignsTwice) {
    play_to_the_end();
    ASSERT_TRUE(hand->touch("sign"));
    ASSERT_TRUE(hand->touch("sign-captain-b"));
    const std::size_t entries = session->written().size();
    EXPECT_TRUE(shows("sign-captain-b", "✓ captain of Mill Lane"));
    (void)hand->touch("sign-captain-b");
    hand->settle();
    EXPECT_EQ(session->written().size(), entries);
}

TEST_F(Signs, UndoTakesBackTheLastSignatureAlone) {
    play_to_the_end();
    ASSERT_TRUE(hand->touch("sign"));
    ASSERT_TRUE(hand->touch("sign-captain-a"));
    ASSERT_TRUE(hand->touch("sign-captain-b"));
    hand->key(Qt::Key_Escape);
    hand->settle();
    ASSERT_TRUE(hand->touch("undo"));
    EXPECT_EQ(signed_now(), SignerSet{Signer::captain_a});
    EXPECT_TRUE(shows("signed", "Not signed: captain of Mill Lane, first referee"));
}

TEST_F(Signs, WhatIsCorrectedAfterThemTakesThemBackAndARemarkDoesNot) {
    play_to_the_end();
    for (const Signer signer : closing_signers) session->record(Signature{signer});
    session->record(Note{Note::Kind::remark}, "the hall was cold");
    session->record(Protest{Team::B}, "the last rally");
    seat->lookAgain();
    EXPECT_TRUE(shows("signed", "The match is closed"));
    session->correct(Insert{1, Note{}}, "what was forgotten");
    seat->lookAgain();
    EXPECT_TRUE(shows("signed",
                      "Not signed: captain of Harbour Lights, captain of Mill Lane, first "
                      "referee"));
}

TEST_F(Signs, TeamListsAreSignedBeforeTheMatchByKey) {
    use("international-2021");
    open_match(*session);
    show();
    ASSERT_NE(hand->await("signLists"), nullptr);
    hand->picture("table-sign-toss");
    hand->key(Qt::Key_Y);
    ASSERT_NE(hand->await("sign-coach-a"), nullptr);
    EXPECT_FALSE(hand->shows("sign-first-referee"));
    for (const char* name : {"sign-captain-a", "sign-coach-a", "sign-captain-b"})
        ASSERT_TRUE(hand->touch(name)) << name;
    EXPECT_TRUE(shows("signState", "Not signed: coach of Mill Lane"));
    ASSERT_TRUE(hand->touch("sign-coach-b"));
    EXPECT_TRUE(shows("signState", "Both team lists are signed"));
    hand->picture("table-sign-lists");
    hand->key(Qt::Key_Escape);
    EXPECT_TRUE(shows("signLists", "✓ Both team lists are signed"));
}

TEST_F(Signs, TeamListsAreSignedAgainAfterASetThatWasBegunByMistake) {
    use("international-2021");
    open_match(*session);
    session->record(SetStarted{1});
    session->correct(Strike{static_cast<EntryNumber>(session->written().size())}, {});
    show();
    ASSERT_NE(hand->await("signLists"), nullptr);
    hand->key(Qt::Key_Y);
    ASSERT_TRUE(hand->touch("sign-captain-a"));
    EXPECT_TRUE(shows("sign-captain-a", "✓ captain of Harbour Lights"));
    const std::size_t entries = session->written().size();
    (void)hand->touch("sign-captain-a");
    hand->settle();
    EXPECT_EQ(session->written().size(), entries);
}

TEST_F(Signs, NothingIsToBeSignedDuringPlay) {
    ready_to_serve(*session);
    show();
    hand->key(Qt::Key_Y);
    hand->settle();
    EXPECT_FALSE(hand->shows("sign-captain-a"));
}

}  // namespace
}  // namespace courthand::client::test
