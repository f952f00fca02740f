// A match that another device writes: what is shown, the one thing to do, and what comes of it; and
// the line that says whether everything is sent.
#include <QAccessible>
#include <QTest>

#include "table_fixture.h"

namespace courthand::client::test {
namespace {

class ElsewhereScreen : public TableTest {
  protected:
    void watch() {
        ready_to_serve(*session);
        session->record(Serve{});
        session->record(RallyWon{Team::A});
        session->written_by.who = Writing::Who::elsewhere;
        session->sync.link = SyncStatus::Link::online;
    }
    /// The seat looks at the session now and then.
    void look() { QTest::qWait(600); }
};

TEST_F(ElsewhereScreen, ShowsTheMatchAndOneChoice) {
    watch();
    show();
    EXPECT_EQ(seat->page(), TableSeat::ElsewherePage);
    EXPECT_EQ(hand->text("elsewhereScore"), "Set 1: 1 : 0");
    EXPECT_FALSE(hand->shows("wonLeft"));
    EXPECT_FALSE(hand->shows("undo"));
    EXPECT_EQ(hand->text("saved"), "another device writes");
    hand->picture("table-elsewhere");
    const std::vector<QQuickItem*> touchables = hand->touchables();
    ASSERT_EQ(touchables.size(), 1U);
    EXPECT_EQ(touchables[0]->objectName(), "askToGoOn");
    EXPECT_GE(touchables[0]->height() / tablet_pixels_per_mm, 10.0);
    EXPECT_GE(touchables[0]->width() / tablet_pixels_per_mm, 10.0);
    QAccessibleInterface* spoken = QAccessible::queryAccessibleInterface(touchables[0]);
    ASSERT_NE(spoken, nullptr);
    EXPECT_EQ(spoken->role(), QAccessible::Button);
    EXPECT_FALSE(spoken->text(QAccessible::Name).isEmpty());
    EXPECT_FALSE(spoken->text(QAccessible::Description).isEmpty()) << "what it means";
}

TEST_F(ElsewhereScreen, OneTouchAsksAndTheAnswerIsShown) {
    watch();
    show();
    ASSERT_TRUE(hand->touch("askToGoOn"));
    EXPECT_EQ(session->asked, 1);
    EXPECT_TRUE(hand->text("wish").contains("Waiting for the desk or the head official"));
    EXPECT_FALSE(hand->touch("askToGoOn")) << "asked once is enough";
    EXPECT_EQ(session->asked, 1);
    hand->picture("table-elsewhere-asked");
    session->written_by.wish = Writing::Wish::declined;
    look();
    EXPECT_TRUE(hand->text("wish").contains("said no"));
    ASSERT_TRUE(hand->touch("askToGoOn"));
    EXPECT_EQ(session->asked, 2);
    // Yes: the table goes on where the server is.
    session->written_by = {};
    look();
    EXPECT_EQ(seat->page(), TableSeat::CourtPage);
    ASSERT_TRUE(hand->touch("wonRight"));
    EXPECT_EQ(score(), (Score{1, 1}));
}

TEST_F(ElsewhereScreen, TheKeyAsksAndTheKeysOfPlayDoNothing) {
    watch();
    show();
    hand->key(Qt::Key_Left);
    hand->key(Qt::Key_Up);
    hand->key(Qt::Key_Return);
    EXPECT_EQ(score(), (Score{1, 0}));
    hand->key(Qt::Key_G);
    EXPECT_EQ(session->asked, 1);
}

TEST_F(ElsewhereScreen, AFencedTableIsToldGoesOnRecordingAndMayAsk) {
    ready_to_serve(*session);
    session->sync.link = SyncStatus::Link::online;
    session->written_by.who = Writing::Who::fenced;
    show();
    EXPECT_EQ(seat->page(), TableSeat::CourtPage);
    EXPECT_EQ(hand->text("saved"), "another device writes");
    EXPECT_TRUE(hand->text("noticeText").contains("beside the record"));
    hand->picture("table-fenced");
    ASSERT_TRUE(hand->touch("wonLeft"));
    EXPECT_EQ(score(), (Score{1, 0}));
    ASSERT_TRUE(hand->touch("more"));
    ASSERT_TRUE(hand->touch("more-goOnHere"));
    EXPECT_EQ(session->asked, 1);
}

class SavedLine : public TableTest {
  protected:
    QString saved_with(const SyncStatus& status) {
        session->sync = status;
        show();
        const QString words = hand->text("saved");
        return words;
    }
    static SyncStatus online() {
        SyncStatus status;
        status.link = SyncStatus::Link::online;
        return status;
    }
};

TEST_F(SavedLine, SaysSentOnlyWhenAllIsInTheRecord) {
    ready_to_serve(*session);
    EXPECT_EQ(saved_with(online()), "saved and sent");
    EXPECT_EQ(seat->saving()->mark(), SavingLine::AllSent);
    const auto with = [](auto change) {
        SyncStatus status = online();
        change(status);
        return status;
    };
    for (const SyncStatus& status :
         {with([](SyncStatus& s) { s.waiting = 1; }), with([](SyncStatus& s) { s.refused = 1; }),
          with([](SyncStatus& s) { s.beside = 1; }), with([](SyncStatus& s) { s.elsewhere = 1; }),
          with([](SyncStatus& s) { s.practice = true; })}) {
        TearDown();
        EXPECT_FALSE(saved_with(status).contains("saved and sent"));
        EXPECT_NE(seat->saving()->mark(), SavingLine::AllSent);
    }
}

TEST_F(SavedLine, ARefusedEntryIsToldWithWhatToDo) {
    ready_to_serve(*session);
    SyncStatus status = online();
    status.refused = 2;
    status.waiting = 7;
    status.last_error =
        "The server does not take entry 12: the match is not known here. Tell the desk: the match "
        "must be made at the server first. Everything is saved on this device and offered again "
        "every minute.";
    EXPECT_EQ(saved_with(status), "saved, 2 not taken by the server");
    EXPECT_EQ(seat->saving()->mark(), SavingLine::NeedsPerson);
    EXPECT_TRUE(hand->text("noticeText").contains("Tell the desk"));
    hand->picture("table-refused");
}

TEST_F(SavedLine, WhatCameFromOutsideIsShownUntilTheNextEntry) {
    ready_to_serve(*session);
    session->sync = online();
    show();
    seat->tell(QStringLiteral("The head official ruled. Nothing was recorded."));
    EXPECT_TRUE(hand->text("noticeText").contains("Nothing was recorded"));
    ASSERT_TRUE(hand->touch("wonLeft"));
    EXPECT_FALSE(hand->text("noticeText").contains("Nothing was recorded"));
}

// The second overwrote the first.
TEST_F(SavedLine, TwoWordsFromOutsideAreShownOneAfterTheOther) {
    ready_to_serve(*session);
    session->sync = online();
    show();
    seat->tell(QStringLiteral("The first ruling recorded nothing."));
    seat->tell(QStringLiteral("The second ruling recorded nothing."));
    EXPECT_TRUE(hand->text("noticeText").contains("The first ruling"));
    ASSERT_TRUE(hand->touch("wonLeft"));
    EXPECT_TRUE(hand->text("noticeText").contains("The second ruling"));
    seat->undo();
    hand->settle();
    EXPECT_FALSE(hand->text("noticeText").contains("ruling"));
}

// A touch that was not saved counted as having seen them, and so did one made while the screen
// still said why the last one was not saved.
TEST_F(SavedLine, WordsThatWereNotOnTheScreenAreNotSeen) {
    ready_to_serve(*session);
    session->sync = online();
    show();
    QStringList seen;
    QObject::connect(seat.get(), &TableSeat::newsSeen,
                     [&seen](const QString& words) { seen << words; });
    seat->tell(QStringLiteral("A ruling recorded nothing."));
    session->disk_error = "The disk is full.";
    ASSERT_TRUE(hand->touch("wonLeft"));
    EXPECT_TRUE(seen.isEmpty()) << "nothing was saved";
    EXPECT_TRUE(hand->text("noticeText").contains("disk is full"));
    session->disk_error.clear();
    ASSERT_TRUE(hand->touch("wonLeft"));
    EXPECT_TRUE(seen.isEmpty()) << "the disk was on the screen in its place";
    EXPECT_TRUE(hand->text("noticeText").contains("A ruling"));
    seat->undo();
    EXPECT_EQ(seen, QStringList{"A ruling recorded nothing."});
}

}  // namespace
}  // namespace courthand::client::test
