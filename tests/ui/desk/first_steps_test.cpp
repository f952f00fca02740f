// What somebody meets who opens the desk for the first time: where the keys go, what is said before
// anything is done, and what stands in a field.
#include <QQuickItem>
#include <variant>

#include "tests/testkit/small_cup.h"
#include "tournament_fixture.h"

namespace courthand::tests {
namespace {

class FirstSteps : public TournamentTest {
  protected:
    [[nodiscard]] bool has_focus(const char* field) {
        const auto* const input =
            screen->find(QString::fromLatin1(field))->property("input").value<QQuickItem*>();
        return input != nullptr && Screen::wait([&] { return input->hasActiveFocus(); });
    }
    [[nodiscard]] QString typed(const char* field) {
        return screen->find(QString::fromLatin1(field))->property("text").toString();
    }
    /// The right edge of what lies furthest to the right among these.
    [[nodiscard]] double right_edge(const std::vector<const char*>& names) {
        double edge = 0;
        for (const char* name : names) {
            const QQuickItem* const item = screen->find(QString::fromLatin1(name));
            edge = std::max(edge, item->mapToScene({item->width(), 0}).x());
        }
        return edge;
    }
};

TEST_F(FirstSteps, TheHeadOfTheScreenHasTheNameThatTheTournamentIsGiven) {
    ASSERT_NO_FATAL_FAILURE(open({}));
    EXPECT_EQ(seat->venueName(), QStringLiteral("Harbour Cup"));
    event->say({{event::TournamentOpened{"Lantern Cup", *event::date_of("2026-11-28"),
                                         *event::date_of("2026-11-28"), "Europe/London"},
                 {}}});
    EXPECT_TRUE(Screen::wait([&] { return seat->venueName() == QStringLiteral("Lantern Cup"); }));
}

TEST_F(FirstSteps, OnThePageOfTeamsTheKeyBeginsWhatThePageOffers) {
    ASSERT_NO_FATAL_FAILURE(open({}));
    screen->key(Qt::Key_F3);
    screen->key(Qt::Key_N, Qt::ControlModifier);
    EXPECT_TRUE(has_focus("firstDay")) << "the name is there already";
    EXPECT_EQ(screen->cut(), QStringList()) << "the examples are read to their end";
    screen->picture(QStringLiteral("open-tournament-1366"));
    screen->type(QStringLiteral("firstDay"), QStringLiteral("2026-11-28"));
    screen->type(QStringLiteral("timeZone"), QStringLiteral("Europe"));
    screen->key(Qt::Key_Escape);
    EXPECT_TRUE(Screen::wait([&] { return screen->peek(QStringLiteral("openNow")) == nullptr; }));
    screen->key(Qt::Key_N, Qt::ControlModifier);
    EXPECT_EQ(typed("firstDay"), QString());
    EXPECT_EQ(typed("timeZone"), QString());
    screen->key(Qt::Key_Escape);

    ASSERT_NO_FATAL_FAILURE(open(
        event_of("# memory\n"
                 "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n")));
    screen->key(Qt::Key_F3);
    screen->key(Qt::Key_N, Qt::ControlModifier);
    EXPECT_TRUE(has_focus("divisionCode"));
    EXPECT_EQ(screen->cut(), QStringList());
}

TEST_F(FirstSteps, ADivisionHasTheLengthOfItsMatches) {
    ASSERT_NO_FATAL_FAILURE(open(
        event_of("# memory\n"
                 "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n")));
    screen->key(Qt::Key_F3);
    screen->key(Qt::Key_N, Qt::ControlModifier);
    screen->type(QStringLiteral("divisionCode"), QStringLiteral("U16"));
    screen->type(QStringLiteral("divisionLasts"), QStringLiteral("5x"));
    screen->key(Qt::Key_Return);
    EXPECT_TRUE(
        screen->text_of(QStringLiteral("divisionProblem")).contains(QStringLiteral("minutes")));
    screen->find(QStringLiteral("divisionLasts"))->setProperty("text", QString());
    screen->type(QStringLiteral("divisionLasts"), QStringLiteral("50"));
    screen->type(QStringLiteral("divisionRest"), QStringLiteral("20"));
    screen->type(QStringLiteral("divisionInRow"), QStringLiteral("2"));
    screen->type(QStringLiteral("divisionADay"), QStringLiteral("4"));
    screen->type(QStringLiteral("divisionLatePoints"), QStringLiteral("1"));
    screen->type(QStringLiteral("divisionLateSet"), QStringLiteral("10"));
    screen->type(QStringLiteral("divisionLateMatch"), QStringLiteral("20"));
    screen->type(QStringLiteral("divisionCrewLate"), QStringLiteral("3"));
    screen->picture(QStringLiteral("open-division-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->key(Qt::Key_Return);
    record();
    ASSERT_EQ(state().division_count(), 1);
    EXPECT_EQ(state().divisions[0].rules.match_minutes, 50);
    const event::DivisionOpened& rules = state().divisions[0].rules;
    EXPECT_EQ(rules.rest_minutes, 20);
    EXPECT_EQ(rules.most_in_a_row, 2);
    EXPECT_EQ(rules.most_a_day, 4);
    EXPECT_EQ(rules.late_points, 1);
    EXPECT_EQ(rules.late_set_minutes, 10);
    EXPECT_EQ(rules.late_match_minutes, 20);
    EXPECT_EQ(rules.crew_late_points, 3);

    // Said again, its limits stand beside the fields.
    screen->click(QStringLiteral("openDivision"));
    EXPECT_EQ(screen->peek(QStringLiteral("divisionLimits")), nullptr);
    screen->type(QStringLiteral("divisionCode"), QStringLiteral("U16"));
    EXPECT_TRUE(screen->text_of(QStringLiteral("divisionLimits"))
                    .contains(QStringLiteral("matches in a row 2, matches a day 4")));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->picture(QStringLiteral("open-division-again-1366"));
}

TEST_F(FirstSteps, ADivisionSaidAgainKeepsWhatTheSheetDoesNotAsk) {
    ASSERT_NO_FATAL_FAILURE(open(
        event_of("# memory\n"
                 "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
                 "division U16 profile international-2021 chain international-2017 called \"Under "
                 "16\" lasts 40 rest 20 in-a-row 2 a-day 5 late-points 1 late-set 10\n")));
    const event::DivisionOpened before = state().divisions[0].rules;
    seat->tournament()->divisionPage()->openDivision(
        {{QStringLiteral("code"), QStringLiteral("U16")},
         {QStringLiteral("profile"), QStringLiteral("international-2025")},
         {QStringLiteral("chain"), QString::fromStdString(before.chain)},
         {QStringLiteral("struck"), true},
         {QStringLiteral("rest"), QStringLiteral("30")},
         {QStringLiteral("lateSet"), QStringLiteral("0")},
         {QStringLiteral("lateMatch"), QStringLiteral(" 25 ")}});
    EXPECT_EQ(seat->tournament()->divisionPage()->problem(), QString());
    record();
    const event::DivisionOpened& now = state().divisions[0].rules;
    EXPECT_EQ(now.profile, "international-2025");
    EXPECT_EQ(now.rest_minutes, 30);
    EXPECT_EQ(now.name, "Under 16");
    EXPECT_EQ(now.match_minutes, 40);
    EXPECT_EQ(now.most_in_a_row, 2);
    EXPECT_EQ(now.most_a_day, 5);
    EXPECT_EQ(now.late_points, 1);
    EXPECT_EQ(now.late_set_minutes, 0) << "0 takes the limit away";
    EXPECT_EQ(now.late_match_minutes, 25);
    seat->tournament()->divisionPage()->openDivision(
        {{QStringLiteral("code"), QStringLiteral("U16")},
         {QStringLiteral("profile"), QStringLiteral("international-2025")},
         {QStringLiteral("chain"), QString::fromStdString(before.chain)},
         {QStringLiteral("latePoints"), QStringLiteral("26")}});
    EXPECT_EQ(seat->tournament()->divisionPage()->problem(),
              QStringLiteral("“26” cannot be the points a minute late. Write a number, 0 to 25; 0: "
                             "no limit; empty: as it is."));
}

/// Of a match of even sets the published orders say nothing, and of one that is longer than a
/// league plays neither: better heard when the division is opened than when its pools are drawn.
TEST_F(FirstSteps, ADivisionWhoseChainHasNoValueForAScoreSaysSoBeforeItIsMade) {
    struct Case {
        const char* chain;
        int sets;
        const char* unvalued;
    };
    const auto notes = [&] {
        return seat->tournament()->preview()->notes().join(QLatin1Char(' '));
    };
    for (const Case& each :
         {Case{"international-2017", 2, "no match points for 1-1:"},
          Case{"best-of-three-league", 5, "no match points for 3-0 and 3-1 and 3-2:"},
          Case{"international-2017", 3, ""}, Case{"international-2017", 0, ""},
          Case{"us-junior-national", 2, ""}}) {
        ASSERT_NO_FATAL_FAILURE(open(event_of(
            "# memory\n"
            "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n")));
        screen->key(Qt::Key_F3);
        screen->key(Qt::Key_N, Qt::ControlModifier);
        screen->type(QStringLiteral("divisionCode"), QStringLiteral("U16"));
        screen->click(QStringLiteral("chain-%1").arg(QString::fromLatin1(each.chain)));
        screen->click(QStringLiteral("bestOf-%1").arg(each.sets));
        screen->picture(QStringLiteral("open-division-%1-1366").arg(each.sets));
        EXPECT_EQ(screen->cut(), QStringList());
        screen->key(Qt::Key_Return);
        read();
        const bool says = notes().contains(QStringLiteral("could never be put in order"));
        EXPECT_EQ(says, each.unvalued[0] != 0) << each.chain << ", " << each.sets;
        EXPECT_TRUE(notes().contains(QString::fromLatin1(each.unvalued))) << notes().toStdString();
        screen->picture(QStringLiteral("open-division-preview-%1-1366").arg(each.sets));
        EXPECT_EQ(state().division_count(), 0) << "it is not made yet";
        record();
        EXPECT_EQ(state().divisions[0].format.sets, each.sets == 0 ? 5 : each.sets);
    }
}

TEST_F(FirstSteps, ALostConnectionLeavesThePagesInTheWindow) {
    ASSERT_NO_FATAL_FAILURE(open(event_of("# memory\n" + testkit::six_teams())));
    desk->show(venue::Link{venue::LinkState::lost, {}});
    EXPECT_TRUE(Screen::wait([&] { return seat->linkWord().startsWith("No connection"); }));
    Screen::settle();
    EXPECT_LE(right_edge({"page0", "page10", "keys"}), screen->window().width());
    screen->picture(QStringLiteral("link-lost-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
}

TEST_F(FirstSteps, ThePageOfImportTellsOfDivisionsAndOfficialsAndAsksForAReasonOnlyOfFrozenLists) {
    const std::string script = "# memory\n" + testkit::six_teams();
    for (const bool frozen : {false, true}) {
        ASSERT_NO_FATAL_FAILURE(
            open(event_of(script + (frozen ? "roster \"Mill Lane\" numbers 1 2\n" : ""))));
        screen->key(Qt::Key_O, Qt::ControlModifier);
        const QString columns = screen->text_of(QStringLiteral("rosterColumns"));
        for (const char* word : {"division", "coach", "official", "worker"})
            EXPECT_TRUE(columns.contains(QString::fromLatin1(word))) << word;
        screen->picture(QStringLiteral("import-1366"));
        EXPECT_EQ(screen->cut(), QStringList());
        seat->rosters()->readText(seat->rosters()->example());
        EXPECT_TRUE(Screen::wait([&] { return seat->rosters()->lines()->count() > 0; }));
        Screen::settle();
        EXPECT_EQ(screen->peek(QStringLiteral("rosterReason")) != nullptr, frozen);
    }
}

TEST_F(FirstSteps, ADrawBySeedsTellsWhoHasNone) {
    struct Case {
        const char* seeds;
        const char* told;  ///< empty: nothing of seeds
    };
    for (const Case& one :
         {Case{"", "No team has a seed"},
          Case{"seeds U16 teams \"Ropewalk\" \"Quayside\" \"Mill Lane\" \"Saltmarsh\" \"Harbour "
               "Lights\"\n",
               "Without a seed, behind the others in the order of their entry: Lantern Hill."},
          Case{"seeds U16 teams \"Ropewalk\" \"Quayside\" \"Mill Lane\" \"Saltmarsh\" \"Harbour "
               "Lights\" \"Lantern Hill\"\n",
               ""}}) {
        ASSERT_NO_FATAL_FAILURE(open(event_of("# memory\n" + testkit::six_teams() + one.seeds)));
        auto& page = *seat->tournament()->divisionPage();
        const QString told = QString::fromLatin1(one.told);
        page.drawPools({{QStringLiteral("method"), "serpentine"}, {QStringLiteral("pools"), 2}});
        EXPECT_EQ(page.problem(), QString());
        const QString first = seat->tournament()->preview()->notes().value(0);
        EXPECT_TRUE(told.isEmpty() ? first.startsWith("Pool A") : first.startsWith(told))
            << first.toStdString();
        EXPECT_EQ(first.contains("Give seeds on the page Teams first"), !told.isEmpty());
        seat->tournament()->preview()->close();
        page.makeBracket({{QStringLiteral("kind"), "single"}, {QStringLiteral("prefix"), "K"}});
        EXPECT_EQ(seat->tournament()->preview()->notes().value(0).contains("Give seeds"),
                  !told.isEmpty());
        page.drawPools({{QStringLiteral("method"), "by-hand"}, {QStringLiteral("pools"), 2}});
        for (const QString& note : seat->tournament()->preview()->notes())
            EXPECT_FALSE(note.contains("Give seeds"));
    }
}

/// An act that waits says what for.
TEST_F(FirstSteps, AnActThatIsUnderWaySaysSo) {
    ASSERT_NO_FATAL_FAILURE(open(event_of("# memory\n" + testkit::six_teams())));
    seat->tournament()->divisionPage()->giveSeeds(QStringLiteral("Mill Lane"));
    read();
    line->hold();
    seat->tournament()->preview()->act();
    EXPECT_TRUE(Screen::wait([&] {
        for (const auto& each : screen->inks())
            if (each.text == QStringLiteral("Asking the record")) return true;
        return false;
    }));
    screen->picture(QStringLiteral("act-under-way-1366"));
    line->release();
    EXPECT_TRUE(Screen::wait([&] { return !seat->tournament()->preview()->open(); }));
}

}  // namespace
}  // namespace courthand::tests
