// Teams of the tournament: entered, seeded, drawn, moved, withdrawn; divisions and brackets made.
#include <algorithm>
#include <variant>

#include "tournament_fixture.h"

namespace courthand::tests {
namespace {

/// Eight teams of four clubs in a division without pools.
std::vector<event::Said> eight_teams() {
    return event_of(
        "# memory\n"
        "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
        "division U16 profile international-2021 chain international-2017 format best-of 3\n"
        "team \"Harbour Lights 1\" in U16 club \"Harbour Lights\"\n"
        "team \"Mill Lane 1\" in U16 club \"Mill Lane\"\n"
        "team \"Saltmarsh\" in U16\n"
        "team \"Quayside\" in U16\n"
        "team \"Ropewalk\" in U16\n"
        "team \"Lantern Hill\" in U16\n"
        "team \"Mill Lane 2\" in U16 club \"Mill Lane\"\n"
        "team \"Harbour Lights 2\" in U16 club \"Harbour Lights\"\n");
}

bool any_starts(const QStringList& lines, const QString& start) {
    return std::any_of(lines.begin(), lines.end(),
                       [&](const QString& line) { return line.startsWith(start); });
}

TEST_F(TournamentTest, TeamsStandByPoolWithClubSeedAndList) {
    ASSERT_NO_FATAL_FAILURE(
        open(event_case("harbour-cup-24-teams", "result A1 paper 21-12 21-14")));
    screen->key(Qt::Key_F3);
    auto& rows = *seat->tournament()->entries()->rows();
    EXPECT_TRUE(Screen::wait([&] { return rows.count() == 24; }));
    EXPECT_EQ(rows.field(0, QStringLiteral("key")).toString(), QStringLiteral("Harbour Lights"));
    EXPECT_EQ(rows.field(0, QStringLiteral("pool")).toString(), QStringLiteral("Pool A"));
    screen->picture(QStringLiteral("teams-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    EXPECT_EQ(screen->nameless(), QStringList());
}

TEST_F(TournamentTest, ADrawIsShownBeforeItIsDoneAndAMoveTellsWhatItBreaks) {
    ASSERT_NO_FATAL_FAILURE(open(eight_teams()));
    screen->key(Qt::Key_F6);
    screen->click(QStringLiteral("drawPools"));
    screen->type(QStringLiteral("poolCount"), QStringLiteral("2"));
    screen->type(QStringLiteral("poolCuts"), QStringLiteral("2"));
    screen->picture(QStringLiteral("draw-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->click(QStringLiteral("drawNow"));
    EXPECT_EQ(screen->text_of(QStringLiteral("actNote1")),
              QStringLiteral("Pool A: Harbour Lights 1, Quayside, Ropewalk, Harbour Lights 2"));
    EXPECT_TRUE(
        any_starts(seat->tournament()->preview()->notes(),
                   QStringLiteral("Breaks: pool A: Harbour Lights 1 and Harbour Lights 2")));
    screen->picture(QStringLiteral("draw-preview-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    EXPECT_FALSE(state().divisions[0].draw);
    record();
    EXPECT_EQ(state().divisions[0].pools.size(), 2u);

    screen->key(Qt::Key_F3);
    screen->touch(QStringLiteral("entry-Harbour Lights 2"));
    screen->click(QStringLiteral("toPool-B"));
    screen->click(QStringLiteral("swap-Lantern Hill"));
    screen->picture(QStringLiteral("team-move-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->click(QStringLiteral("moveTeam"));
    const QStringList notes = seat->tournament()->preview()->notes();
    EXPECT_TRUE(any_starts(notes, QStringLiteral("Mends: pool A: Harbour Lights 1 and")))
        << notes.join('\n').toStdString();
    screen->picture(QStringLiteral("team-move-preview-1366"));
    record();
    const auto* const moved = std::get_if<event::TeamMoved>(&last_fact());
    ASSERT_NE(moved, nullptr);
    EXPECT_EQ(moved->with, "Lantern Hill");
}

/// What a person says at the entry of a team, and what no draw could avoid, are told with the draw.
TEST_F(TournamentTest, ADrawTellsWhoMeetsAgainAndWhatItsOrdersHold) {
    ASSERT_NO_FATAL_FAILURE(open(event_of(
        "# memory\n"
        "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
        "division U16 profile international-2021 chain international-2017 format best-of 3\n")));
    auto& page = *seat->tournament()->entries();
    page.enter(QStringLiteral("Saltmarsh, , pool C"));
    EXPECT_TRUE(page.problem().contains(QStringLiteral("“pool C” is no pool of the last event")))
        << page.problem().toStdString();
    screen->key(Qt::Key_F3);
    screen->click(QStringLiteral("enterTeams"));
    screen->find(QStringLiteral("teamLines"))
        ->setProperty("text",
                      "Mill Lane 1, Mill Lane\nSaltmarsh,,C\nQuayside\nMill Lane 2, Mill Lane\n"
                      "Ropewalk\nLantern Hill, , A\nKelp Row,,C\nMill Lane 3, Mill Lane, B\n"
                      "Boathouse\nTern Bay");
    screen->picture(QStringLiteral("enter-teams-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->click(QStringLiteral("enterNow"));
    record();
    const event::Team& last = state().teams[*state().find_team("Mill Lane 3")];
    EXPECT_EQ(last.club, "Mill Lane");
    EXPECT_EQ(last.last_pool, "B");
    EXPECT_EQ(seat->tournament()->entries()->rows()->field(7, "about").toString(),
              QStringLiteral("Mill Lane · no team list · last event: pool B"));

    auto& division = *seat->tournament()->divisionPage();
    division.drawPools({{QStringLiteral("method"), "serpentine"}, {QStringLiteral("pools"), 2}});
    const QStringList notes = seat->tournament()->preview()->notes();
    EXPECT_TRUE(notes.contains(
        QStringLiteral("Breaks: pool B: Saltmarsh and Kelp Row met in pool C of the last event")))
        << notes.join('\n').toStdString();
    EXPECT_TRUE(notes.contains(
        QStringLiteral("Cannot be avoided: 3 teams are of one club, Mill Lane, and there are 2 "
                       "pools: two of them meet in any draw")));
    EXPECT_TRUE(notes.contains(
        QStringLiteral("Order of play: a pool of 5: 10 matches, each pair once; at most 1 in a row "
                       "for a team; duties of each: 2")));
    EXPECT_TRUE(notes.contains(
        QStringLiteral("Order of play: a pool of 5 on two courts: 5 of 10 matches need workers "
                       "from elsewhere: too few teams of the pool are idle then")));
    Screen::settle();
    screen->picture(QStringLiteral("draw-constraints-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    record();

    // A move by hand mends it, and tells so.
    ASSERT_TRUE(page.look(QStringLiteral("Kelp Row")));
    page.move(QStringLiteral("A"), QStringLiteral("Ropewalk"));
    EXPECT_TRUE(seat->tournament()->preview()->notes().contains(
        QStringLiteral("Mends: pool B: Saltmarsh and Kelp Row met in pool C of the last event")));
}

TEST_F(TournamentTest, ABracketShowsItsFirstMatchesBeforeItIsMade) {
    ASSERT_NO_FATAL_FAILURE(open(eight_teams(), 1920, 1080));
    screen->key(Qt::Key_F7);
    screen->click(QStringLiteral("makeBracket"));
    screen->type(QStringLiteral("bracketPrefix"), QStringLiteral("K"));
    screen->click(QStringLiteral("kind-consolation"));
    screen->picture(QStringLiteral("bracket-make-1920"));
    screen->click(QStringLiteral("bracketNow"));
    EXPECT_TRUE(any_starts(seat->tournament()->preview()->notes(), QStringLiteral("K1: ")));
    screen->picture(QStringLiteral("bracket-make-preview-1920"));
    EXPECT_EQ(screen->cut(), QStringList());
    record();
    EXPECT_TRUE(Screen::wait([&] { return seat->tournament()->bracket()->boxes()->count() > 8; }));
}

TEST_F(TournamentTest, ATeamThatLeavesIsWithdrawnWithTheReasonBesideTheFact) {
    ASSERT_NO_FATAL_FAILURE(
        open(event_case("harbour-cup-24-teams", "result A5 paper 21-19 19-21 15-12")));
    screen->key(Qt::Key_F3);
    screen->touch(QStringLiteral("entry-Boathouse"));
    screen->click(QStringLiteral("withdrawTeam"));
    screen->type(QStringLiteral("actWhy"), QStringLiteral("the bus broke down"));
    EXPECT_TRUE(screen->text_of(QStringLiteral("actNote0")).contains(QStringLiteral("struck")));
    screen->picture(QStringLiteral("team-withdraw-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    record();
    EXPECT_TRUE(state().teams[*state().find_team("Boathouse")].withdrawn);
    EXPECT_EQ(book.words->at(state().last()), "the bus broke down");
    auto& rows = *seat->tournament()->entries()->rows();
    EXPECT_TRUE(Screen::wait(
        [&] { return rows.field(rows.count() - 1, "state").toString() == "has left"; }));
}

TEST_F(TournamentTest, ATournamentBeginsWithNothing) {
    ASSERT_NO_FATAL_FAILURE(open({}));
    screen->key(Qt::Key_F3);
    screen->click(QStringLiteral("backToEntries"));
    screen->type(QStringLiteral("firstDay"), QStringLiteral("28.11.2026"));
    screen->type(QStringLiteral("lastDay"), QStringLiteral("2026-11-29"));
    screen->type(QStringLiteral("timeZone"), QStringLiteral("Europe/London"));
    screen->click(QStringLiteral("openNow"));
    EXPECT_TRUE(
        screen->text_of(QStringLiteral("divisionProblem")).contains(QStringLiteral("2026-11-28")));
    screen->find(QStringLiteral("firstDay"))->setProperty("text", QString());
    screen->type(QStringLiteral("firstDay"), QStringLiteral("2026-11-28"));
    screen->click(QStringLiteral("confirms-signatures"));
    screen->picture(QStringLiteral("open-tournament-signatures-1366"));
    screen->click(QStringLiteral("openNow"));
    record();
    ASSERT_TRUE(state().opened);
    EXPECT_EQ(state().opened->name, "Harbour Cup");
    EXPECT_EQ(state().confirmer, event::Confirmer::signatures);

    screen->click(QStringLiteral("backToEntries"));
    screen->type(QStringLiteral("divisionCode"), QStringLiteral("U16"));
    screen->picture(QStringLiteral("division-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->click(QStringLiteral("openNow"));
    record();
    ASSERT_EQ(state().division_count(), 1);
    EXPECT_EQ(state().divisions[0].format.sets, 3);

    screen->click(QStringLiteral("enterTeams"));
    screen->type(QStringLiteral("teamLines"), QStringLiteral("Mill Lane 1, Mill Lane"));
    screen->key(Qt::Key_Return);
    screen->type(QStringLiteral("teamLines"), QStringLiteral("Saltmarsh"));
    screen->click(QStringLiteral("enterNow"));
    record();
    ASSERT_EQ(state().teams.size(), 2u);
    EXPECT_EQ(state().teams[0].club, "Mill Lane");

    screen->click(QStringLiteral("giveSeeds"));
    screen->picture(QStringLiteral("seeds-1366"));
    screen->click(QStringLiteral("seedsNow"));
    record();
    EXPECT_EQ(state().divisions[0].seeds.size(), 2u);
}

/// As the tables of an earlier version leave it: times of UTC, no time zone, some matches played.
TEST_F(TournamentTest, AnOpeningKeepsTheMomentsOfMatchesThatHadTheirTimesBefore) {
    ASSERT_NO_FATAL_FAILURE(open(event_of(
        "# memory\n"
        "division U16 profile international-2021 chain international-2017 format best-of 3\n"
        "team \"Mill Lane\" in U16\nteam \"Quayside\" in U16\n"
        "court 1\ncourt 2\n"
        "match 1 in U16 first \"Mill Lane\" second \"Quayside\"\n"
        "match 2 in U16 first \"Quayside\" second \"Mill Lane\"\n"
        "match 3 in U16 first \"Quayside\" second \"Mill Lane\"\n"
        "place 1 court 1 at 2026-07-04T09:00\n"
        "place 2 court 2 at 2026-11-28T09:00 timing follows may-start-early\n"
        "place 3 court 2\n"
        "result 1 paper 25-20 25-22\n")));
    const auto places = [&] {
        std::vector<event::Placement> found;
        for (const char* name : {"1", "2", "3"})
            found.push_back(*state().match(*state().find_match(name)).placement);
        return found;
    };
    const auto before = places();
    auto& page = *seat->tournament()->divisionPage();
    page.openTournament(QStringLiteral("Harbour Cup"), QStringLiteral("2026-07-04"),
                        QStringLiteral("2026-11-29"), QStringLiteral("Europe/Athens"));
    EXPECT_EQ(page.problem(), QString());
    EXPECT_EQ(seat->tournament()->preview()->findings(), QStringList());
    record();
    ASSERT_TRUE(state().opened);
    EXPECT_EQ(state().last(), 15U) << "the opening, and the two that had a time";
    const auto after = places();
    EXPECT_EQ(event::written(after[0].at), "2026-07-04T12:00") << "summer time";
    EXPECT_EQ(event::written(after[1].at), "2026-11-28T11:00");
    EXPECT_EQ(after[2], before[2]);
    for (std::size_t i = 0; i < 2; ++i) {
        EXPECT_EQ(after[i].court, before[i].court);
        EXPECT_EQ(after[i].timing, before[i].timing);
        EXPECT_EQ(after[i].may_start_early, before[i].may_start_early);
    }
}

/// The server would say the same by the names of its protocol.
TEST_F(TournamentTest, WhatCannotBeKeptIsToldAsASentenceWithPlaceAndCure) {
    ASSERT_NO_FATAL_FAILURE(open({}));
    auto& page = *seat->tournament()->divisionPage();
    page.openTournament(QStringLiteral("Harbour Cup"), QStringLiteral("2026-11-28"),
                        QStringLiteral("2026-11-29"), QStringLiteral(" "));
    EXPECT_EQ(page.problem(),
              QStringLiteral("Write the time zone of the hall, as in Europe/London."));
    EXPECT_FALSE(seat->tournament()->preview()->open());

    ASSERT_NO_FATAL_FAILURE(open(eight_teams()));
    auto& preview = *seat->tournament()->preview();
    event::TournamentOpened no_zone{"Harbour Cup", *event::date_of("2026-11-28"),
                                    *event::date_of("2026-11-29"), ""};
    const QString long_words(501, QLatin1Char('x'));
    struct Unkept {
        event::Fact fact;
        QString words;
        const char* told;
    };
    const std::vector<Unkept> all{
        {no_zone,
         {},
         "Tournament opened: the time zone is empty. Write up to 48 letters, digits and - . _ + "
         "/."},
        {event::TeamWithdrawn{std::string(65, 'x')},
         {},
         "Team withdrawn: the team does not fit: 65 bytes, at most 64 are allowed. Write up to 64 "
         "bytes, without special keys."},
        {event::TeamWithdrawn{"Quayside"}, long_words,
         "The words beside it cannot be kept. Write up to 500 bytes, without special keys."},
    };
    for (const Unkept& each : all) {
        preview.ask({QStringLiteral("An act"), {}, {}, {each.fact}, each.words, {}});
        EXPECT_EQ(preview.problem(), QString::fromLatin1(each.told));
        EXPECT_FALSE(preview.mayAct());
    }
    EXPECT_EQ(screen->text_of(QStringLiteral("actProblem")), QString::fromLatin1(all.back().told));
}

}  // namespace
}  // namespace courthand::tests
