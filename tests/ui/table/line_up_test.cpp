// Toss, line-up sheets with both libero boxes, the check of the second referee.
#include "table_fixture.h"

#include <algorithm>
#include <vector>

namespace courthand::client::test {
namespace {

class LineUpScreen : public TableTest {
  protected:
    void putSix(const std::vector<int>& numbers) {
        for (const int n : numbers)
            ASSERT_TRUE(hand->touch(QStringLiteral("roster%1").arg(n))) << n;
    }
};

TEST_F(LineUpScreen, FromTossToFirstServeByTouch) {
    open_match(*session);
    show();

    EXPECT_FALSE(hand->touch("recordToss")) << "a toss without answers must not be recorded";
    ASSERT_TRUE(hand->touch("sideB"));
    ASSERT_TRUE(hand->touch("serveA"));
    hand->picture("table-toss");
    ASSERT_TRUE(hand->touch("recordToss"));
    const Toss* toss = last<Toss>();
    ASSERT_NE(toss, nullptr);
    EXPECT_EQ(toss->left, Team::B);
    EXPECT_EQ(toss->serves, Team::A);

    ASSERT_TRUE(hand->touch("beginSet"));
    ASSERT_NE(last<SetStarted>(), nullptr);

    putSix({1, 2, 3, 4, 5, 6});
    EXPECT_FALSE(hand->touch("handIn")) << "blank libero boxes must be settled by a person";
    putSix({21});
    EXPECT_FALSE(hand->touch("handIn"));
    hand->picture("table-line-up");
    ASSERT_TRUE(hand->touch("none1"));
    ASSERT_TRUE(hand->touch("handIn"));
    const LineUp* sheet = last<LineUp>();
    ASSERT_NE(sheet, nullptr);
    EXPECT_EQ(sheet->team, Team::A);
    EXPECT_EQ(sheet->order[2], no(3));
    EXPECT_EQ(sheet->liberos[0].mark, LiberoBox::Mark::number);
    EXPECT_EQ(sheet->liberos[0].number, no(21));
    EXPECT_EQ(sheet->liberos[1].mark, LiberoBox::Mark::none);
    EXPECT_EQ(sheet->captain, no(3)) << "the team captain starts, so the C is his";

    putSix({31, 32, 33, 34, 35, 36, 41});
    ASSERT_TRUE(hand->touch("none1"));
    ASSERT_TRUE(hand->touch("handIn"));

    hand->picture("table-check");
    for (int i = 0; i < 6; ++i) ASSERT_TRUE(hand->touch(QStringLiteral("right%1").arg(i)));
    const LineUpChecked* checked = last<LineUpChecked>();
    ASSERT_NE(checked, nullptr) << "the sixth tick is the check";
    EXPECT_EQ(checked->team, Team::A) << "A was put on the right by the toss";
    ASSERT_TRUE(hand->touch("expected"));
    ASSERT_NE(last<LineUpChecked>(), nullptr);
    EXPECT_EQ(last<LineUpChecked>()->team, Team::B);
    EXPECT_TRUE(session->standing().empty());
    EXPECT_EQ(hand->text("next"), "1 serves for Harbour Lights");
}

TEST_F(LineUpScreen, ByKeyboardAlone) {
    open_match(*session);
    session->record(Toss{Team::A, Team::A});
    session->record(SetStarted{1});
    show();
    for (const char* number : {"1", "2", "3", "4", "5", "6", "21", "22"}) {
        hand->type(QString::fromLatin1(number));
        hand->key(Qt::Key_Return);
    }
    hand->key(Qt::Key_Return);
    const LineUp* sheet = last<LineUp>();
    ASSERT_NE(sheet, nullptr);
    EXPECT_EQ(sheet->order[5], no(6));
    EXPECT_EQ(sheet->liberos[1].number, no(22));
}

TEST_F(LineUpScreen, ANumberOffTheListIsNotTakenSilently) {
    open_match(*session);
    session->record(Toss{Team::A, Team::A});
    session->record(SetStarted{1});
    show();
    for (const char* number : {"1", "2", "3", "4", "5", "66"}) {
        hand->type(QString::fromLatin1(number));
        hand->key(Qt::Key_Return);
    }
    ASSERT_TRUE(hand->touch("none0"));
    ASSERT_TRUE(hand->touch("none1"));
    EXPECT_FALSE(seat->lineUp()->problems().isEmpty());
    hand->settle();
    EXPECT_EQ(cut().join(" | ").toStdString(), "") << "rule, and what is written already";
    hand->picture("table-line-up-problem");
    ASSERT_TRUE(hand->touch("handIn")) << "but it can be recorded as it is written";
    ASSERT_NE(last<LineUp>(), nullptr);
    EXPECT_FALSE(session->standing().empty());
}

TEST_F(LineUpScreen, ABlankBoxIsSettledByAPersonBeforeTheFirstServe) {
    open_match(*session);
    session->record(Toss{Team::A, Team::A});
    session->record(SetStarted{1});
    const LiberoBox libero{LiberoBox::Mark::number, no(21)};
    const LiberoBox none{LiberoBox::Mark::none, Jersey::none()};
    session->record(
        LineUp{Team::A, {no(1), no(2), no(3), no(4), no(5), no(6)}, {libero, {}}, no(3)});
    session->record(
        LineUp{Team::B, {no(31), no(32), no(33), no(34), no(35), no(36)}, {none, none}, no(33)});
    show();
    EXPECT_TRUE(hand->text("next").contains("second libero"));
    EXPECT_FALSE(hand->touch("wonLeft")) << "no rally before the sheets are settled";
    ASSERT_TRUE(hand->touch("expected"));
    hand->picture("table-box");
    ASSERT_TRUE(hand->touch("boxNone"));
    const LiberoBoxSettled* settled = last<LiberoBoxSettled>();
    ASSERT_NE(settled, nullptr);
    EXPECT_EQ(settled->team, Team::A);
    EXPECT_EQ(settled->box, 1);
    EXPECT_EQ(settled->entry.mark, LiberoBox::Mark::none);
}

TEST_F(LineUpScreen, TheTeamListsAreTakenOverByAPerson) {
    session->record(MatchOpened{session->rules().format});
    show();
    ASSERT_TRUE(hand->touch("takeLists"));
    EXPECT_EQ(session->state().team.a.count, 12);
    EXPECT_EQ(session->state().team.b.captain, no(33));
    EXPECT_TRUE(hand->await("recordToss") != nullptr);
}

TEST_F(LineUpScreen, SameAsLastSetCopiesTheSheet) {
    open_match(*session);
    session->record(Toss{Team::A, Team::A});
    session->record(SetStarted{1});
    show();
    EXPECT_FALSE(hand->shows("sameAsLast"));
    putSix({1, 2, 3, 4, 5, 6, 21});
    ASSERT_TRUE(hand->touch("none1"));
    ASSERT_TRUE(hand->touch("handIn"));
    seat->openLineUp(true);
    ASSERT_TRUE(hand->touch("sameAsLast"));
    EXPECT_TRUE(seat->lineUp()->complete());
    EXPECT_EQ(seat->lineUp()->sheet().order[4], no(5));
}

/// The list of the desk with these numbers of team A marked as liberos.
MatchSheet sheet_with_listed(const std::vector<int>& liberos) {
    MatchSheet sheet = harbour_cup_sheet("us-domestic-2014");
    for (MatchSheet::Player& player : sheet.players.a)
        player.libero =
            std::find(liberos.begin(), liberos.end(), player.number.number()) != liberos.end();
    for (MatchSheet::Player& player : sheet.players.b) player.libero = false;
    return sheet;
}

TEST_F(LineUpScreen, LiberosOfTheDesksListAreProposedAndAPersonTakesThem) {
    session = std::make_unique<MemorySession>("us-domestic-2014", sheet_with_listed({21, 22}));
    open_match(*session);
    session->record(Toss{Team::A, Team::A});
    session->record(SetStarted{1});
    show();
    EXPECT_EQ(session->state().team.a.designated[0], Jersey::none()) << "a list designates nobody";
    EXPECT_EQ(seat->lineUp()->listedLiberos(), QStringLiteral("21, 22"));
    putSix({1, 2, 3, 4, 5, 6});
    EXPECT_FALSE(hand->touch("handIn")) << "nor does it settle a box";
    hand->picture("table-line-up-listed-liberos");
    EXPECT_EQ(cut().join(" | ").toStdString(), "");
    ASSERT_TRUE(hand->touch("listedLiberos"));
    EXPECT_EQ(seat->lineUp()->listedLiberos(), QString());
    EXPECT_EQ(last<LineUp>(), nullptr) << "they are written, and not recorded";
    ASSERT_TRUE(hand->touch("undo"));
    EXPECT_EQ(seat->lineUp()->listedLiberos(), QStringLiteral("21, 22"));
    ASSERT_TRUE(hand->touch("listedLiberos"));
    ASSERT_TRUE(hand->touch("handIn"));
    const LineUp* sheet = last<LineUp>();
    ASSERT_NE(sheet, nullptr);
    EXPECT_EQ(sheet->liberos[0].number, no(21));
    EXPECT_EQ(sheet->liberos[1].number, no(22));
    EXPECT_EQ(session->state().team.a.designated[0], no(21));
}

TEST_F(LineUpScreen, NobodyIsProposedWhereTheSheetOrTheListLeavesItOpen) {
    struct Row {
        std::vector<int> listed;
        std::vector<int> written;
        const char* proposed;
    };
    for (const Row& row : std::vector<Row>{{{}, {}, ""},
                                           Row{{21}, {}, "21"},
                                           // Three marked: which two, only the sheet says.
                                           Row{{14, 21, 22}, {}, ""},
                                           // Whoever starts is no libero of this sheet.
                                           Row{{6, 21}, {1, 2, 3, 4, 5, 6}, ""},
                                           // The sheet has named one already.
                                           Row{{21, 22}, {1, 2, 3, 4, 5, 6, 22}, ""}}) {
        TearDown();
        session =
            std::make_unique<MemorySession>("us-domestic-2014", sheet_with_listed(row.listed));
        open_match(*session);
        session->record(Toss{Team::A, Team::A});
        session->record(SetStarted{1});
        show();
        putSix(row.written);
        EXPECT_EQ(seat->lineUp()->listedLiberos(), QString::fromLatin1(row.proposed));
        if (row.listed.size() == 1) {
            ASSERT_TRUE(hand->touch("listedLiberos"));
            EXPECT_EQ(seat->lineUp()->sheet().liberos[1].mark, LiberoBox::Mark::blank)
                << "whether there is a second one, a person says";
        }
    }
}

}  // namespace
}  // namespace courthand::client::test
