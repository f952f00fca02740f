// Words that once puzzled or misled a person who sees the table for the first time, or were cut.
#include "table_fixture.h"

namespace courthand::client::test {
namespace {

class WordsOnScreen : public TableTest {
  protected:
    [[nodiscard]] QRectF rect(const QString& name) const {
        const QQuickItem* item = hand->find(name);
        return item == nullptr ? QRectF{}
                               : item->mapRectToScene({0, 0, item->width(), item->height()});
    }
    [[nodiscard]] QString footnote(const QString& tile) const {
        return hand->find(tile)->property("footnote").toString();
    }
};

const QString long_news = QStringLiteral(
    "The head official ruled on \"A libero stands in the front row.\" of Harbour Lights, entry 57. "
    "That fault no longer stands as it was; nothing was recorded. Ask the head official if in "
    "doubt.");

TEST_F(WordsOnScreen, AToastIsWholeAndNeverCoversTheStateOfSaving) {
    ready_to_serve(*session);
    session->sync.waiting = 12;
    show();
    for (const QString& words : {long_news, QStringLiteral("Score 1 : 0")}) {
        seat->tell(words);
        hand->settle();
        ASSERT_TRUE(hand->shows("toast"));
        EXPECT_EQ(hand->text("toast"), words);
        EXPECT_FALSE(rect("toast").intersects(rect("saved")));
        EXPECT_FALSE(cut().contains(words)) << words.toStdString();
        hand->picture(words == long_news ? "table-toast-long" : "table-toast");
    }
}

TEST_F(WordsOnScreen, AToastLeavesCourtAndSetInSightAndGoesWithTheNextEntry) {
    open_match(*session);
    show();
    ASSERT_TRUE(hand->touch("sideA"));
    ASSERT_TRUE(hand->touch("serveA"));
    ASSERT_TRUE(hand->touch("recordToss"));
    ASSERT_TRUE(hand->touch("beginSet"));
    for (const int n : {1, 2, 3, 4, 5, 6, 21, 22})
        ASSERT_TRUE(hand->touch(QStringLiteral("roster%1").arg(n)));
    ASSERT_TRUE(hand->touch("handIn"));
    EXPECT_TRUE(hand->text("toast").contains("1 2 3 4 5 6"));
    EXPECT_GE(rect("toast").left(), rect("setNow").right());
    for (const int n : {31, 32, 33, 34, 35, 36, 41})
        ASSERT_TRUE(hand->touch(QStringLiteral("roster%1").arg(n)));
    ASSERT_TRUE(hand->touch("none1"));
    ASSERT_TRUE(hand->touch("handIn"));
    hand->settle();
    EXPECT_FALSE(hand->shows("toast")) << "on the court page the last entry is read in its line";
    EXPECT_TRUE(hand->text("noticeText").contains("31 32 33 34 35 36"));
}

TEST_F(WordsOnScreen, AToastBesideARunningClockCoversNeither) {
    ready_to_serve(*session);
    show();
    session->record(TimeOut{Team::A});
    ASSERT_TRUE(hand->touch("timeOut"));
    ASSERT_TRUE(hand->touch("timeOutRight"));
    hand->key(Qt::Key_Escape);
    seat->tell(long_news);
    hand->settle();
    ASSERT_TRUE(hand->shows("toast"));
    ASSERT_TRUE(hand->shows("clock"));
    EXPECT_FALSE(rect("toast").intersects(rect("clock")));
    EXPECT_FALSE(rect("toast").intersects(rect("saved")));
    hand->picture("table-toast-clock");
}

TEST_F(WordsOnScreen, ALiberoOnTheSubstitutionSheetIsNamedAsOne) {
    ready_to_serve(*session);
    show();
    ASSERT_TRUE(hand->touch("substitution"));
    ASSERT_TRUE(hand->touch("out1"));
    hand->settle();
    EXPECT_EQ(hand->find("in21")->property("whyNot").toString(), "libero");
    EXPECT_EQ(cut().join(" | ").toStdString(), "");
    hand->picture("table-substitution-liberos");
}

TEST_F(WordsOnScreen, TheLiberoBoxesAreNotTakenForTheSidesOfTheCourt) {
    ready_to_serve(*session);
    session->record(LiberoReplacement{Team::A, no(22), no(6)});
    show();
    EXPECT_EQ(hand->find("leftLibero0")->property("numeral").toString(), "L1");
    EXPECT_EQ(footnote("left5"), "L2 for 6");
}

TEST_F(WordsOnScreen, TheMatchIsCalledByItsNameAndOnlyOutsideTheEventByANumber) {
    struct Row {
        const char* name;
        std::uint32_t number;
        const char* called;
    };
    for (const Row& row :
         {Row{"E1", 33, "E1, us-domestic-2014"}, Row{"", 33, "match 33, us-domestic-2014"},
          Row{"", 0, "match opened here, us-domestic-2014"}}) {
        TearDown();
        MatchSheet sheet = harbour_cup_sheet("us-domestic-2014");
        sheet.name = row.name;
        sheet.number = row.number;
        session = std::make_unique<MemorySession>("us-domestic-2014", sheet);
        ready_to_serve(*session);
        show();
        EXPECT_EQ(hand->text("matchName").toStdString(), row.called);
    }
}

TEST_F(WordsOnScreen, APracticePromisesNoSending) {
    ready_to_serve(*session);
    session->sync.practice = true;
    session->sync.link = SyncStatus::Link::offline;
    session->sync.last_error = "No connection to the server desk.example:7443.";
    show();
    EXPECT_EQ(hand->text("saved"), "practice, not sent");
    EXPECT_TRUE(hand->text("noticeRemedy").startsWith("Practice: nothing of this match is sent."))
        << hand->text("noticeRemedy").toStdString();
}

TEST_F(WordsOnScreen, AFolderWithoutAnEnrolmentIsSaidOnTheFirstScreen) {
    MatchSheet sheet = harbour_cup_sheet("us-domestic-2014");
    sheet.players = {};
    session = std::make_unique<MemorySession>("us-domestic-2014", sheet);
    session->record(MatchOpened{session->rules().format});
    session->sync.practice = true;
    session->sync.not_enrolled =
        "Practice only: the folder /home/table/courthand/device-of-court-3 holds no enrolment. "
        "Nothing is sent, and no match of the desk comes here. If the folder is mistyped, start "
        "again with the right one after --data. A new device: ask the desk for a code, then "
        "courthand enrol --server HOST:PORT --code CODE --data "
        "/home/table/courthand/device-of-court-3";
    show();
    EXPECT_EQ(hand->text("help").toStdString(), session->sync.not_enrolled);
    EXPECT_EQ(cut().join(" | ").toStdString(), "") << "whole";
    hand->picture("table-not-enrolled");
}

}  // namespace
}  // namespace courthand::client::test
