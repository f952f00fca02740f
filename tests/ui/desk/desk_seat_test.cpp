// The desk's seat on a book in memory: real windows, real touches, mouse and keys.
#include <gtest/gtest.h>
#include <qrencode.h>

#include <QCoreApplication>
#include <QKeyEvent>
#include <QQuickItem>
#include <QTemporaryDir>
#include <array>
#include <memory>

#include "desk_seat.h"
#include "event_case.h"
#include "harbour_cup.h"
#include "screen.h"
#include "tests/testkit/small_cup.h"
#include "venue/csv_lines.h"
#include "venue/memory_board.h"
#include "venue/memory_desk.h"
#include "venue/memory_event.h"
#include "venue/memory_exporter.h"
#include "wire/enrolment_code.h"

namespace courthand::tests {
namespace {

using seats::DeskSeat;
using venue::MemoryBoard;
using venue::MemoryDesk;
using venue::MemoryEvent;

const QString window_url = QStringLiteral("qrc:/qt/qml/Courthand/Desk/DeskWindow.qml");

const char* const good_file =
    "team,number,name,captain,libero\r\n"
    "Tern Bay,4,,yes,\r\n"
    "Tern Bay,7,,,yes\r\n";
const char* const bad_file =
    "team,number,name,captain,libero\r\n"
    "Tern Bay,4,,yes,\r\n"
    "Tern Bay,1x,,,\r\n"
    "Tern Bay,4,,,yes\r\n";

class DeskSeatTest : public ::testing::Test {
  protected:
    void open(int width = 1280, int height = 800) {
        desk = std::make_unique<MemoryDesk>(harbour_cup_book());
        board = std::make_unique<MemoryBoard>(harbour_cup_board());
        seat =
            std::make_unique<DeskSeat>(*desk, *board, event, exporter,
                                       seats::DeskNames{QStringLiteral("Harbour Cup"), "desk 1"});
        screen = std::make_unique<Screen>(
            window_url, QVariantMap{{QStringLiteral("seat"), QVariant::fromValue(seat.get())}},
            width, height);
        ASSERT_TRUE(screen->ready());
    }
    void TearDown() override {
        screen.reset();
        seat.reset();
    }
    [[nodiscard]] static venue::RosterReading wrong() {
        venue::RosterReading reading;
        reading.problems = {
            {3, "number", "\"1x\" is no jersey number", "write a number from 0 to 99"},
            {3, "captain", "\"maybe\" is neither yes nor no", "write yes, or leave the cell empty"},
            {4, "number", "4 is there twice in Tern Bay", "give one of them another number"}};
        reading.problem_count = 3;
        return reading;
    }
    [[nodiscard]] static venue::RosterReading right() {
        venue::RosterReading reading;
        reading.teams = {{"t11", "Tern Bay", "", {}, {{4, "", true, false}, {7, "", false, true}}}};
        return reading;
    }

    /// Newest first; every second one was refused to somebody without a certificate.
    [[nodiscard]] static std::vector<venue::AuditListed> audit(int count) {
        std::vector<venue::AuditListed> lines;
        for (int i = count; i > 0; --i) {
            venue::AuditListed line;
            line.number = static_cast<std::uint64_t>(i);
            line.at = venue::Moment{1'900'000'000'000} + std::chrono::seconds(i);
            line.refused = i % 2 != 0;
            line.act = line.refused ? "not-heard-of" : "revoke";
            line.subject = line.refused ? "ipv4:192.0.2.7" : "d0";
            line.detail = line.refused ? "no such enrolment code" : "screen is cracked";
            if (!line.refused) {
                line.device_id = "0190a5de-0000-7000-8000-0000000000d1";
                line.device_name = "Desk 1";
                line.seat = venue::Seat::desk;
            }
            lines.push_back(line);
        }
        return lines;
    }

    std::unique_ptr<MemoryDesk> desk;
    std::unique_ptr<MemoryBoard> board;
    MemoryEvent event;
    venue::MemoryExporter exporter;
    std::unique_ptr<DeskSeat> seat;
    std::unique_ptr<Screen> screen;
};

TEST_F(DeskSeatTest, MatchesWithCourtLineUpsAndResult) {
    ASSERT_NO_FATAL_FAILURE(open());
    screen->picture(QStringLiteral("desk"));
    auto& matches = *seat->matches();
    ASSERT_EQ(matches.count(), 8);
    EXPECT_EQ(matches.field(0, "state").toString(), QStringLiteral("Not signed"));
    EXPECT_EQ(matches.field(0, "sets").toString(), QStringLiteral("2 : 0"));
    EXPECT_EQ(matches.field(0, "scores").toString(), QStringLiteral("25-21  25-19"));
    EXPECT_EQ(matches.field(6, "court").toString(), QString());
    EXPECT_TRUE(matches.field(6, "movable").toBool());
}

TEST_F(DeskSeatTest, LineUpsOfAMatchAreNotCut) {
    ASSERT_NO_FATAL_FAILURE(open());
    Screen::settle();
    int said = 0;
    for (int row = 0; row < seat->matches()->count(); ++row) {
        const QString id = seat->matches()->field(row, "matchId").toString();
        const QQuickItem* words = screen->peek(QStringLiteral("lineUps-") + id);
        if (words == nullptr) continue;
        ++said;
        EXPECT_FALSE(words->property("truncated").toBool())
            << words->property("text").toString().toStdString();
    }
    EXPECT_GT(said, 0);
}

TEST_F(DeskSeatTest, LongNamesOfAMatchAreReadToTheirEnd) {
    ASSERT_NO_FATAL_FAILURE(open(1366, 768));
    auto news = desk->book();
    for (auto& match : news.matches) {
        match.first = "Harbour Lights Rowing and Volleyball Club, Juniors 2";
        match.second = "Saltmarsh and Lantern Hill together, Girls";
    }
    desk->show(news);
    Screen::settle();
    screen->picture(QStringLiteral("desk-long-names-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
}

TEST_F(DeskSeatTest, WorkListNamesWhatWaitsWorstFirst) {
    ASSERT_NO_FATAL_FAILURE(open());
    auto& work = *seat->work();
    QStringList titles;
    int mark = 0;
    for (int i = 0; i < work.count(); ++i) {
        titles << work.field(i, "title").toString();
        EXPECT_GE(work.field(i, "mark").toInt(), mark);
        mark = work.field(i, "mark").toInt();
    }
    EXPECT_TRUE(titles.contains(QStringLiteral("Match 17 has no court")));
    EXPECT_TRUE(titles.contains(QStringLiteral("Match 11 is finished, not signed")));
    EXPECT_TRUE(titles.contains(QStringLiteral("Sandbar: team list missing")));
    EXPECT_TRUE(titles.contains(QStringLiteral("Court 5 has no table device")));
    EXPECT_TRUE(titles.contains(QStringLiteral("Tablet 3, Court 3: not seen for 3 min")));
}

TEST_F(DeskSeatTest, UnclaimedCriticalAlertReachesTheDeskAfterAMinute) {
    ASSERT_NO_FATAL_FAILURE(open());
    EXPECT_EQ(screen->peek(QStringLiteral("work-alert-a1")), nullptr);
    auto later = board->board();
    later.as_of += std::chrono::seconds(30);
    board->show(later);
    EXPECT_NE(screen->find(QStringLiteral("work-alert-a1")), nullptr);
    EXPECT_EQ(seat->work()->field(0, "key").toString(), QStringLiteral("alert-a1"));
}

TEST_F(DeskSeatTest, OneTouchInTheWorkListAnswersAWishToTakeOver) {
    ASSERT_NO_FATAL_FAILURE(open());
    auto asked = board->board();
    venue::Alert asks;
    asks.id = "a9";
    asks.code = "take-over-asked";
    asks.severity = Severity::high;
    asks.court = asked.courts[1].court;
    asks.match_id = "0192f0a1-0000-7000-8000-000000000002";
    asks.asking_device = "0192f0a1-0000-7000-8000-000000000009";
    asks.sentence =
        "Court 2, match 12: another device asks to go on; the device that writes has not "
        "been heard for 4 min";
    asks.since = asked.as_of;
    asked.alerts.push_back(asks);
    board->show(asked);
    EXPECT_NE(screen->find(QStringLiteral("work-take-over-a9")), nullptr);
    screen->picture(QStringLiteral("desk-take-over"));
    EXPECT_EQ(screen->nameless(), QStringList());
    screen->touch(QStringLiteral("goOn-take-over-a9"));
    const MemoryBoard::TakeOver yes{asks.match_id, asks.asking_device, true};
    EXPECT_EQ(board->take_overs(), std::vector{yes});
    EXPECT_TRUE(Screen::wait([&] { return screen->peek("work-take-over-a9") == nullptr; }));

    board->show(asked);
    EXPECT_NE(screen->find(QStringLiteral("work-take-over-a9")), nullptr);
    QQuickItem* const list = screen->find(QStringLiteral("workList"));
    int row = -1;
    for (int i = 0; i < seat->work()->count(); ++i)
        if (seat->work()->field(i, "act").toString() == QStringLiteral("take-over")) row = i;
    ASSERT_GE(row, 0);
    list->forceActiveFocus();
    list->setProperty("currentIndex", row);
    QKeyEvent held(QEvent::KeyPress, Qt::Key_N, Qt::NoModifier, QStringLiteral("n"), true);
    QCoreApplication::sendEvent(&screen->window(), &held);
    EXPECT_EQ(board->take_overs().size(), 1u) << "a key that is held down answers nothing more";
    screen->key(Qt::Key_N);
    ASSERT_EQ(board->take_overs().size(), 2u);
    EXPECT_FALSE(board->take_overs()[1].consent);
}

TEST_F(DeskSeatTest, TheDeskReadsBothRecordsOfAForkFromItsWorkListAndSettlesIt) {
    ASSERT_NO_FATAL_FAILURE(open());
    board->show(harbour_cup_forked());
    board->show_fork(harbour_cup_fork());
    screen->touch(QStringLiteral("work-fork-a7"));
    EXPECT_NE(screen->find(QStringLiteral("forkBranch1")), nullptr);
    screen->picture(QStringLiteral("desk-fork"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->touch(QStringLiteral("forkRecordStands"));
    EXPECT_EQ(board->settled(),
              (std::vector<MemoryBoard::Settled>{{"a7", venue::ForkChoice::record_stands, ""}}));
    EXPECT_TRUE(Screen::wait([&] { return screen->peek("work-fork-a7") == nullptr; }));
    EXPECT_EQ(screen->peek(QStringLiteral("forkSummary")), nullptr);
}

TEST_F(DeskSeatTest, AVenueWithoutCourtsGetsItsFirstOneByItsNumber) {
    ASSERT_NO_FATAL_FAILURE(open());
    auto empty = desk->book();
    empty.courts.clear();
    desk->show(empty);
    screen->touch(QStringLiteral("work-court-m17"));
    screen->type(QStringLiteral("assignOther"), QStringLiteral("7"));
    screen->touch(QStringLiteral("assignThere"));
    EXPECT_EQ(desk->book().matches[6].court, 7u);
    EXPECT_TRUE(Screen::wait([&] { return screen->peek("assignThere") == nullptr; }));

    screen->click(QStringLiteral("newMatch"));
    screen->click(QStringLiteral("first-t1"));
    screen->click(QStringLiteral("second-t4"));
    screen->type(QStringLiteral("newCourtOther"), QStringLiteral("12"));
    screen->picture(QStringLiteral("desk-first-court"));
    screen->click(QStringLiteral("planMatch"));
    EXPECT_EQ(desk->book().matches.back().court, 12u);
}

/// The screens of a laptop on which a desk is run.
constexpr std::array laptops{QSize(1366, 768), QSize(1280, 800)};

TEST_F(DeskSeatTest, NothingIsCutOnALaptop) {
    for (const QSize size : laptops) {
        ASSERT_NO_FATAL_FAILURE(open(size.width(), size.height()));
        board->show(harbour_cup_forked());
        desk->show_audit(audit(3));
        for (int page = 0; page < 8; ++page) {
            screen->click(QStringLiteral("page%1").arg(page));
            screen->picture(QStringLiteral("desk-%1-page%2").arg(size.width()).arg(page));
            EXPECT_EQ(screen->cut(), QStringList()) << size.width() << ", page " << page;
        }
        screen->click(QStringLiteral("page0"));
        for (const char* sheet : {"newMatch", "work-court-m17", "work-code-5", "work-seen-d3"}) {
            screen->click(QString::fromLatin1(sheet));
            screen->picture(QStringLiteral("desk-%1-%2").arg(size.width()).arg(sheet));
            EXPECT_EQ(screen->cut(), QStringList()) << size.width() << ", " << sheet;
            screen->key(Qt::Key_Escape);
            EXPECT_TRUE(Screen::wait([&] { return screen->peek("page0") != nullptr; }));
        }
        TearDown();
    }
}

TEST_F(DeskSeatTest, AReplacedTabletAsksForNothingMoreAndASilentOneCanBeWithdrawn) {
    ASSERT_NO_FATAL_FAILURE(open());
    screen->touch(QStringLiteral("work-seen-d3"));
    EXPECT_TRUE(screen->find(QStringLiteral("revokeNow"))->isEnabled());
    screen->key(Qt::Key_Escape);
    auto replaced = desk->book();
    replaced.devices.push_back(
        {"d7", "Tablet 3, spare", venue::Seat::table, 3, replaced.as_of, false});
    for (auto& court : replaced.courts)
        if (court.number == 3) court.device_id = "d7";
    desk->show(replaced);
    EXPECT_TRUE(Screen::wait([&] { return screen->peek("work-seen-d3") == nullptr; }))
        << "another one writes there now";
}

TEST_F(DeskSeatTest, EntriesThatTheServerCouldNotTakeAreShown) {
    ASSERT_NO_FATAL_FAILURE(open());
    auto news = board->board();
    venue::Alert refused;
    refused.id = "a8";
    refused.code = "entries-refused";
    refused.severity = Severity::medium;
    refused.court = 3;
    refused.sentence = "Court 3, match 14: the server could not take entry 17 and what follows";
    refused.since = news.as_of;
    news.alerts.push_back(refused);
    board->show(news);
    EXPECT_NE(screen->find(QStringLiteral("work-refused-a8")), nullptr);
    screen->picture(QStringLiteral("desk-refused"));
}

TEST_F(DeskSeatTest, WaitingMatchGetsACourtFromTheWorkList) {
    ASSERT_NO_FATAL_FAILURE(open());
    screen->touch(QStringLiteral("work-court-m17"));
    screen->picture(QStringLiteral("desk-court"));
    screen->touch(QStringLiteral("assign4"));
    EXPECT_EQ(desk->book().matches[6].court, 4u);
    EXPECT_TRUE(Screen::wait([&] { return screen->peek("assign4") == nullptr; }));
    EXPECT_EQ(screen->peek(QStringLiteral("work-court-m17")), nullptr);
}

TEST_F(DeskSeatTest, MatchIsMadeFromTwoTeams) {
    ASSERT_NO_FATAL_FAILURE(open());
    screen->click(QStringLiteral("newMatch"));
    screen->click(QStringLiteral("planMatch"));
    EXPECT_FALSE(seat->problem().isEmpty());
    screen->click(QStringLiteral("first-t1"));
    EXPECT_FALSE(screen->find(QStringLiteral("second-t1"))->isEnabled());
    screen->click(QStringLiteral("second-t4"));
    EXPECT_EQ(screen->peek(QStringLiteral("newMatchProblem")), nullptr) << "both are chosen now";
    screen->click(QStringLiteral("newCourt2"));
    screen->picture(QStringLiteral("desk-new-match"));
    desk->fail_next("The server is not there. Try again in a moment.");
    screen->click(QStringLiteral("planMatch"));
    EXPECT_EQ(screen->text_of(QStringLiteral("newMatchProblem")),
              QStringLiteral("The server is not there. Try again in a moment."));
    screen->click(QStringLiteral("planMatch"));  // what was chosen is still chosen
    ASSERT_EQ(desk->book().matches.size(), 9u);
    EXPECT_EQ(desk->book().matches.back().first, "Harbour Lights");
    EXPECT_EQ(desk->book().matches.back().second, "Saltmarsh");
    EXPECT_EQ(desk->book().matches.back().court, 2u);
    EXPECT_EQ(desk->book().matches.back().id.size(), 36u);
}

TEST_F(DeskSeatTest, WrongRosterFileShowsEveryFaultAsASentenceWithLineColumnAndCure) {
    ASSERT_NO_FATAL_FAILURE(open());
    QTemporaryDir folder;
    QFile file(folder.filePath(QStringLiteral("tern-bay.csv")));
    ASSERT_TRUE(file.open(QIODevice::WriteOnly));
    file.write(bad_file);
    file.close();
    desk->next_reading(wrong());
    screen->click(QStringLiteral("page3"));
    screen->type(QStringLiteral("rosterPath"), file.fileName());
    screen->click(QStringLiteral("readFile"));
    screen->picture(QStringLiteral("desk-roster-wrong"));
    EXPECT_EQ(screen->text_of(QStringLiteral("fault-0")),
              QStringLiteral("Line 3, column number: \"1x\" is no jersey number. Write a number "
                             "from 0 to 99."));
    EXPECT_EQ(screen->text_of(QStringLiteral("fault-1")),
              QStringLiteral("Line 3, column captain: \"maybe\" is neither yes nor no. Write yes, "
                             "or leave the cell empty."))
        << "a line with two faults shows both";
    EXPECT_EQ(seat->rosters()->faults()->count(), 3);
    EXPECT_EQ(seat->rosters()->moreFaults(), QString());
    EXPECT_EQ(seat->rosters()->lines()->field(2, "wrong").toList(), (QVariantList{1, 3}));
    EXPECT_EQ(screen->cut(), QStringList());
    EXPECT_TRUE(screen->text_of(QStringLiteral("rosterSummary")).contains(QStringLiteral("3")));
    EXPECT_FALSE(screen->find(QStringLiteral("keepRosters"))->isEnabled());
    EXPECT_EQ(seat->rosters()->source(), QString::fromUtf8(bad_file));
    EXPECT_EQ(desk->book().teams.size(), 10u);
}

TEST_F(DeskSeatTest, MoreFaultsThanOneAnswerHoldsAreCountedAndOneOfTheWholeFileIsShown) {
    ASSERT_NO_FATAL_FAILURE(open(1366, 768));
    screen->click(QStringLiteral("page3"));
    EXPECT_TRUE(screen->text_of(QStringLiteral("rosterExample")).startsWith("team,number,name"));
    screen->picture(QStringLiteral("desk-roster-format"));
    EXPECT_EQ(screen->cut(), QStringList());
    venue::RosterReading many;
    many.problems.push_back({0, "", "the file lists no player", "write one row for each player"});
    for (int i = 1; i < 100; ++i)
        many.problems.push_back(
            {i + 1, "number", "the number is missing", "write a whole number from 0 to 99"});
    many.problem_count = 112;
    desk->next_reading(many);
    seat->rosters()->readText(QString::fromUtf8(good_file));
    EXPECT_TRUE(Screen::wait([&] { return seat->rosters()->faults()->count() == 100; }));
    EXPECT_EQ(screen->peek(QStringLiteral("rosterFormat")), nullptr);
    EXPECT_EQ(screen->text_of(QStringLiteral("fault-0")),
              QStringLiteral("The file lists no player. Write one row for each player."));
    EXPECT_TRUE(seat->rosters()->moreFaults().startsWith("and 12 more"));
    screen->picture(QStringLiteral("desk-roster-many"));
}

/// From a fault to its line in the file, with either Enter.
TEST_F(DeskSeatTest, AFaultOfAFileLeadsToItsLine) {
    ASSERT_NO_FATAL_FAILURE(open(1366, 768));
    screen->click(QStringLiteral("page3"));
    venue::RosterReading far;
    far.problems.push_back(
        {80, "number", "the number is missing", "write a whole number from 0 to 99"});
    far.problem_count = 1;
    QString lines = QStringLiteral("team,number\n");
    for (int i = 0; i < 90; ++i) lines += QStringLiteral("Tern Bay,%1\n").arg(i);
    for (const Qt::Key key : {Qt::Key_Return, Qt::Key_Enter}) {
        desk->next_reading(far);
        seat->rosters()->readText(lines);
        EXPECT_TRUE(Screen::wait([&] { return seat->rosters()->faults()->count() == 1; }));
        QQuickItem* const shown = screen->find(QStringLiteral("rosterLines"));
        shown->setProperty("contentY", 0);
        screen->find(QStringLiteral("rosterFaults"))->forceActiveFocus();
        screen->key(key);
        EXPECT_GT(shown->property("contentY").toDouble(), 0) << key;
    }
}

TEST_F(DeskSeatTest, RightRosterIsPreviewedThenKept) {
    // A frozen list changes for a reason only.
    event.say(event_of("# memory\n" + testkit::six_teams() + "roster \"Mill Lane\" numbers 1 2\n"));
    ASSERT_NO_FATAL_FAILURE(open());
    desk->next_reading(right());
    screen->click(QStringLiteral("page3"));
    seat->rosters()->readText(QString::fromUtf8(good_file));
    Screen::settle();
    screen->picture(QStringLiteral("desk-roster-right"));
    EXPECT_EQ(desk->book().teams.size(), 10u);
    screen->type(QStringLiteral("rosterReason"), QStringLiteral("two are ill"));
    screen->key(Qt::Key_Return);
    EXPECT_EQ(desk->last_roster().reason, "two are ill") << "it is checked again with the reason";
    screen->click(QStringLiteral("keepRosters"));
    EXPECT_EQ(desk->last_roster().reason, "two are ill");
    EXPECT_EQ(desk->book().teams.size(), 11u);
    EXPECT_EQ(screen->text_of(QStringLiteral("rosterReason")), QString())
        << "it was for one import";
    EXPECT_FALSE(screen->find(QStringLiteral("keepRosters"))->isEnabled());
}

TEST_F(DeskSeatTest, MissingFileSaysWhichAndNothingIsLost) {
    ASSERT_NO_FATAL_FAILURE(open());
    desk->next_reading(right());
    screen->click(QStringLiteral("page3"));
    seat->rosters()->readText(QString::fromUtf8(good_file));
    Screen::settle();
    EXPECT_TRUE(seat->rosters()->mayKeep());
    seat->rosters()->readFile(QStringLiteral("/nowhere/teams.csv"));
    EXPECT_FALSE(seat->rosters()->mayKeep()) << "the file before is not what was asked for";
    EXPECT_TRUE(seat->rosters()->summary().contains(QStringLiteral("/nowhere/teams.csv")));
    EXPECT_EQ(seat->rosters()->lines()->count(), 3);
}

/// The QR code of a text, row by row from the top, 1 for a dark cell.
QString cells_of(const std::string& text) {
    const std::unique_ptr<QRcode, decltype(&QRcode_free)> qr(
        QRcode_encodeString(text.c_str(), 0, QR_ECLEVEL_M, QR_MODE_8, 1), &QRcode_free);
    QString cells;
    for (int i = 0; i < qr->width * qr->width; ++i)
        cells += QLatin1Char((qr->data[i] & 1) != 0 ? '1' : '0');
    return cells;
}

TEST_F(DeskSeatTest, CodeIsShownInGroupsOfFourAndAsAPatch) {
    ASSERT_NO_FATAL_FAILURE(open());
    screen->touch(QStringLiteral("work-code-5"));
    screen->click(QStringLiteral("issueCode"));
    EXPECT_EQ(screen->text_of(QStringLiteral("symbols")),
              QStringLiteral("7K3M 9QXA 04ZT\nV8WB 5C1N HRJ6"));
    screen->picture(QStringLiteral("desk-code"));
    EXPECT_GE(seat->code()->qrSize(), 21);
    EXPECT_EQ(seat->code()->qrCells().size(), seat->code()->qrSize() * seat->code()->qrSize());
    // A camera reads what a person would type: secret and fingerprint, all 24 symbols.
    const std::string text = "7K3M 9QXA 04ZT V8WB 5C1N HRJ6";
    const auto read = wire::EnrolmentCode::parse(text);
    ASSERT_TRUE(std::holds_alternative<wire::EnrolmentCode>(read));
    EXPECT_EQ(std::get<wire::EnrolmentCode>(read).fingerprint(), "04ZTV8WB5C1NHRJ6");
    EXPECT_EQ(seat->code()->qrCells(), cells_of(text));
}

// A common laptop: all of the code is on the glass at once, and large enough to be read out.
TEST_F(DeskSeatTest, TheCodeSheetFitsALaptop) {
    ASSERT_NO_FATAL_FAILURE(open(1366, 768));
    screen->touch(QStringLiteral("work-code-5"));
    screen->click(QStringLiteral("issueCode"));
    Screen::settle();
    screen->picture(QStringLiteral("desk-code-1366x768"));
    for (const char* const name : {"symbols", "codePatch", "issueCode"}) {
        QQuickItem* const item = screen->find(QString::fromLatin1(name));
        ASSERT_NE(item, nullptr) << name;
        const QRectF place = item->mapRectToScene({0, 0, item->width(), item->height()});
        EXPECT_TRUE(QRectF(0, 0, 1366, 768).contains(place)) << name;
    }
    // Two lines, neither of them broken.
    const QQuickItem* const symbols = screen->find(QStringLiteral("symbols"));
    EXPECT_EQ(symbols->property("lineCount").toInt(), 2);
}

TEST_F(DeskSeatTest, TableCodeNeedsACourt) {
    ASSERT_NO_FATAL_FAILURE(open());
    screen->click(QStringLiteral("page1"));
    screen->picture(QStringLiteral("desk-courts"));
    screen->click(QStringLiteral("enrol"));
    screen->click(QStringLiteral("issueCode"));
    EXPECT_FALSE(screen->text_of(QStringLiteral("codeProblem")).isEmpty());
    EXPECT_TRUE(seat->code()->symbols().isEmpty());
    screen->click(QStringLiteral("codeCourt2"));
    screen->click(QStringLiteral("issueCode"));
    EXPECT_FALSE(seat->code()->symbols().isEmpty());
}

TEST_F(DeskSeatTest, RevokingAsksOnce) {
    ASSERT_NO_FATAL_FAILURE(open());
    screen->click(QStringLiteral("page1"));
    screen->click(QStringLiteral("revoke-d1"));
    EXPECT_FALSE(desk->book().devices[0].revoked);
    screen->picture(QStringLiteral("desk-revoke"));
    screen->click(QStringLiteral("revokeNow"));
    EXPECT_TRUE(desk->book().devices[0].revoked);
}

TEST_F(DeskSeatTest, WhatWasDoneIsListedNewestFirstAPageAtATime) {
    ASSERT_NO_FATAL_FAILURE(open());
    desk->show_audit(audit(250));
    screen->click(QStringLiteral("page4"));
    Screen::settle();
    auto& rows = *seat->audit()->rows();
    ASSERT_EQ(rows.count(), 100);
    EXPECT_EQ(rows.field(0, "what").toString(), QStringLiteral("Device withdrawn"));
    EXPECT_EQ(rows.field(0, "who").toString(), QStringLiteral("Desk 1 · desk"));
    EXPECT_EQ(rows.field(0, "about").toString(),
              QStringLiteral("Tablet 6, cracked · screen is cracked"));
    EXPECT_EQ(rows.field(0, "state").toString(), QString());
    EXPECT_EQ(rows.field(1, "what").toString(), QStringLiteral("not-heard-of"));
    EXPECT_EQ(rows.field(1, "who").toString(), QStringLiteral("a device that is not enrolled"));
    EXPECT_EQ(rows.field(1, "state").toString(), QStringLiteral("Refused"));
    screen->picture(QStringLiteral("desk-audit"));
    screen->touch(QStringLiteral("auditOlder"));
    Screen::settle();
    EXPECT_EQ(rows.count(), 200);
    seat->audit()->readOlder();
    Screen::settle();
    EXPECT_EQ(rows.count(), 250);
    EXPECT_EQ(rows.field(249, "number").toInt(), 1);
    EXPECT_FALSE(seat->audit()->more());
    desk->fail_next("The server is not there. Try again in a moment.");
    screen->click(QStringLiteral("auditAgain"));
    Screen::settle();
    EXPECT_EQ(seat->audit()->problem(),
              QStringLiteral("The server is not there. Try again in a moment."));
    EXPECT_NE(screen->find(QStringLiteral("auditProblem")), nullptr);
    EXPECT_EQ(rows.count(), 250) << "what was read stays";
    screen->click(QStringLiteral("auditAgain"));
    Screen::settle();
    EXPECT_EQ(rows.count(), 100);
}

TEST_F(DeskSeatTest, KeysReachEveryPage) {
    ASSERT_NO_FATAL_FAILURE(open());
    screen->key(Qt::Key_F5);
    EXPECT_NE(screen->find(QStringLiteral("auditList")), nullptr);
    screen->key(Qt::Key_F3);
    EXPECT_NE(screen->find(QStringLiteral("teamList")), nullptr);
    screen->picture(QStringLiteral("desk-teams"));
    screen->key(Qt::Key_F1);
    EXPECT_NE(screen->find(QStringLiteral("matchList")), nullptr);
    screen->key(Qt::Key_N, Qt::ControlModifier);
    EXPECT_NE(screen->find(QStringLiteral("planMatch")), nullptr);
}

TEST_F(DeskSeatTest, FitsAPhone) {
    ASSERT_NO_FATAL_FAILURE(open(390, 844));
    screen->picture(QStringLiteral("desk-phone"));
    QQuickItem* const button = screen->find(QStringLiteral("newMatch"));
    EXPECT_LE(button->mapToScene(QPointF(button->width(), 0)).x(), 390);
    EXPECT_GE(button->width(), button->implicitWidth());  // its word is whole
}

TEST_F(DeskSeatTest, EveryTextStandsOutAndEverythingHasAName) {
    ASSERT_NO_FATAL_FAILURE(open());
    desk->show_audit(audit(3));
    for (int page = 0; page < 8; ++page) {
        screen->click(QStringLiteral("page%1").arg(page));
        EXPECT_EQ(screen->nameless(), QStringList());
        for (const auto& each : screen->inks()) {
            EXPECT_GE(contrast(each.ink, each.paper), 7.0) << each.text.toStdString();
        }
    }
    screen->window().setProperty("dark", true);
    screen->picture(QStringLiteral("desk-dark"));
}

TEST(CsvLinesTest, QuotesSemicolonsMarksAndEmptyLines) {
    const auto lines = venue::csv_lines(
        "\xEF\xBB\xBFteam;name\r\n\r\n\"Mill; Lane\";\"a \"\"b\"\"\nc\"\nlast;", 10);
    ASSERT_EQ(lines.size(), 3u);
    EXPECT_EQ(lines[0], (venue::CsvLine{1, {"team", "name"}}));
    EXPECT_EQ(lines[1], (venue::CsvLine{3, {"Mill; Lane", "a \"b\"\nc"}}));
    EXPECT_EQ(lines[2], (venue::CsvLine{5, {"last", ""}}));
    EXPECT_EQ(venue::csv_lines("a\nb\nc\n", 2).size(), 2u);
    EXPECT_TRUE(venue::csv_lines("", 2).empty());
}

}  // namespace
}  // namespace courthand::tests
