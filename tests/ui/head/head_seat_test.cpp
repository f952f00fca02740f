// The head official's seat on a board in memory: real windows, real touches, mouse and keys.
#include "head_fixture.h"

#include <QFontMetricsF>

#include "venue/board_text.h"

namespace courthand::tests {
namespace {

TEST_F(HeadSeatTest, OneCardForEachCourtWithStateScoreAndWorstAlert) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board()));
    screen->picture(QStringLiteral("head"));
    ASSERT_EQ(seat->courts()->count(), 4);
    EXPECT_EQ(told(0, CourtList::StateRole), QStringLiteral("In play"));
    EXPECT_EQ(told(2, CourtList::StateRole), QStringLiteral("Line-ups"));
    const auto team = seat->courts()->data(seat->courts()->index(0), CourtList::TeamARole).toMap();
    EXPECT_EQ(team.value(QStringLiteral("points")).toString(), QStringLiteral("18"));
    EXPECT_EQ(team.value(QStringLiteral("liberos")).toString(), QStringLiteral("L 21 for 5"));
    EXPECT_EQ(told(0, CourtList::AlertTitleRole), QStringLiteral("Libero: no completed rally"));
    EXPECT_EQ(told(0, CourtList::AlertAgeRole), QStringLiteral("0:42"));
    pass(9s);
    EXPECT_EQ(told(0, CourtList::AlertAgeRole), QStringLiteral("0:51"));
}

/// The next match has come to court 1; both alerts of match 12 still wait for somebody.
venue::Board board_after_a_match() {
    auto board = harbour_cup_board();
    auto late = *board.alert("a1");
    late.id = "a6";
    late.severity = Severity::low;
    board.alerts.push_back(late);
    board.courts[0].match_id = "m20";
    board.courts[0].match_number = 20;
    board.courts[0].stage = venue::CourtStage::before_match;
    return board;
}

TEST_F(HeadSeatTest, AlertsOfTheMatchBeforeAreNotThoseOfTheNextOne) {
    auto board = board_after_a_match();
    ASSERT_NO_FATAL_FAILURE(open(board));
    EXPECT_EQ(told(0, CourtList::EarlierRole), QStringLiteral("2 alerts of match 12"));
    EXPECT_EQ(told(0, CourtList::AlertTitleRole), QString()) << "match 20 has none";
    EXPECT_EQ(told(0, CourtList::AlertCountRole), QStringLiteral("0"));
    EXPECT_EQ(screen->text_of(QStringLiteral("earlier")), told(0, CourtList::EarlierRole));
    screen->picture(QStringLiteral("head-earlier"));
    const auto place = [&](const char* id) {
        const auto& alerts = *seat->alerts();
        return alerts
            .data(alerts.index(alerts.rowOf(QString::fromLatin1(id))), AlertList::PlaceRole)
            .toString();
    };
    EXPECT_EQ(place("a1"), QStringLiteral("earlier match 12 · Harbour Lights · set 2, 18 : 16"));
    EXPECT_EQ(place("a2"), QStringLiteral("match 14 · Lantern Hill · set 3, 0 : 0"));
    screen->key(Qt::Key_F1);
    EXPECT_EQ(seat->page()->alertId(), QStringLiteral("a1")) << "still one touch away";
    EXPECT_TRUE(seat->page()->where().contains(QStringLiteral("earlier match 12")));
    screen->key(Qt::Key_Escape);

    auto own = *board.alert("a3");
    own.id = "a8";
    own.court = 1;
    own.match_id = "m20";
    own.match_number = 20;
    board.alerts.push_back(own);
    source->show(board);
    Screen::settle();
    EXPECT_EQ(told(0, CourtList::AlertCountRole), QStringLiteral("1"));
    EXPECT_EQ(told(0, CourtList::AlertTitleRole), QStringLiteral("Re-designation made"));
    EXPECT_EQ(told(0, CourtList::AlertIdRole), QStringLiteral("a8"));
    EXPECT_EQ(told(0, CourtList::EarlierRole), QStringLiteral("2 alerts of match 12"));
    screen->picture(QStringLiteral("head-earlier-and-own"));

    board.alerts.back().id = "a5";
    board.alerts.back().match_id = "m3";
    source->show(board);
    Screen::settle();
    EXPECT_EQ(told(0, CourtList::EarlierRole), QStringLiteral("3 alerts of earlier matches"));
}

TEST_F(HeadSeatTest, SilentCourtIsNotSeenAndNeverStopped) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board()));
    EXPECT_EQ(told(3, CourtList::NotSeenRole), QStringLiteral("not seen for 2 min"));
    EXPECT_EQ(told(3, CourtList::StateRole), QStringLiteral("In play"));
    EXPECT_EQ(told(0, CourtList::NotSeenRole), QString());
}

TEST_F(HeadSeatTest, AlertsStandBySeverityThenAge) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board()));
    EXPECT_EQ(order(), QStringList({"a1", "a2", "a3", "a4"}));
}

TEST_F(HeadSeatTest, OrderStandsStillForASecondAfterATap) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board()));
    screen->touch(QStringLiteral("alert-a3"));
    auto board = source->board();
    auto worse = *board.alert("a3");
    worse.id = "a0";
    worse.severity = Severity::critical;
    worse.since = board.as_of - 600s;
    board.alerts.push_back(worse);
    board.alerts.erase(board.alerts.begin() + 1);  // a2 clears
    source->show(board);
    Screen::settle();
    EXPECT_EQ(order(), QStringList({"a1", "a2", "a3", "a4"}));
    pass(999ms);
    EXPECT_EQ(order(), QStringList({"a1", "a2", "a3", "a4"}));
    pass(1ms);
    EXPECT_EQ(order(), QStringList({"a0", "a1", "a3", "a4"}));
}

TEST_F(HeadSeatTest, EvidenceIsOneTouchAway) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board()));
    screen->touch(QStringLiteral("alert-a1"));
    screen->picture(QStringLiteral("head-evidence"));
    EXPECT_NE(screen->find(QStringLiteral("before")), nullptr);
    EXPECT_NE(screen->find(QStringLiteral("after")), nullptr);
    EXPECT_NE(screen->find(QStringLiteral("entries")), nullptr);
    EXPECT_EQ(seat->page()->replacements().size(), 4);
    EXPECT_EQ(screen->text_of(QStringLiteral("scoreIfApplied")), QStringLiteral("18 : 17"));
    EXPECT_TRUE(seat->page()->rule().contains(QStringLiteral("19.3.2.1")));
    EXPECT_TRUE(seat->page()->before()[5].toMap().value(QStringLiteral("changed")).toBool());
    EXPECT_FALSE(seat->page()->before()[0].toMap().value(QStringLiteral("changed")).toBool());
}

TEST_F(HeadSeatTest, GoingIsShownWithTheName) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board()));
    screen->click(QStringLiteral("alert-a1"));
    screen->click(QStringLiteral("going"));
    EXPECT_EQ(screen->text_of(QStringLiteral("owner")), QStringLiteral("Chief is going"));
    EXPECT_EQ(source->board().alert("a1")->claimed_by, "Chief");
}

TEST_F(HeadSeatTest, RulingNeedsAChoiceAndTakesANote) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board()));
    screen->click(QStringLiteral("alert-a1"));
    screen->click(QStringLiteral("ruling"));
    EXPECT_FALSE(screen->find(QStringLiteral("recordRuling"))->isEnabled());
    screen->click(QStringLiteral("choice0"));
    screen->type(QStringLiteral("rulingNote"), QStringLiteral("both captains told"));
    screen->picture(QStringLiteral("head-ruling"));
    screen->click(QStringLiteral("recordRuling"));
    ASSERT_EQ(source->rulings().size(), 1u);
    EXPECT_EQ(source->rulings()[0].alert_id, "a1");
    EXPECT_EQ(source->rulings()[0].choice, venue::RulingChoice::accept);
    EXPECT_EQ(source->rulings()[0].note, "both captains told");
    EXPECT_FALSE(seat->page()->open());
}

/// Court 2 has a match whose tablet is dead; another one asks to go on.
venue::Board board_with_a_wish() {
    auto board = harbour_cup_board();
    venue::Alert asks;
    asks.id = "a9";
    asks.code = "take-over-asked";
    asks.severity = Severity::high;
    asks.court = board.courts[1].court;
    asks.match_id = board.courts[1].match_id;
    asks.asking_device = "0192f0a1-0000-7000-8000-000000000009";
    asks.sentence =
        "Court 2, match 12: another device asks to go on; the device that writes has not "
        "been heard for 4 min";
    asks.since = board.as_of - 20s;
    board.alerts.push_back(asks);
    return board;
}

TEST_F(HeadSeatTest, OneTouchLetsTheNewTableGoOn) {
    const auto board = board_with_a_wish();
    ASSERT_NO_FATAL_FAILURE(open(board));
    screen->picture(QStringLiteral("head-take-over"));
    screen->touch(QStringLiteral("goOn-a9"));
    const auto& asks = board.alerts.back();
    EXPECT_EQ(source->take_overs(),
              (std::vector<MemoryBoard::TakeOver>{{asks.match_id, asks.asking_device, true}}));
    EXPECT_FALSE(seat->page()->open()) << "the answer is in the list, nothing else opens";
    pass(AlertList::hold_time);
    EXPECT_FALSE(order().contains(QStringLiteral("a9")));
    EXPECT_EQ(screen->peek(QStringLiteral("goOn-a1")), nullptr) << "only who asks is answered";
}

TEST_F(HeadSeatTest, OneTouchSaysNoInTheOpenedAlert) {
    ASSERT_NO_FATAL_FAILURE(open(board_with_a_wish()));
    screen->click(QStringLiteral("alert-a9"));
    screen->picture(QStringLiteral("head-take-over-open"));
    EXPECT_EQ(screen->peek(QStringLiteral("ruling")), nullptr) << "a wish is no fault to rule";
    EXPECT_EQ(screen->nameless(), QStringList());
    screen->touch(QStringLiteral("declineGoOn"));
    ASSERT_EQ(source->take_overs().size(), 1u);
    EXPECT_FALSE(source->take_overs()[0].consent);
    EXPECT_TRUE(Screen::wait([&] { return !seat->page()->open(); }));
}

TEST_F(HeadSeatTest, KeysAnswerAWishToTakeOver) {
    ASSERT_NO_FATAL_FAILURE(open(board_with_a_wish()));
    screen->key(Qt::Key_F2);
    ASSERT_EQ(seat->page()->alertId(), QStringLiteral("a9"));
    screen->key(Qt::Key_N);
    ASSERT_EQ(source->take_overs().size(), 1u);
    EXPECT_FALSE(source->take_overs()[0].consent);

    source->show(board_with_a_wish());
    Screen::settle();
    pass(AlertList::hold_time);
    QQuickItem* const list = screen->find(QStringLiteral("alertList"));
    list->forceActiveFocus();
    list->setProperty("currentIndex", seat->alerts()->rowOf(QStringLiteral("a9")));
    EXPECT_EQ(screen->nameless(), QStringList());
    screen->key(Qt::Key_G);
    ASSERT_EQ(source->take_overs().size(), 2u);
    EXPECT_TRUE(source->take_overs()[1].consent);
}

TEST_F(HeadSeatTest, AnAnswerThatComesTooLateIsTold) {
    ASSERT_NO_FATAL_FAILURE(open(board_with_a_wish()));
    QString refused;
    QObject::connect(seat->page(), &seats::AlertPage::refused, seat.get(),
                     [&](const QString& words) { refused = words; });
    source->show(harbour_cup_board());  // somebody else has answered; this screen does not know yet
    seat->answerTakeOver(QStringLiteral("a9"), true);
    EXPECT_TRUE(Screen::wait([&] { return !refused.isEmpty(); }));
    EXPECT_TRUE(source->take_overs().empty());
    EXPECT_FALSE(seat->page()->busy());
}

TEST_F(HeadSeatTest, TakeOverIsAnsweredOnAPhone) {
    ASSERT_NO_FATAL_FAILURE(open(board_with_a_wish(), 390, 844));
    screen->touch(QStringLiteral("tab1"));
    screen->picture(QStringLiteral("head-phone-take-over"));
    QQuickItem* const no = screen->find(QStringLiteral("no-a9"));
    EXPECT_LE(no->mapToScene(QPointF(no->width(), no->height())).x(), 390);
    screen->touch(QStringLiteral("no-a9"));
    EXPECT_EQ(source->take_overs().size(), 1u);
}

TEST_F(HeadSeatTest, BothRecordsOfAForkAreReadSideBySideAndOneTouchSettlesIt) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_forked()));
    source->show_fork(harbour_cup_fork());
    screen->click(QStringLiteral("alert-a7"));
    EXPECT_EQ(screen->peek(QStringLiteral("ruling")), nullptr) << "a fork is no fault to rule";
    screen->click(QStringLiteral("lookAtFork"));
    EXPECT_TRUE(screen->text_of(QStringLiteral("forkSummary")).contains("part at entry 214"));
    EXPECT_TRUE(screen->text_of(QStringLiteral("forkSummary")).contains("7 entries"));
    EXPECT_TRUE(screen->text_of(QStringLiteral("forkMore")).contains("4 more in the record"));
    screen->picture(QStringLiteral("head-fork"));
    const auto side = [&](const char* name, const char* part) {
        return screen->find(QString::fromLatin1(name))->property(part).toString();
    };
    EXPECT_EQ(side("forkRecord1", "words"), QStringLiteral("Rally won by Harbour Lights"));
    EXPECT_EQ(side("forkBranch1", "words"), QStringLiteral("Rally won by Mill Lane"));
    EXPECT_TRUE(side("forkRecord1", "origin").startsWith("Tablet 1, spare · writer 2 · "));
    EXPECT_TRUE(side("forkBranch1", "origin").contains("at the server"));
    EXPECT_TRUE(side("forkBranch0", "words").startsWith("the same"));
    EXPECT_EQ(side("forkBranch2", "words"), QStringLiteral("nothing"));
    const double row = screen->find(QStringLiteral("forkRow0"))->height();
    EXPECT_LT(row, 4 * screen->find(QStringLiteral("forkSummary"))->height())
        << "two lines of text stand one below the other";
    EXPECT_EQ(screen->nameless(), QStringList());
    EXPECT_EQ(screen->cut(), QStringList());

    screen->type(QStringLiteral("forkNote"), QStringLiteral("asked both"));
    screen->touch(QStringLiteral("forkEnterAgain"));
    EXPECT_EQ(
        source->settled(),
        (std::vector<MemoryBoard::Settled>{{"a7", venue::ForkChoice::enter_again, "asked both"}}));
    EXPECT_TRUE(Screen::wait([&] { return !seat->page()->open(); }));
    EXPECT_EQ(screen->peek(QStringLiteral("forkSummary")), nullptr);
    pass(AlertList::hold_time);
    EXPECT_FALSE(order().contains(QStringLiteral("a7")));
}

TEST_F(HeadSeatTest, AForkThatCannotBeReadIsNotSettledBlindly) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_forked(), 390, 844));
    venue::Fork none;
    none.failed = "The server cannot be reached; look again in a moment.";
    source->show_fork(none);
    screen->touch(QStringLiteral("tab1"));
    screen->touch(QStringLiteral("alert-a7"));
    screen->touch(QStringLiteral("lookAtFork"));
    EXPECT_TRUE(screen->text_of(QStringLiteral("forkProblem")).contains("look again"));
    EXPECT_FALSE(screen->find(QStringLiteral("forkRecordStands"))->isEnabled());
    EXPECT_FALSE(screen->find(QStringLiteral("forkEnterAgain"))->isEnabled());
}

TEST_F(HeadSeatTest, BothRecordsAreReadOnAPhone) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_forked(), 390, 844));
    source->show_fork(harbour_cup_fork());
    screen->touch(QStringLiteral("tab1"));
    screen->touch(QStringLiteral("alert-a7"));
    screen->touch(QStringLiteral("lookAtFork"));
    EXPECT_NE(screen->find(QStringLiteral("forkBranch1")), nullptr);
    screen->picture(QStringLiteral("head-phone-fork"));
    screen->touch(QStringLiteral("forkRecordStands"));
    EXPECT_EQ(source->settled().size(), 1u);
}

TEST_F(HeadSeatTest, CriticalAlertCannotBeShelved) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board()));
    screen->click(QStringLiteral("alert-a1"));
    EXPECT_FALSE(screen->find(QStringLiteral("shelve"))->isEnabled());
    EXPECT_TRUE(screen->text_of(QStringLiteral("whyNotShelve")).contains("cannot be shelved"));
    seat->page()->shelve(5, QStringLiteral("later"));
    EXPECT_NE(source->board().alert("a1")->life, venue::AlertLife::shelved);
}

TEST_F(HeadSeatTest, AlertThatOnlyInformsIsNotedAsSeenAndACriticalOneIsNot) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board()));
    screen->click(QStringLiteral("alert-a1"));
    EXPECT_EQ(screen->peek(QStringLiteral("seen")), nullptr);
    screen->click(QStringLiteral("alert-a3"));
    screen->click(QStringLiteral("seen"));
    EXPECT_TRUE(source->board().alert("a3")->seen);
    EXPECT_EQ(screen->peek(QStringLiteral("seen")), nullptr);
}

TEST_F(HeadSeatTest, ShelvingNeedsAReason) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board()));
    screen->click(QStringLiteral("alert-a2"));
    screen->click(QStringLiteral("shelve"));
    screen->click(QStringLiteral("minutes10"));
    screen->click(QStringLiteral("recordShelve"));
    EXPECT_NE(source->board().alert("a2")->life, venue::AlertLife::shelved);
    EXPECT_FALSE(seat->page()->problem().isEmpty());
    screen->picture(QStringLiteral("head-shelve"));
    screen->type(QStringLiteral("shelveReason"), QStringLiteral("asked the bench"));
    screen->click(QStringLiteral("recordShelve"));
    EXPECT_EQ(source->board().alert("a2")->life, venue::AlertLife::shelved);
    EXPECT_EQ(seat->alerts()->shelvedCount(), 1);
    pass(AlertList::hold_time);
    EXPECT_EQ(order().last(), QStringLiteral("a2"));
}

TEST_F(HeadSeatTest, AlertThatEndsWhileOpenSaysSo) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board()));
    screen->click(QStringLiteral("alert-a4"));
    auto board = source->board();
    board.alerts.pop_back();
    source->show(board);
    Screen::settle();
    EXPECT_FALSE(seat->page()->ended().isEmpty());
    EXPECT_TRUE(seat->page()->open());
}

TEST_F(HeadSeatTest, NothingIsCutOnALaptop) {
    for (const QSize size : {QSize(1366, 768), QSize(1280, 800)}) {
        for (const auto& board : {board_with_a_wish(), harbour_cup_forked()}) {
            ASSERT_NO_FATAL_FAILURE(open(board, size.width(), size.height()));
            screen->picture(QStringLiteral("head-%1").arg(size.width()));
            EXPECT_EQ(screen->cut(), QStringList()) << size.width();
            for (const QString& id : order()) {
                screen->click(QStringLiteral("alert-") + id);
                screen->picture(QStringLiteral("head-%1-%2").arg(size.width()).arg(id));
                EXPECT_EQ(screen->cut(), QStringList()) << size.width() << ", " << id.toStdString();
            }
            screen->key(Qt::Key_Escape);
            screen->click(QStringLiteral("liberos"));
            EXPECT_EQ(screen->cut(), QStringList()) << size.width() << ", liberos";
            TearDown();
        }
    }
}

TEST_F(HeadSeatTest, KeysReachCourtsAndTheirAlerts) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board()));
    screen->key(Qt::Key_F1);
    EXPECT_EQ(seat->page()->alertId(), QStringLiteral("a1"));
    screen->key(Qt::Key_Escape);
    EXPECT_FALSE(seat->page()->open());
    screen->key(Qt::Key_F2);
    EXPECT_FALSE(seat->page()->open());  // court 2 has no alert: its card is current
    screen->key(Qt::Key_Down);
    screen->key(Qt::Key_Return);
    EXPECT_EQ(seat->page()->alertId(), QStringLiteral("a4"));
    screen->key(Qt::Key_Escape);
    screen->key(Qt::Key_Question, Qt::ShiftModifier);
    screen->picture(QStringLiteral("head-keys"));
    screen->key(Qt::Key_Escape);
}

TEST_F(HeadSeatTest, LiberoTableAcrossMatches) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board()));
    screen->click(QStringLiteral("liberos"));
    screen->picture(QStringLiteral("head-liberos"));
    EXPECT_NE(screen->find(QStringLiteral("liberoTable")), nullptr);
    auto& table = *seat->liberos();
    EXPECT_EQ(table.count(), 8);
    const auto row = table.index(4);  // North Pier
    EXPECT_EQ(table.data(row, seats::LiberoTable::RedesignatedRole).toString(),
              QStringLiteral("66"));
    EXPECT_EQ(table.data(row, seats::LiberoTable::OutRole).toString(),
              QStringLiteral("61 replaced"));
    EXPECT_EQ(table.data(table.index(7), seats::LiberoTable::BarredRole).toString(),
              QStringLiteral("99"));
}

TEST_F(HeadSeatTest, LostConnectionIsSaidAndTheBoardStays) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board()));
    source->show(venue::Link{venue::LinkState::lost, {}});
    Screen::settle();
    pass(70s);
    EXPECT_TRUE(seat->linkWord().contains(QStringLiteral("1 min")));
    EXPECT_EQ(seat->courts()->count(), 4);
    screen->picture(QStringLiteral("head-lost"));
}

TEST_F(HeadSeatTest, StateIsTallEnoughForThreeMetres) {
    for (const QSize size : {QSize(1920, 1080), QSize(1280, 800)}) {
        ASSERT_NO_FATAL_FAILURE(open(harbour_cup_hall(), size.width(), size.height()));
        screen->picture(QStringLiteral("head-hall-%1").arg(size.width()));
        // 20 mm on a panel of 1218 mm by 685 mm, measured on the capital letters.
        const double panel = std::min(size.width() / 1218.0, size.height() / 685.0);
        QQuickItem* word = nullptr;
        for (QQuickItem* item : screen->find(QStringLiteral("state"))->childItems()) {
            if (item->inherits("QQuickText")) word = item;
        }
        ASSERT_NE(word, nullptr);
        const QFontMetricsF metrics(word->property("font").value<QFont>());
        EXPECT_GE(metrics.capHeight(), panel * 20 - 1);
        TearDown();
    }
}

TEST_F(HeadSeatTest, WorksOnAPhoneWithOneHand) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board(), 390, 844));
    screen->picture(QStringLiteral("head-phone-courts"));
    screen->touch(QStringLiteral("tab1"));
    screen->picture(QStringLiteral("head-phone-alerts"));
    screen->touch(QStringLiteral("alert-a1"));
    screen->picture(QStringLiteral("head-phone-evidence"));
    screen->touch(QStringLiteral("going"));
    EXPECT_EQ(source->board().alert("a1")->claimed_by, "Chief");
    QQuickItem* const going = screen->find(QStringLiteral("going"));
    EXPECT_LE(going->mapToScene(QPointF(going->width(), going->height())).x(), 390);
    screen->touch(QStringLiteral("ruling"));
    screen->touch(QStringLiteral("choice1"));
    screen->picture(QStringLiteral("head-phone-ruling"));
    screen->touch(QStringLiteral("recordRuling"));
    ASSERT_EQ(source->rulings().size(), 1u);
    EXPECT_EQ(source->rulings()[0].choice, venue::RulingChoice::overrule);
    screen->touch(QStringLiteral("tab2"));
    screen->picture(QStringLiteral("head-phone-liberos"));
}

TEST_F(HeadSeatTest, EveryTextStandsOutFromItsPaper) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board()));
    for (const bool dark : {false, true}) {
        screen->window().setProperty("dark", dark);
        screen->picture(dark ? QStringLiteral("head-dark") : QStringLiteral("head-light"));
        screen->click(QStringLiteral("alert-a1"));
        const auto inks = screen->inks();
        EXPECT_GT(inks.size(), 40u);
        for (const auto& each : inks) {
            EXPECT_GE(contrast(each.ink, each.paper), 7.0)
                << each.text.toStdString() << " dark " << dark;
        }
        screen->key(Qt::Key_Escape);
    }
}

TEST_F(HeadSeatTest, EverythingThatCanBePressedHasAName) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board()));
    EXPECT_EQ(screen->nameless(), QStringList());
    screen->click(QStringLiteral("alert-a1"));
    EXPECT_EQ(screen->nameless(), QStringList());
    screen->click(QStringLiteral("ruling"));
    EXPECT_EQ(screen->nameless(), QStringList());
}

TEST_F(HeadSeatTest, AMatchIsCalledByItsNameInTheRecordOfTheTournament) {
    auto board = board_after_a_match();
    for (auto& alert : board.alerts)
        if (alert.match_number == 12) alert.match_name = "C1";
    board.courts[1].match_name = "Pool A, match 3";
    ASSERT_NO_FATAL_FAILURE(open(board));
    EXPECT_EQ(told(0, CourtList::MatchRole), QStringLiteral("match 20")) << "the record has none";
    EXPECT_EQ(told(1, CourtList::MatchRole), QStringLiteral("Pool A, match 3"));
    EXPECT_EQ(told(0, CourtList::EarlierRole), QStringLiteral("2 alerts of C1"));
    screen->key(Qt::Key_F1);
    EXPECT_TRUE(seat->page()->where().contains(QStringLiteral("· earlier match C1 ·")))
        << seat->page()->where().toStdString();
    screen->key(Qt::Key_Escape);
    // The tables keep it: it is C1 that is on the court.
    board.courts[0].match_id = board.alert("a1")->match_id;
    board.courts[0].match_number = 12;
    board.courts[0].match_name = "C1";
    source->show(board);
    Screen::settle();
    EXPECT_EQ(told(0, CourtList::MatchRole), QStringLiteral("C1"));
    const auto& alerts = *seat->alerts();
    EXPECT_EQ(alerts.data(alerts.index(alerts.rowOf(QStringLiteral("a1"))), AlertList::PlaceRole)
                  .toString(),
              QStringLiteral("C1 · Harbour Lights · set 2, 18 : 16"));
}

TEST_F(HeadSeatTest, OfASetThatIsOverNobodyServes) {
    auto board = harbour_cup_board();
    ASSERT_TRUE(board.courts[0].serving);
    const Team server = *board.courts[0].serving;
    const auto serving = [&] {
        return seat->courts()
            ->data(seat->courts()->index(0),
                   server == Team::A ? CourtList::TeamARole : CourtList::TeamBRole)
            .toMap()
            .value(QStringLiteral("serving"))
            .toBool();
    };
    ASSERT_NO_FATAL_FAILURE(open(board));
    EXPECT_TRUE(serving());
    for (const auto stage : {venue::CourtStage::set_over, venue::CourtStage::match_over}) {
        board.courts[0].stage = stage;
        source->show(board);
        Screen::settle();
        EXPECT_FALSE(serving());
        EXPECT_EQ(board_text(board, {venue::LinkState::live, {}}).find("Harbour Lights *"),
                  std::string::npos);
    }
}

}  // namespace
}  // namespace courthand::tests
