// The results page: confirmed from a table, typed from paper, awarded and reopened.
#include <QQuickItem>
#include <QSignalSpy>
#include <algorithm>
#include <variant>

#include "results/typed_sets.h"
#include "tournament_fixture.h"

namespace courthand::tests {
namespace {

/// Halfway through the pools.
std::vector<event::Said> half() {
    return event_case("harbour-cup-24-teams", "result C1 paper 21-12 21-14");
}

class ResultsTest : public TournamentTest {};

TEST_F(ResultsTest, WhatATableHasFinishedIsConfirmedWithTheHeadOfItsRecord) {
    ASSERT_NO_FATAL_FAILURE(open(half()));
    finish_c1();
    screen->key(Qt::Key_F8);
    auto& rows = *seat->tournament()->results()->rows();
    EXPECT_TRUE(Screen::wait([&] { return rows.field(0, "key").toString() == "C1"; }))
        << "what waits for the desk comes first";
    EXPECT_EQ(rows.field(0, QStringLiteral("sets")).toString(), QStringLiteral("1 : 2"));
    screen->picture(QStringLiteral("results-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->key(Qt::Key_Up);  // the keys have stayed with the match where they were
    screen->key(Qt::Key_Return);
    EXPECT_NE(screen->find(QStringLiteral("confirmResult")), nullptr);
    screen->picture(QStringLiteral("results-match-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    EXPECT_EQ(screen->nameless(), QStringList());
    screen->key(Qt::Key_Return);
    EXPECT_NE(screen->find(QStringLiteral("actNow")), nullptr);
    read();
    screen->key(Qt::Key_Return);
    EXPECT_TRUE(Screen::wait([&] { return screen->peek(QStringLiteral("actNow")) == nullptr; }));
    const auto* const confirmed = std::get_if<event::ResultConfirmed>(&last_fact());
    ASSERT_NE(confirmed, nullptr);
    EXPECT_EQ(confirmed->from, event::ResultFrom::table);
    EXPECT_EQ(confirmed->sets, (std::vector<event::SetScore>{{18, 21}, {21, 19}, {11, 15}}));
    EXPECT_EQ(confirmed->head.bytes[31], 0x5a);
    EXPECT_TRUE(Screen::wait([&] {
        return rows.field(rows.rowOf(QStringLiteral("C1")), "state").toString() == "from the table";
    }));
}

TEST_F(ResultsTest, AResultFromPaperIsCheckedUnderTheFormatAndMarked) {
    ASSERT_NO_FATAL_FAILURE(open(half(), 1920, 1080));
    screen->key(Qt::Key_F8);
    screen->touch(QStringLiteral("result-C2"));
    screen->type(QStringLiteral("typedSets"), QStringLiteral("21-15 2x"));
    screen->key(Qt::Key_Return);
    EXPECT_TRUE(seat->tournament()->results()->problem().contains(QStringLiteral("Set 2")));
    // Best of three to 21: nobody wins 25-20.
    seat->tournament()->results()->look(QStringLiteral("C2"));
    screen->find(QStringLiteral("typedSets"))->setProperty("text", QString());
    screen->type(QStringLiteral("typedSets"), QStringLiteral("25-20 21-15"));
    screen->key(Qt::Key_Return);
    EXPECT_TRUE(screen->text_of(QStringLiteral("actFinding0"))
                    .contains(QStringLiteral("set 1 cannot end 25-20")));
    EXPECT_FALSE(screen->find(QStringLiteral("actNow"))->isEnabled());
    screen->picture(QStringLiteral("results-impossible-1920"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->key(Qt::Key_Escape);
    EXPECT_TRUE(Screen::wait([&] { return screen->peek(QStringLiteral("actNow")) == nullptr; }));
    EXPECT_NE(screen->find(QStringLiteral("typedSets")), nullptr)
        << "what was typed is still there";
    screen->find(QStringLiteral("typedSets"))->setProperty("text", QString());
    screen->type(QStringLiteral("typedSets"), QStringLiteral("21:15 18-21 15-9"));
    screen->click(QStringLiteral("enterResult"));
    record();
    const auto* const confirmed = std::get_if<event::ResultConfirmed>(&last_fact());
    ASSERT_NE(confirmed, nullptr);
    EXPECT_EQ(confirmed->match, "C2");
    EXPECT_EQ(confirmed->from, event::ResultFrom::paper);
    auto& rows = *seat->tournament()->results()->rows();
    EXPECT_TRUE(Screen::wait([&] {
        return rows.field(rows.rowOf(QStringLiteral("C2")), "state").toString() == "from paper";
    }));
    screen->picture(QStringLiteral("results-1920"));
    EXPECT_EQ(screen->cut(), QStringList());
}

TEST_F(ResultsTest, WhateverHangsOnAResultIsListedBeforeItIsReopened) {
    auto facts = event_case("harbour-cup-24-teams", "result M5 paper 25-20 25-22");
    for (auto& said : event_of("duty M6 workers 1 of A\n")) facts.push_back(std::move(said));
    ASSERT_NO_FATAL_FAILURE(open(facts));
    screen->key(Qt::Key_F8);
    seat->tournament()->results()->setOnlyOpen(false);
    screen->touch(QStringLiteral("result-A1"));
    screen->touch(QStringLiteral("reopenResult"));
    screen->type(QStringLiteral("actWhy"), QStringLiteral("two sets swapped"));
    EXPECT_EQ(screen->text_of(QStringLiteral("actEffect0")),
              QStringLiteral("A1, result: 21-12 21-14 → none"));
    const QStringList effects = seat->tournament()->preview()->effects();
    for (const char* told : {"M5, first side: Harbour Lights → 1st of pool A",
                             "place 1 of pool A in U16: Harbour Lights → open",
                             "M6, work: Harbour Lights → 1st of pool A"})
        EXPECT_TRUE(effects.contains(QString::fromUtf8(told))) << told << " is not among\n"
                                                               << effects.join('\n').toStdString();
    EXPECT_TRUE(effects.back().startsWith(QStringLiteral(
        "Pages for everyone, where they are published: Pools; Brackets; Harbour Lights; ")))
        << effects.back().toStdString();
    screen->picture(QStringLiteral("results-reopen-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    record();
    EXPECT_TRUE(std::holds_alternative<event::ResultReopened>(last_fact()));
    EXPECT_EQ(book.words->at(state().last()), "two sets swapped");
}

TEST_F(ResultsTest, AMatchIsAwarded) {
    struct Award {
        const char* button;
        const char* loser;
        event::Award how;
    };
    const std::vector<Award> awards{{"award-default", "loser0", event::Award::default_},
                                    {"award-forfeit", "loser1", event::Award::forfeit},
                                    {"award-double-default", "", event::Award::double_default}};
    for (const Award& award : awards) {
        ASSERT_NO_FATAL_FAILURE(open(half()));
        screen->key(Qt::Key_F8);
        screen->touch(QStringLiteral("result-C2"));
        screen->click(QString::fromLatin1(award.button));
        if (*award.loser != 0) screen->click(QString::fromLatin1(award.loser));
        screen->picture(QStringLiteral("results-award-1366"));
        screen->click(QStringLiteral("awardNow"));
        record();
        const auto* const awarded = std::get_if<event::MatchAwarded>(&last_fact());
        ASSERT_NE(awarded, nullptr) << award.button;
        EXPECT_EQ(awarded->how, award.how);
    }
}

TEST_F(ResultsTest, ATeamThatBecameIncompleteKeepsWhatItHasWon) {
    ASSERT_NO_FATAL_FAILURE(open(half()));
    screen->key(Qt::Key_F8);
    screen->touch(QStringLiteral("result-C2"));
    screen->type(QStringLiteral("typedSets"), QStringLiteral("21-15 12-8"));
    screen->click(QStringLiteral("award-team-short"));
    screen->click(QStringLiteral("loser0"));
    screen->click(QStringLiteral("awardNow"));
    record();
    EXPECT_EQ(state().match(*state().find_match("C2")).result->sets,
              (std::vector<event::SetScore>{{21, 15}, {12, 21}, {0, 15}}));
}

TEST_F(ResultsTest, OfAllMatchesOnlyTheRowsConcernedAreToldAnew) {
    ASSERT_NO_FATAL_FAILURE(open(half()));
    auto& rows = *seat->tournament()->results()->rows();
    EXPECT_TRUE(Screen::wait([&] { return rows.count() == 59; }));
    QSignalSpy reset(&rows, &QAbstractItemModel::modelReset);
    QSignalSpy changed(&rows, &QAbstractItemModel::dataChanged);
    event::ResultConfirmed result;
    result.match = "C1";
    result.from = event::ResultFrom::paper;
    result.sets = {{21, 12}, {21, 14}};
    event->say({{result, {}}});
    EXPECT_TRUE(Screen::wait([&] { return changed.count() > 0; }));
    Screen::settle();
    EXPECT_EQ(reset.count(), 0);
    ASSERT_EQ(changed.count(), 1);
    EXPECT_EQ(rows.field(changed[0][0].toModelIndex().row(), "key").toString(),
              QStringLiteral("C1"));
}

TEST_F(ResultsTest, ATableThatWritesOnChangesTheQuestionWhetherToConfirmIt) {
    ASSERT_NO_FATAL_FAILURE(open(half()));
    finish_c1();
    seat->tournament()->results()->look(QStringLiteral("C1"));
    EXPECT_TRUE(Screen::wait([&] { return seat->tournament()->results()->mayConfirm(); }));
    seat->tournament()->results()->confirm();
    read();
    auto& preview = *seat->tournament()->preview();
    EXPECT_EQ(preview.between(), QStringList());
    table_writes({{21, 18}, {21, 19}}, '\x5b');
    EXPECT_EQ(screen->text_of(QStringLiteral("actBetween0")),
              QStringLiteral("The table has recorded something else by now."));
    read();
    preview.act();
    EXPECT_TRUE(Screen::wait([&] { return !preview.open(); }));
    const auto* const confirmed = std::get_if<event::ResultConfirmed>(&last_fact());
    ASSERT_NE(confirmed, nullptr);
    EXPECT_EQ(confirmed->sets, (std::vector<event::SetScore>{{18, 21}, {19, 21}}));
    EXPECT_EQ(confirmed->head.bytes[31], 0x5b);
}

TEST_F(ResultsTest, ATableThatTakesTheEndBackLeavesNothingToConfirm) {
    ASSERT_NO_FATAL_FAILURE(open(half()));
    finish_c1();
    seat->tournament()->results()->look(QStringLiteral("C1"));
    EXPECT_TRUE(Screen::wait([&] { return seat->tournament()->results()->mayConfirm(); }));
    seat->tournament()->results()->confirm();
    read();
    table_writes({{21, 18}, {19, 21}}, '\x5b', false);
    EXPECT_TRUE(
        screen->text_of(QStringLiteral("actFinding0")).contains(QStringLiteral("no finished")));
    EXPECT_FALSE(seat->tournament()->preview()->mayAct());
}

TEST_F(ResultsTest, OtherTeamsInTheMatchAreToldBeforeItsResultIsKept) {
    ASSERT_NO_FATAL_FAILURE(
        open(event_case("harbour-cup-24-teams", "result A1 paper 21-12 21-14")));
    const auto& pools = state().divisions[0].pools;
    const std::string stays = state().teams[pools[1].teams[0]].name;
    const std::string moves = state().teams[state().side(*state().find_match("A1"), 0).team].name;
    seat->tournament()->results()->look(QStringLiteral("A1"));
    seat->tournament()->results()->enter(QStringLiteral("21-15 21-15"));
    EXPECT_TRUE(
        screen->text_of(QStringLiteral("actNote0")).startsWith(QString::fromStdString(moves)));
    read();
    event->say({{event::TeamMoved{moves, "B", stays}, {}}});
    EXPECT_NE(screen->find(QStringLiteral("actBetween0")), nullptr);
    EXPECT_TRUE(
        screen->text_of(QStringLiteral("actNote0")).startsWith(QString::fromStdString(stays)));
    read();
}

TEST_F(ResultsTest, APreviewShowsCourtAndTimeOldAndNew) {
    ASSERT_NO_FATAL_FAILURE(open(half()));
    event::MatchPlaced placed;
    placed.match = "C2";
    placed.court = 2;
    placed.at = *event::local_time_of("2026-11-28T09:30");
    event->say({{event::CourtOpened{2, "", {}, {}, {}}, {}},
                {event::CourtOpened{3, "", {}, {}, {}}, {}},
                {placed, {}}});
    auto& results = *seat->tournament()->results();
    results.look(QStringLiteral("C2"));
    EXPECT_TRUE(Screen::wait([&] { return results.court() == QStringLiteral("2"); }));
    results.place(QStringLiteral("3"), QStringLiteral("10:15"));
    read();
    EXPECT_EQ(seat->tournament()->preview()->effects(),
              (QStringList{QStringLiteral("C2, court: 2 → 3"),
                           QStringLiteral("C2, time: 2026-11-28 09:30 → 2026-11-28 10:15")}));
    screen->picture(QStringLiteral("results-place-preview-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
}

TEST_F(ResultsTest, HomeAndEndLeadToTheFirstAndTheLastMatch) {
    ASSERT_NO_FATAL_FAILURE(open(half()));
    screen->key(Qt::Key_F8);
    const QQuickItem* const list = screen->find(QStringLiteral("resultList"));
    const auto row = [&] { return list->property("currentIndex").toInt(); };
    const int last = seat->tournament()->results()->rows()->count() - 1;
    ASSERT_GT(last, 20);
    screen->key(Qt::Key_End);
    EXPECT_EQ(row(), last);
    screen->key(Qt::Key_PageUp);
    EXPECT_LT(row(), last - 1);
    EXPECT_GT(row(), 0);
    screen->key(Qt::Key_Home);
    EXPECT_EQ(row(), 0);
    screen->key(Qt::Key_PageDown);
    EXPECT_GT(row(), 1);
    screen->key(Qt::Key_End, Qt::KeypadModifier);
    EXPECT_EQ(row(), last) << "of a numeric keypad";
    screen->key(Qt::Key_Home, Qt::KeypadModifier);
    EXPECT_EQ(row(), 0);
    screen->key(Qt::Key_End, Qt::ControlModifier);
    EXPECT_EQ(row(), 0) << "a key of something else";
}

TEST_F(ResultsTest, AnEmptyListSaysWhyAndWhatToDo) {
    ASSERT_NO_FATAL_FAILURE(open({}));
    screen->key(Qt::Key_F8);
    const auto words = [&] { return screen->text_of(QStringLiteral("noResults")); };
    EXPECT_EQ(words(), QStringLiteral("No division is open yet. Open one on the page Teams."));
    const std::string teams =
        "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
        "division U16 profile international-2021 chain international-2017 format best-of 3\n"
        "team \"Harbour Lights\" in U16\n"
        "team \"Mill Lane\" in U16\n"
        "team \"Saltmarsh\" in U16\n";
    ASSERT_NO_FATAL_FAILURE(open(event_of(teams)));
    screen->key(Qt::Key_F8);
    EXPECT_EQ(words(),
              QStringLiteral("U16 has no match yet. Draw its pools or make a bracket first."));
    ASSERT_NO_FATAL_FAILURE(open(event_of(teams + "draw U16 serpentine pools 1\n"
                                                  "result A1 paper 25-20 25-20\n"
                                                  "result A2 paper 25-20 25-20\n"
                                                  "result A3 paper 25-20 25-20\n")));
    screen->key(Qt::Key_F8);
    EXPECT_EQ(screen->peek(QStringLiteral("noResults")), nullptr);
    screen->touch(QStringLiteral("onlyOpen"));
    EXPECT_EQ(words(), QStringLiteral("Every match of U16 has its result."));
}

/// The number of its table is for whoever holds its sheet; everybody else says its name.
TEST_F(ResultsTest, AMatchHasOneNameOnEveryPage) {
    ASSERT_NO_FATAL_FAILURE(open(half()));
    finish_c1();
    auto& matches = *seat->matches();
    EXPECT_TRUE(Screen::wait([&] { return matches.rowOf(QString::fromLatin1(c1_record)) >= 0; }));
    const int row = matches.rowOf(QString::fromLatin1(c1_record));
    EXPECT_EQ(matches.field(row, QStringLiteral("number")).toString(), QStringLiteral("C1"));
    EXPECT_TRUE(
        matches.field(row, QStringLiteral("spoken")).toString().startsWith(QStringLiteral("C1, ")));
    QStringList titles;
    for (int i = 0; i < seat->work()->count(); ++i)
        titles << seat->work()->field(i, QStringLiteral("title")).toString();
    EXPECT_TRUE(titles.contains(QStringLiteral("C1: result to confirm")));
    EXPECT_EQ(titles.filter(QStringLiteral("41")), QStringList());
    EXPECT_EQ(titles.filter(QStringLiteral("C1")).size(), 1) << titles.join('\n').toStdString();
}

TEST(TypedSets, AreReadOrToldWhatIsWrong) {
    const auto good = seats::read_sets(QStringLiteral(" 25-20, 18:25 15-12 "));
    ASSERT_TRUE(std::holds_alternative<std::vector<event::SetScore>>(good));
    EXPECT_EQ(std::get<0>(good), (std::vector<event::SetScore>{{25, 20}, {18, 25}, {15, 12}}));
    for (const char* bad :
         {"", "25", "25-", "25-20-3", "a-b", "25-200", "25-2000", "1-2 1-2 1-2 1-2 1-2 1-2"})
        EXPECT_TRUE(std::holds_alternative<QString>(seats::read_sets(QString::fromLatin1(bad))))
            << bad;
}

TEST_F(ResultsTest, ARunningSetIsShownAndNotCounted) {
    ASSERT_NO_FATAL_FAILURE(open(half()));
    finish_c1();
    auto news = desk->book();
    news.results.back().sets = {1, 0};
    news.results.back().set_scores = {{21, 18}, {5, 9}};
    news.results.back().decided = false;
    desk->show(news);
    screen->key(Qt::Key_F8);
    auto& rows = *seat->tournament()->results()->rows();
    EXPECT_TRUE(Screen::wait([&] {
        return rows.field(rows.rowOf(QStringLiteral("C1")), QStringLiteral("sets")).toString() ==
               QStringLiteral("0 : 1");
    })) << "the desk named the teams the other way round";
}

TEST_F(ResultsTest, WhoHasNotSignedIsSaidWhereSignaturesConfirm) {
    ASSERT_NO_FATAL_FAILURE(open(half()));
    finish_c1();
    screen->key(Qt::Key_F8);
    auto& results = *seat->tournament()->results();
    results.look(QStringLiteral("C1"));
    EXPECT_EQ(results.signatures(), QString()) << "the desk confirms alone";
    screen->click(QStringLiteral("confirmer"));
    EXPECT_NE(screen->find(QStringLiteral("actNow")), nullptr);
    screen->picture(QStringLiteral("results-confirmer-1366"));
    record();
    EXPECT_EQ(state().confirmer, event::Confirmer::signatures);
    EXPECT_TRUE(Screen::wait(
        [&] { return screen->text_of(QStringLiteral("confirmer")) == "Signatures confirm"; }));
    const auto ref = state().find_match("C1");
    const auto name = [&](std::size_t side) {
        return QString::fromStdString(state().teams[state().side(*ref, side).team].name);
    };
    EXPECT_EQ(results.signatures(),
              QStringLiteral("Not signed: captain of %1, captain of %2, first referee")
                  .arg(name(0), name(1)));

    // The desk has named the second side first: its captain is "A" in what the server says.
    table_is_signed({Signer::captain_a, Signer::first_referee});
    EXPECT_TRUE(Screen::wait([&] {
        return results.signatures() == QStringLiteral("Not signed: captain of %1").arg(name(0));
    })) << results.signatures().toStdString();
    open_match("C1");
    EXPECT_NE(screen->find(QStringLiteral("signatures")), nullptr);
    EXPECT_NE(screen->find(QStringLiteral("confirmResult")), nullptr) << "the desk still may";
    screen->picture(QStringLiteral("results-signatures-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    constexpr SignerSet all{Signer::captain_a, Signer::captain_b, Signer::first_referee};
    table_is_signed(all);
    EXPECT_TRUE(Screen::wait([&] {
        return results.signatures() ==
               QStringLiteral("Signed; it is confirmed by itself in a moment");
    }));
    table_is_signed(all, "a team has announced a protest");
    const auto left =
        QStringLiteral("Signed, and left to the desk: a team has announced a protest");
    EXPECT_TRUE(Screen::wait([&] { return results.signatures() == left; }));
    const int row = seat->work()->rowOf(QStringLiteral("confirm-C1"));
    ASSERT_GE(row, 0);
    EXPECT_TRUE(seat->work()
                    ->field(row, QStringLiteral("detail"))
                    .toString()
                    .endsWith(QStringLiteral(" · ") + left));
}

}  // namespace
}  // namespace courthand::tests
