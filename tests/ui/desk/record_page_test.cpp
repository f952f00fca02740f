// The record page: what was said, and one of it taken back.
#include <QSignalSpy>
#include <algorithm>
#include <iterator>
#include <utility>

#include "tournament_fixture.h"

namespace courthand::tests {
namespace {

constexpr const char* small_cup =
    "# memory\n"
    "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
    "division U16 profile international-2021 chain international-2017 format best-of 3\n"
    "team \"Mill Lane\" in U16\n"
    "team \"Quayside\" in U16\n"
    "team \"Saltmarsh\" in U16\n"
    "draw U16 serpentine pools 1\n"
    "result A1 paper 25-20 25-22\n"
    "team \"Mill Lane\" in U16\n"
    "note words \"The doors open at eight\"\n";

class RecordPageTest : public TournamentTest {
  protected:
    [[nodiscard]] QString said(int number) {
        auto& rows = *seat->tournament()->record()->rows();
        return rows.field(rows.rowOf(QString::number(number)), QStringLiteral("says")).toString();
    }
    [[nodiscard]] QString stands(int number) {
        auto& rows = *seat->tournament()->record()->rows();
        return rows.field(rows.rowOf(QString::number(number)), QStringLiteral("state")).toString();
    }
    /// The log shows these lines, newest first, and about each the words beside it.
    void expect_told(const std::vector<venue::AuditListed>& lines,
                     const std::vector<const char*>& abouts) {
        desk->show_audit(lines);
        screen->key(Qt::Key_F5);
        auto& rows = *seat->audit()->rows();
        ASSERT_TRUE(Screen::wait([&] { return rows.count() == static_cast<int>(abouts.size()); }));
        for (std::size_t i = 0; i < abouts.size(); ++i)
            EXPECT_EQ(rows.field(static_cast<int>(i), QStringLiteral("about")).toString(),
                      QString::fromUtf8(abouts[i]));
    }
};

TEST_F(RecordPageTest, TheNewestStandsFirstWithWhatBecameOfIt) {
    ASSERT_NO_FATAL_FAILURE(open(event_of(small_cup)));
    screen->key(Qt::Key_F9);
    auto& rows = *seat->tournament()->record()->rows();
    ASSERT_TRUE(Screen::wait([&] { return rows.count() == 9; }));
    EXPECT_EQ(rows.rowOf(QStringLiteral("9")), 0);
    EXPECT_EQ(rows.field(0, QStringLiteral("about")).toString(),
              QStringLiteral("The doors open at eight"));
    EXPECT_FALSE(stands(8).isEmpty()) << "a second team of that name";
    EXPECT_TRUE(stands(7).isEmpty());
    EXPECT_TRUE(said(7).contains(QStringLiteral("A1")));
    screen->picture(QStringLiteral("record-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    EXPECT_EQ(screen->nameless(), QStringList());
}

/// The server names a record as soon as a table could play the match: nobody has opened anything
/// yet.
TEST_F(RecordPageTest, ARecordThatWaitsForItsTableIsNotCalledOpenedThere) {
    ASSERT_NO_FATAL_FAILURE(open(event_of(small_cup)));
    screen->key(Qt::Key_F9);
    event::RecordOpened opened;
    opened.match = "A2";
    opened.record.bytes = {0x01, 0x92, 0xf0, 0xa1, 0, 0, 0x70, 0, 0x80, 0, 0, 0, 0, 0, 0, 0xa2};
    event->say({{opened, {}}});
    EXPECT_TRUE(Screen::wait([&] {
        return said(10) == QStringLiteral("A2 has a record for its table");
    })) << said(10).toStdString();
}

TEST_F(RecordPageTest, AFactIsTakenBackByKeyAndCountsAgainByTouch) {
    ASSERT_NO_FATAL_FAILURE(open(event_of(small_cup)));
    screen->key(Qt::Key_F9);
    ASSERT_TRUE(Screen::wait([&] { return seat->tournament()->record()->rows()->count() == 9; }));
    screen->key(Qt::Key_Down);
    screen->key(Qt::Key_Down);  // from 9 to 7, the result
    screen->key(Qt::Key_Return);
    ASSERT_TRUE(Screen::wait([&] { return screen->peek(QStringLiteral("actNow")) != nullptr; }));
    EXPECT_FALSE(seat->tournament()->preview()->effects().isEmpty()) << "A1 loses its result";
    screen->picture(QStringLiteral("record-take-back-1366"));
    record();
    ASSERT_EQ(state().last(), 10U);
    EXPECT_EQ(std::get<event::TakenBack>(last_fact()).fact, 7U);
    EXPECT_FALSE(state().match(*state().find_match("A1")).result);
    ASSERT_TRUE(Screen::wait([&] { return !stands(7).isEmpty(); }));

    screen->click(QStringLiteral("fact-7"));
    EXPECT_FALSE(seat->tournament()->preview()->open()) << "it is taken back already";
    screen->click(QStringLiteral("fact-10"));
    record();
    EXPECT_TRUE(state().match(*state().find_match("A1")).result);
}

TEST_F(RecordPageTest, ATeamWithAFrozenListIsTakenBackForTheReasonThatIsWritten) {
    ASSERT_NO_FATAL_FAILURE(
        open(event_of(std::string{small_cup} + "roster \"Saltmarsh\" numbers 1 2\n")));
    screen->key(Qt::Key_F9);
    ASSERT_TRUE(Screen::wait([&] { return seat->tournament()->record()->rows()->count() == 10; }));
    screen->click(QStringLiteral("fact-10"));
    EXPECT_EQ(screen->find(QStringLiteral("actWhy"))->property("problem").toString(),
              QStringLiteral("The list is frozen: say why it changes. The reason stays beside the "
                             "change."));
    Screen::settle();
    EXPECT_FALSE(seat->tournament()->preview()->mayAct());
    screen->type(QStringLiteral("actWhy"), QStringLiteral("frozen by mistake"));
    screen->picture(QStringLiteral("record-take-back-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    EXPECT_EQ(screen->nameless(), QStringList());
    record();
    ASSERT_EQ(state().last(), 11U);
    EXPECT_EQ(book.words->at(11), "frozen by mistake");
    screen->click(QStringLiteral("fact-7"));
    EXPECT_EQ(screen->find(QStringLiteral("actWhy"))->property("text").toString(), QString())
        << "it is not the reason for the next";
}

TEST_F(RecordPageTest, OlderOnesComeWhenTheyAreAskedFor) {
    std::string script = small_cup;
    for (int i = 0; i < 250; ++i) script += "note words \"More\"\n";
    ASSERT_NO_FATAL_FAILURE(open(event_of(script)));
    screen->key(Qt::Key_F9);
    auto& rows = *seat->tournament()->record()->rows();
    ASSERT_TRUE(Screen::wait([&] { return rows.count() == 200; }));
    screen->click(QStringLiteral("factsOlder"));
    EXPECT_TRUE(Screen::wait([&] { return rows.count() == 259; }));
    EXPECT_FALSE(seat->tournament()->record()->more());
}

/// A line of the log about an act in the record.
venue::AuditListed act_line(const std::string& fact, const std::string& detail, bool refused) {
    venue::AuditListed line;
    line.number = refused ? 2 : 1;
    line.at = venue::Moment{1'900'000'000'000};
    line.device_id = "0190a5de-0000-7000-8000-0000000000d1";
    line.device_name = "Desk 1";
    line.seat = venue::Seat::desk;
    line.act = "act";
    line.subject = fact;
    line.detail = detail;
    line.refused = refused;
    return line;
}

TEST_F(RecordPageTest, TheLogTellsAnActInTheWordsOfTheRecordWithItsReasonAndWhoDidIt) {
    ASSERT_NO_FATAL_FAILURE(open(event_of(small_cup)));
    auto& results = *seat->tournament()->results();
    results.look(QStringLiteral("A1"));
    results.reopen();
    screen->type(QStringLiteral("actWhy"), QStringLiteral("two sets swapped"));
    record();
    const std::string fact = event->kept().back().ids.front();
    desk->show_audit({act_line("0192f0a1-0000-7000-8000-00000000ffff",
                               "desk 2: match_moved and 1 more: the record has gone on", true),
                      act_line(fact, "desk 1: result_reopened", false)});
    screen->key(Qt::Key_F5);
    auto& rows = *seat->audit()->rows();
    ASSERT_TRUE(Screen::wait([&] { return rows.count() == 2; }));
    struct Line {
        const char* field;
        const char* refused;
        const char* done;
    };
    for (const Line& each : {Line{"what", "Match moved and 1 more", "Result of A1 reopened"},
                             Line{"who", "desk 2 · Desk 1 · desk", "desk 1 · Desk 1 · desk"},
                             Line{"about", "the record has gone on", "two sets swapped"},
                             Line{"state", "Refused", ""}}) {
        const QString field = QString::fromLatin1(each.field);
        EXPECT_EQ(rows.field(0, field).toString(), QString::fromUtf8(each.refused)) << each.field;
        EXPECT_EQ(rows.field(1, field).toString(), QString::fromUtf8(each.done)) << each.field;
    }
    screen->picture(QStringLiteral("log-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
}

TEST_F(RecordPageTest, TheLogTellsInWordsWhoWroteAMatchAndWhereItWasPlanned) {
    ASSERT_NO_FATAL_FAILURE(open(event_of(small_cup)));
    struct Case {
        const char* act;
        const char* detail;
        const char* about;
    };
    const Case cases[] = {
        {"begin-writing", "epoch 1, from entry 1: sent the first entry",
         "the first to write it, from its entry 1 on, sent the first entry"},
        {"grant", "epoch 2", "number 2 of those who wrote it"},
        {"grant", "the tablet fell", "the tablet fell"},
        {"create-match", "court 0, international-2025", "no court, rules international-2025"},
        {"assign-court", "court 3", "Court 3"},
        {"assign-court", "court 0", "no court"},
        {"import-roster", "court 3 of the old hall", "court 3 of the old hall"},
    };
    std::vector<venue::AuditListed> lines;
    std::vector<const char*> abouts;
    for (const Case& one : cases) {
        abouts.push_back(one.about);
        lines.push_back(act_line("", one.detail, false));
        lines.back().act = one.act;
        lines.back().number = std::size(cases) - lines.size() + 1;
    }
    expect_told(lines, abouts);
}

TEST_F(RecordPageTest, TheLogCallsAnAlertByItsNameAndWhereItWas) {
    ASSERT_NO_FATAL_FAILURE(open(event_of(small_cup)));
    auto news = desk->book();
    venue::MatchPlanned planned;
    planned.id = c1_record;
    planned.number = 41;
    news.matches.push_back(planned);
    desk->show(news);
    struct Case {
        std::string subject;
        const char* about;
    };
    const Case cases[] = {
        {std::string{c1_record} + "/libero-no-completed-rally/17",
         "match 41: Libero: no completed rally · stands, head official"},
        {"court/3/court-not-seen", "Court 3: Court not seen · stands, head official"},
        {"venue/record-forked", "Record forked · stands, head official"},
        {"elsewhere", "elsewhere · stands, head official"},
    };
    std::vector<venue::AuditListed> lines;
    std::vector<const char*> abouts;
    for (const Case& one : cases) {
        abouts.push_back(one.about);
        lines.push_back(act_line(one.subject, "stands, head official", false));
        lines.back().act = "rule";
        lines.back().number = std::size(cases) - lines.size() + 1;
    }
    expect_told(lines, abouts);
}

TEST_F(RecordPageTest, TheLogIsToldAnewWhenTheRecordHasGrownAndNotWithTheNewsOfCourts) {
    ASSERT_NO_FATAL_FAILURE(open(event_of(small_cup)));
    desk->show_audit({act_line("", "court 3", false)});
    screen->key(Qt::Key_F5);
    ASSERT_TRUE(Screen::wait([&] { return seat->audit()->rows()->count() == 1; }));
    Screen::settle();
    const QSignalSpy told(seat->audit(), &seats::AuditList::shown);
    auto later = board->board();
    later.as_of += std::chrono::seconds(1);
    board->show(later);
    desk->show(desk->book());
    Screen::settle();
    EXPECT_EQ(told.count(), 0);
    event->say({{event::NoteWritten{"A1", ""}, {}}});
    EXPECT_TRUE(Screen::wait([&] { return told.count() == 1; }));
}

/// A reason may name whom it is about: with the name it goes from the record and from the log.
TEST_F(RecordPageTest, WithANameTheReasonBesideTheFrozenListGoesFromRecordAndLog) {
    ASSERT_NO_FATAL_FAILURE(open(event_of(small_cup)));
    event::PersonListed player;
    player.person = 7;
    player.role = event::Role::player;
    player.team = "Saltmarsh";
    player.jersey = Jersey{2};
    const std::string freezing = "0192f0a1-0000-7000-8000-000000001002";
    const std::vector<std::pair<event::Said, std::string>> acts{
        {{player, "Robin Example"}, "0192f0a1-0000-7000-8000-000000001001"},
        {{event::RosterFrozen{"Saltmarsh", {2}}, "Robin Example has come"}, freezing}};
    for (const auto& [said, id] : acts)
        event->act({{id}, {said}, state().last()}, [](const venue::ActOutcome& outcome) {
            ASSERT_EQ(outcome.fate, venue::ActOutcome::Fate::kept);
        });
    desk->show_audit({act_line(freezing, "desk 1: roster_frozen", false)});
    const auto anybody_reads = [&] {
        for (const Qt::Key page : {Qt::Key_F5, Qt::Key_F9}) {
            screen->key(page);
            Screen::settle();
            for (const auto& each : screen->inks())
                if (each.text.contains(QStringLiteral("Robin"))) return true;
        }
        return false;
    };
    EXPECT_TRUE(anybody_reads());
    seat->tournament()->people()->look(QStringLiteral("Saltmarsh"));
    seat->tournament()->people()->eraseName(7);
    EXPECT_TRUE(Screen::wait([&] { return event->book().words->count(state().last()) == 0; }));
    EXPECT_FALSE(anybody_reads());
}

/// A log cannot forget: a person stands there as a number.
TEST_F(RecordPageTest, TheLogNamesNoPersonAndGivesNoReasonAboutOne) {
    ASSERT_NO_FATAL_FAILURE(open(event_of(small_cup)));
    event::PersonListed listed;
    listed.person = 7;
    const std::vector<std::pair<event::Said, std::string>> acts{
        {{listed, "Robin Example"}, "person_listed"},
        {{event::ConflictDeclared{7, "Quayside"}, "a sister plays there"}, "conflict_declared"},
        {{event::DutyGiven{"A1", {}, {}, 7, 0}, "asked for by Robin Example"}, "duty_given"},
        {{event::TakenBack{11}, "the sister has left"}, "taken_back"},
        {{event::CrewFormed{"Blue", {7}}, "friends of Robin Example"}, "crew_formed"},
        {{event::NoteWritten{"A1", ""}, "the ball was checked"}, "note_written"}};
    std::vector<venue::AuditListed> lines;
    for (const auto& [said, kind] : acts) {
        const std::size_t number = lines.size() + 1;
        const std::string id = "0192f0a1-0000-7000-8000-00000000100" + std::to_string(number);
        event->act({{id}, {said}, state().last()}, [](const venue::ActOutcome& outcome) {
            ASSERT_EQ(outcome.fate, venue::ActOutcome::Fate::kept);
        });
        lines.push_back(act_line(id, "desk 1: " + kind, false));
        lines.back().number = number;
    }
    std::reverse(lines.begin(), lines.end());
    desk->show_audit(lines);
    screen->key(Qt::Key_F5);
    auto& rows = *seat->audit()->rows();
    ASSERT_TRUE(Screen::wait([&] { return rows.count() == 6; }));
    QStringList about;
    for (int row = rows.count() - 1; row >= 0; --row)
        about << rows.field(row, QStringLiteral("about")).toString();
    EXPECT_EQ(about, (QStringList{"official 7", "official 7", "official 7", "official 7",
                                  "official 7", "the ball was checked"}));
    for (const auto& each : screen->inks())
        EXPECT_FALSE(each.text.contains(QStringLiteral("Robin")) ||
                     each.text.contains(QStringLiteral("sister")))
            << each.text.toStdString();
}

}  // namespace
}  // namespace courthand::tests
