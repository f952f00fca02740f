// The head official's seat by keys alone: Enter presses what has the focus, and when that is gone
// the focus goes on where the eyes are.
#include "head_fixture.h"

namespace courthand::tests {
namespace {

class HeadKeys : public HeadSeatTest {
  protected:
    /// That item can be seen and has the focus, or a line of it has.
    [[nodiscard]] bool focus_is_at(const char* name) {
        const QQuickItem* at = screen->window().activeFocusItem();
        if (at == nullptr || !at->isVisible() || !at->isEnabled()) return false;
        while (at != nullptr && at->objectName() != QLatin1String(name)) at = at->parentItem();
        return at != nullptr;
    }
    [[nodiscard]] std::string focused() {
        const QQuickItem* const at = screen->window().activeFocusItem();
        return at == nullptr ? std::string{"nothing"} : at->objectName().toStdString();
    }
    [[nodiscard]] bool focus_comes_to(const char* name) {
        return Screen::wait([&] { return focus_is_at(name); });
    }
    /// Tab until that has the focus; false when it never has.
    [[nodiscard]] bool tab_to(const char* name) {
        constexpr int most_stops = 40;
        for (int i = 0; i < most_stops && !focus_is_at(name); ++i) screen->key(Qt::Key_Tab);
        return focus_is_at(name);
    }
};

TEST_F(HeadKeys, EnterPressesTheButtonThatHasTheFocus) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board()));
    ASSERT_TRUE(tab_to("liberos"));
    screen->key(Qt::Key_Return);
    EXPECT_NE(screen->peek(QStringLiteral("liberoTable")), nullptr);
    EXPECT_TRUE(focus_is_at("liberos")) << "it is there still";
    ASSERT_TRUE(tab_to("standings"));
    screen->key(Qt::Key_Enter);
    EXPECT_EQ(screen->peek(QStringLiteral("liberoTable")), nullptr);
}

TEST_F(HeadKeys, AnAlertIsTakenAndRuledWithoutAHandOnTheGlass) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board()));
    screen->key(Qt::Key_F1);
    ASSERT_EQ(seat->page()->alertId(), QStringLiteral("a1"));
    ASSERT_TRUE(focus_comes_to("going"));
    screen->key(Qt::Key_Return);
    ASSERT_TRUE(Screen::wait([&] { return source->board().alert("a1")->claimed_by == "Chief"; }));
    EXPECT_TRUE(focus_comes_to("ruling"))
        << "what was pressed cannot be pressed again: " << focused();
    screen->key(Qt::Key_Return);
    EXPECT_NE(screen->find(QStringLiteral("recordRuling")), nullptr);
    ASSERT_TRUE(tab_to("choice0"));
    screen->key(Qt::Key_Space);
    ASSERT_TRUE(tab_to("recordRuling"));
    screen->key(Qt::Key_Return);
    ASSERT_TRUE(Screen::wait([&] { return source->rulings().size() == 1; }));
    // The page is closed; the keys go on among the courts.
    EXPECT_TRUE(Screen::wait([&] { return !seat->page()->open(); }));
    EXPECT_TRUE(focus_comes_to("courtGrid")) << focused();
}

TEST_F(HeadKeys, AKeyThatTurnsThePageTakesTheFocusAlong) {
    event.say(event_case("harbour-cup-24-teams", "result S11 paper 25-20 25-22"));
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board(), 1366, 768));
    ASSERT_TRUE(focus_comes_to("courtGrid")) << focused();
    screen->key(Qt::Key_P);
    EXPECT_TRUE(focus_comes_to("standingFacts")) << focused();
    ASSERT_TRUE(tab_to("finals-U16"));
    screen->key(Qt::Key_Return);
    EXPECT_NE(screen->peek(QStringLiteral("placeList")), nullptr);
    EXPECT_TRUE(focus_is_at("finals-U16"));
    // News make none of it anew.
    event.say(event_of("result S11 paper 25-20 25-22\n"));
    EXPECT_TRUE(Screen::wait([&] {
        return seat->standings()->finals()->rows()->field(12, QStringLiteral("state")) ==
               QStringLiteral("stands");
    }));
    EXPECT_TRUE(focus_is_at("finals-U16"));
    screen->key(Qt::Key_Escape);
    EXPECT_TRUE(focus_comes_to("courtGrid")) << focused();
}

TEST_F(HeadKeys, TheLineOfAPoolStaysWhereTheKeysAre) {
    event.say(event_case("decision-by-lot", "take-back 11"));
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board(), 1366, 768));
    screen->key(Qt::Key_P);
    QQuickItem* const list = screen->find(QStringLiteral("standingFacts"));
    ASSERT_TRUE(focus_comes_to("standingFacts"));
    screen->key(Qt::Key_Down);
    ASSERT_EQ(list->property("currentIndex").toInt(), 1);
    screen->key(Qt::Key_Return);
    EXPECT_NE(seat->standings()->fact(), 0);
    EXPECT_EQ(list->property("currentIndex").toInt(), 1);
    EXPECT_TRUE(focus_is_at("standingFacts"));
    const auto fact = seat->standings()->fact();
    screen->hold(Qt::Key_Return);
    EXPECT_EQ(seat->standings()->fact(), fact) << "a key that is held asks once";
    screen->key(Qt::Key_End);
    EXPECT_EQ(list->property("currentIndex").toInt(), list->property("count").toInt() - 1);
    screen->key(Qt::Key_Home);
    EXPECT_EQ(list->property("currentIndex").toInt(), 0);
}

TEST_F(HeadKeys, OnAPhoneANewAlertLeavesTheFocusOnItsButton) {
    auto board = harbour_cup_board();
    ASSERT_NO_FATAL_FAILURE(open(board, 390, 844));
    ASSERT_TRUE(tab_to("tab2"));
    board.alerts.pop_back();
    source->show(board);
    Screen::settle();
    EXPECT_TRUE(focus_is_at("tab2"));
    screen->key(Qt::Key_Return);
    EXPECT_NE(screen->peek(QStringLiteral("liberoTable")), nullptr);
}

}  // namespace
}  // namespace courthand::tests
