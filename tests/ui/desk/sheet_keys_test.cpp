// Enter on a sheet of the desk: it chooses what has the focus, goes on once, and its hint stands on
// what it does.
#include <QSignalSpy>

#include "tournament_fixture.h"

namespace courthand::tests {
namespace {

class SheetKeys : public TournamentTest {
  protected:
    void begin() {
        ASSERT_NO_FATAL_FAILURE(
            open(event_case("harbour-cup-24-teams", "result C1 paper 21-12 21-14")));
    }
    void click(const char* name) { screen->click(QString::fromLatin1(name)); }
    [[nodiscard]] bool shows(const char* name) const {
        return screen->peek(QString::fromLatin1(name)) != nullptr;
    }
    /// By Tab, as a person goes there.
    void go_to(const char* name) {
        const QQuickItem* const wanted = screen->find(QString::fromLatin1(name));
        constexpr int most_stops = 60;
        for (int i = 0; i < most_stops && !wanted->hasActiveFocus(); ++i) screen->key(Qt::Key_Tab);
        ASSERT_TRUE(wanted->hasActiveFocus()) << name;
    }
    [[nodiscard]] QString hint(const char* button) {
        return screen->find(QString::fromLatin1(button))->property("keyHint").toString();
    }
    [[nodiscard]] bool asks() const { return seat->tournament()->preview()->open(); }
    [[nodiscard]] QString asked() const { return seat->tournament()->preview()->title(); }
};

TEST_F(SheetKeys, TheSheetOfANewMatchBeginsEmptyEachTime) {
    ASSERT_NO_FATAL_FAILURE(begin());
    screen->key(Qt::Key_N, Qt::ControlModifier);
    click("first-t1");
    click("second-t4");
    click("newCourt3");
    screen->key(Qt::Key_Return);
    const std::size_t planned = harbour_cup_book().matches.size() + 1;
    ASSERT_TRUE(Screen::wait([&] { return !shows("planMatch"); }));
    ASSERT_EQ(desk->book().matches.size(), planned);
    screen->key(Qt::Key_N, Qt::ControlModifier);
    screen->key(Qt::Key_Return);
    EXPECT_EQ(screen->text_of(QStringLiteral("newMatchProblem")),
              QStringLiteral("Choose both teams."));
    EXPECT_EQ(desk->book().matches.size(), planned);
    EXPECT_FALSE(screen->find(QStringLiteral("newCourt3"))->property("checked").toBool());
}

TEST_F(SheetKeys, EnterOnACourtChoosesItAndAgainPlansTheMatchThere) {
    ASSERT_NO_FATAL_FAILURE(begin());
    screen->key(Qt::Key_N, Qt::ControlModifier);
    click("first-t1");
    click("second-t4");
    click("newCourt2");
    ASSERT_NO_FATAL_FAILURE(go_to("newCourt3"));
    screen->key(Qt::Key_Return);
    ASSERT_EQ(desk->book().matches.size(), harbour_cup_book().matches.size());
    screen->key(Qt::Key_Return);
    ASSERT_EQ(desk->book().matches.size(), harbour_cup_book().matches.size() + 1);
    EXPECT_EQ(desk->book().matches.back().court, 3U);
}

/// What is chosen is still chosen when somebody presses it once more.
TEST_F(SheetKeys, AChoiceThatIsPressedAgainStaysChosen) {
    ASSERT_NO_FATAL_FAILURE(begin());
    screen->key(Qt::Key_N, Qt::ControlModifier);
    for (int times = 0; times < 2; ++times) {
        click("newCourt2");
        EXPECT_TRUE(screen->find(QStringLiteral("newCourt2"))->property("checked").toBool());
    }
    ASSERT_NO_FATAL_FAILURE(go_to("newCourt3"));
    for (int times = 0; times < 2; ++times) {
        screen->key(Qt::Key_Space);
        EXPECT_TRUE(screen->find(QStringLiteral("newCourt3"))->property("checked").toBool());
    }
}

TEST_F(SheetKeys, EnterOnAPlaceChoosesItAndAgainMakesItsCode) {
    ASSERT_NO_FATAL_FAILURE(begin());
    click("work-code-5");
    ASSERT_NO_FATAL_FAILURE(go_to("place1"));
    screen->key(Qt::Key_Return);
    EXPECT_TRUE(seat->code()->symbols().isEmpty());
    screen->key(Qt::Key_Return);
    ASSERT_TRUE(Screen::wait([&] { return !seat->code()->symbols().isEmpty(); }));
    EXPECT_EQ(seat->code()->place(), QStringLiteral("desk"));
}

/// Somebody reads it out: another key than Enter, or a touch, makes the next.
TEST_F(SheetKeys, EnterMakesOneCodeOnly) {
    for (const bool from_button : {false, true}) {
        ASSERT_NO_FATAL_FAILURE(begin());
        click("work-code-5");
        QSignalSpy changes(seat->code(), &seats::CodeOffer::changed);
        if (from_button) {
            ASSERT_NO_FATAL_FAILURE(go_to("issueCode"));
        }
        EXPECT_EQ(hint("issueCode"), QStringLiteral("Enter"));
        screen->key(Qt::Key_Return);
        ASSERT_TRUE(Screen::wait([&] { return !seat->code()->symbols().isEmpty(); }));
        EXPECT_EQ(hint("issueCode"), QString());
        changes.clear();
        screen->key(Qt::Key_Return);
        screen->key(Qt::Key_Enter);
        EXPECT_EQ(changes.count(), 0) << from_button;
        EXPECT_TRUE(shows("symbols"));
        click("issueCode");
        EXPECT_GT(changes.count(), 0);
    }
}

/// The sheet from which it was asked closes, and not the one below with what is written there.
TEST_F(SheetKeys, WorkThatIsRecordedLeavesTheMatchBelowAsItWas) {
    ASSERT_NO_FATAL_FAILURE(begin());
    event::PersonListed official;
    official.person = 3;
    event->say({{official, {}}, {event::CrewFormed{"Blue", {3}}, {}}});
    screen->key(Qt::Key_F8);
    click("result-C2");
    screen->type(QStringLiteral("typedSets"), QStringLiteral("21-15"));
    click("whoWorks");
    click("crew-Blue");
    click("giveDuty");
    record();
    EXPECT_EQ(state().match(*state().find_match("C2")).duty.crew, "Blue");
    EXPECT_TRUE(Screen::wait([&] { return !shows("giveDuty"); }));
    EXPECT_EQ(screen->text_of(QStringLiteral("typedSets")), QStringLiteral("21-15"));
    screen->type(QStringLiteral("typedSets"), QStringLiteral(" 21-17"));
    screen->key(Qt::Key_Return);
    record();
    EXPECT_TRUE(Screen::wait([&] { return !shows("typedSets"); }));
}

TEST_F(SheetKeys, DecideIsOfferedWhileThereIsSomethingToDecideAndEnterDoesWhatIsOffered) {
    ASSERT_NO_FATAL_FAILURE(
        open(event_case("decision-by-lot",
                        "decision U16 pool A by lot teams \"Mill Lane\" \"Saltmarsh\" \"Harbour "
                        "Lights\"")));
    screen->key(Qt::Key_F6);
    click("pool-U16|A|Mill Lane");
    EXPECT_TRUE(shows("reasonDecide"));
    event->say({{event::ResultReopened{"A1"}, {}}});
    EXPECT_TRUE(Screen::wait([&] { return !shows("reasonDecide"); }));
    event::ResultConfirmed again;
    again.match = "A1";
    again.from = event::ResultFrom::paper;
    again.sets = {{25, 20}, {25, 20}};
    event->say({{again, {}}});
    EXPECT_TRUE(Screen::wait([&] { return shows("reasonDecide"); }));
    screen->key(Qt::Key_Return);
    EXPECT_TRUE(shows("decideNow"));
    screen->key(Qt::Key_Escape);
    click("pool-U16|A|Mill Lane");
    event->say({{event::ResultReopened{"A1"}, {}}});
    EXPECT_TRUE(Screen::wait([&] { return !shows("reasonDecide"); }));
    screen->key(Qt::Key_Return);
    EXPECT_TRUE(Screen::wait([&] { return !shows("reason0"); })) << "Enter closes it";
    EXPECT_FALSE(shows("decideNow"));
}

TEST_F(SheetKeys, TheHintOnAMatchStandsOnWhatEnterDoes) {
    ASSERT_NO_FATAL_FAILURE(begin());
    finish_c1();
    screen->key(Qt::Key_F8);
    click("result-C1");
    const auto hinted = [&] {
        QStringList buttons;
        for (const char* button : {"confirmResult", "enterResult", "placeNow"})
            if (!hint(button).isEmpty()) buttons << QString::fromLatin1(button);
        return buttons;
    };
    EXPECT_EQ(hinted(), QStringList{QStringLiteral("confirmResult")});
    screen->type(QStringLiteral("placeCourt"), QStringLiteral("4"));
    EXPECT_EQ(hinted(), QStringList{QStringLiteral("placeNow")});
    screen->type(QStringLiteral("typedSets"), QStringLiteral("21-15 21-17"));
    EXPECT_EQ(hinted(), QStringList{QStringLiteral("enterResult")});
    screen->picture(QStringLiteral("match-hint-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->key(Qt::Key_Return);
    EXPECT_EQ(asked(), QStringLiteral("Result of C1 from paper"));
    screen->key(Qt::Key_Escape);
    click("award-double-default");
    EXPECT_EQ(hinted(), QStringList());
    EXPECT_EQ(hint("awardNow"), QStringLiteral("Enter"));
}

TEST_F(SheetKeys, LettersOfAPageAreMeantWithoutOtherKeysAndOnce) {
    ASSERT_NO_FATAL_FAILURE(begin());
    screen->key(Qt::Key_F8);
    for (const auto with : {Qt::ControlModifier, Qt::AltModifier, Qt::ShiftModifier}) {
        screen->key(Qt::Key_W, with);
        EXPECT_FALSE(shows("giveDuty")) << with;
    }
    screen->hold(Qt::Key_W);
    EXPECT_FALSE(shows("giveDuty"));
    screen->key(Qt::Key_W);
    EXPECT_TRUE(shows("giveDuty"));
    ASSERT_NO_FATAL_FAILURE(open_a_decision());
    EXPECT_TRUE(shows("decideNow"));
    screen->key(Qt::Key_Escape);
    screen->key(Qt::Key_D, Qt::ControlModifier);
    screen->hold(Qt::Key_D);
    EXPECT_FALSE(shows("decideNow"));
}

/// An act ends under the finger that still holds the key.
TEST_F(SheetKeys, EnterThatIsHeldOpensNoRow) {
    ASSERT_NO_FATAL_FAILURE(begin());
    struct Page {
        Qt::Key key;
        const char* list;
    };
    for (const Page& page : {Page{Qt::Key_F1, "matchList"}, Page{Qt::Key_F3, "entryList"},
                             Page{Qt::Key_F6, "poolList"}, Page{Qt::Key_F8, "resultList"},
                             Page{Qt::Key_F9, "recordList"}, Page{Qt::Key_F10, "placeList"}}) {
        screen->key(page.key);
        screen->find(QString::fromLatin1(page.list))->forceActiveFocus(Qt::TabFocusReason);
        screen->key(Qt::Key_Down);
        for (const Qt::Key key : {Qt::Key_Return, Qt::Key_Enter}) {
            screen->hold(key);
            for (const QObject* each : screen->window().findChildren<QObject*>())
                EXPECT_FALSE(each->inherits("QQuickPopup") && each->property("visible").toBool())
                    << page.list << ": " << each->metaObject()->className();
        }
    }
}

TEST_F(SheetKeys, ALineToTypeInChoosesByEnterAndThenGoesOn) {
    ASSERT_NO_FATAL_FAILURE(begin());
    screen->key(Qt::Key_F8);
    screen->key(Qt::Key_W);
    screen->type(QStringLiteral("workersFind"), QStringLiteral("mill"));
    screen->key(Qt::Key_Return);
    EXPECT_EQ(seat->tournament()->duties()->workers(), QStringLiteral("Mill Lane"));
    EXPECT_FALSE(asks()) << "the same key does not go on";
    screen->key(Qt::Key_Return);
    EXPECT_TRUE(Screen::wait([&] { return asks(); }));
}

}  // namespace
}  // namespace courthand::tests
