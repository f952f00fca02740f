// Places at the head official's seat: those of a pool, with and without a decision, and the final
// ones.
#include <algorithm>

#include "courthand/event/fold.h"
#include "head_fixture.h"
#include "ruled_standings.h"

namespace courthand::tests {
namespace {

class HeadPlaces : public HeadSeatTest {
  protected:
    [[nodiscard]] seats::PlacePage& finals() { return *seat->standings()->finals(); }
    [[nodiscard]] QString row(int index, const char* field) {
        return finals().rows()->field(index, QString::fromLatin1(field)).toString();
    }
    [[nodiscard]] QString word(const char* name) {
        auto* const item = screen->peek(QString::fromLatin1(name));
        return item == nullptr ? QString() : item->property("word").toString();
    }
};

TEST_F(HeadPlaces, PlacesOfAPoolWithAndWithoutADecision) {
    event.say(event_case("decision-by-lot", "take-back 11"));
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board(), 1366, 768));
    screen->key(Qt::Key_P);
    EXPECT_NE(screen->find(QStringLiteral("standing0")), nullptr);
    auto& page = *seat->standings();
    const auto place = [&](int row, const char* name) {
        return page.places()[row].toMap().value(QString::fromLatin1(name)).toString();
    };
    EXPECT_EQ(place(0, "name"), QStringLiteral("Mill Lane"));
    EXPECT_EQ(place(0, "place"), QStringLiteral("1"));
    EXPECT_EQ(place(0, "without"), QStringLiteral("1"));
    EXPECT_EQ(page.ending(),
              QStringLiteral("The event is not over. U16: 1 of 4 matches without a confirmed "
                             "result."));
    screen->touch(QStringLiteral("without0"));
    EXPECT_EQ(place(0, "without"), QStringLiteral("1–3")) << "the lot is the latest fact";
    screen->picture(QStringLiteral("head-standings-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    EXPECT_EQ(screen->nameless(), QStringList());
    screen->touch(QStringLiteral("without0"));
    EXPECT_EQ(page.fact(), 0);
}

TEST_F(HeadPlaces, PlacesOfAPoolThatIsPlayedAreSaidToBeProvisional) {
    event.say(event_case("decision-by-lot", "result A3 paper 20-25 20-25"));
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board(), 1366, 768));
    screen->key(Qt::Key_P);
    EXPECT_EQ(screen->text_of(QStringLiteral("standingsState")),
              QStringLiteral("Places are provisional: 1 match is open"));
    event::ResultConfirmed last;
    last.match = "A3";
    last.from = event::ResultFrom::paper;
    last.sets = {{20, 25}, {20, 25}};
    event.say({{last, {}}});
    EXPECT_TRUE(Screen::wait([&] {
        return screen->text_of(QStringLiteral("standingsState")) ==
               QStringLiteral("Places 1–3 are level: a person must decide, at the desk");
    }));
}

TEST_F(HeadPlaces, FinalPlacesAreThoseOfTheDeskWithTheWayToEach) {
    event.say(event_case("harbour-cup-24-teams", "result S11 paper 25-20 25-22"));
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board(), 1366, 768));
    screen->key(Qt::Key_P);
    screen->touch(QStringLiteral("finals-U16"));
    ASSERT_EQ(finals().rows()->count(), 24);
    EXPECT_EQ(word("divisionEnding"),
              QStringLiteral("U16: 1 of 59 matches without a confirmed result."));
    EXPECT_EQ(row(0, "name"), QStringLiteral("Harbour Lights"));
    EXPECT_EQ(row(12, "state"), QStringLiteral("open"));
    screen->picture(QStringLiteral("head-finals-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    EXPECT_EQ(screen->nameless(), QStringList());

    event.say(event_of("result S11 paper 25-20 25-22\n"));
    EXPECT_TRUE(Screen::wait([&] {
        return word("eventEnding") ==
               QStringLiteral("Every match of the event is confirmed, places stand.");
    }));
    EXPECT_EQ(row(12, "name"), QStringLiteral("Kelp Row"));
    EXPECT_EQ(row(12, "state"), QStringLiteral("stands"));

    // By key, with nothing but the list: down to the second place, Enter, Escape.
    screen->find(QStringLiteral("placeList"))->forceActiveFocus();
    screen->key(Qt::Key_Down);
    screen->key(Qt::Key_Return);
    EXPECT_TRUE(screen->text_of(QStringLiteral("placeReason0"))
                    .contains(QStringLiteral("won against ") + row(1, "name")));
    screen->picture(QStringLiteral("head-finals-why-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->key(Qt::Key_Escape);
    EXPECT_TRUE(
        Screen::wait([&] { return screen->peek(QStringLiteral("placeReason0")) == nullptr; }));

    screen->touch(QStringLiteral("standings-U16 B"));
    EXPECT_EQ(screen->peek(QStringLiteral("placeList")), nullptr);
    EXPECT_EQ(seat->standings()->pool(), QStringLiteral("U16 B"));
    EXPECT_EQ(seat->standings()->division(), QString());
}

TEST_F(HeadPlaces, OfADivisionWithoutPoolsTheFinalPlacesAreShownAtOnce) {
    std::string cup =
        "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
        "division U16 profile international-2021 chain international-2017 format best-of 3\n"
        "division U18 profile international-2021 chain international-2017 format best-of 3\n";
    for (const char* team : {"Mill Lane", "Quayside", "Saltmarsh", "Ropewalk"})
        cup += std::string("team \"") + team + "\" in U18\n";
    cup += "bracket U18 single prefix M\n";
    event.say(event_of(cup));
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board(), 1366, 768));
    screen->key(Qt::Key_P);
    EXPECT_EQ(seat->standings()->division(), QStringLiteral("U16"));
    screen->touch(QStringLiteral("finals-U18"));
    EXPECT_GE(finals().rows()->count(), 2);
    EXPECT_EQ(row(0, "state"), QStringLiteral("open"));
    EXPECT_EQ(screen->find(QStringLiteral("finals-U18"))->property("text").toString(),
              QStringLiteral("U18 final places"));
}

TEST_F(HeadPlaces, OnAVerdictThePlacesStandWithAndWithoutItsRemedy) {
    auto board = harbour_cup_board();
    venue::CourtOnBoard& court = board.courts[0];
    const std::string& a = court.teams.a.name;
    const std::string& b = court.teams.b.name;
    event.say(event_of(
        "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
        "division U16 profile international-2021 chain international-2017 format best-of 3\n"
        "team \"" +
        a + "\" in U16\nteam \"" + b +
        "\" in U16\nteam \"Tern Bay\" in U16\ndraw U16 serpentine pools 1\n"
        "result A1 paper 25-20 25-20\nresult A2 paper 25-20 25-20\n"));
    court.set = 3;
    court.finished_sets = {{25, 20}, {20, 25}, {15, 13}};
    court.score = {15, 13};
    venue::Alert& alert = board.alerts[0];
    alert.match_name = "A3";
    alert.set = 3;
    alert.score = {15, 13};
    alert.evidence.score_if_ruled = Score{14, 14};
    ASSERT_NO_FATAL_FAILURE(open(board, 1366, 768));
    seat->openAlert(QString::fromStdString(alert.id));
    EXPECT_TRUE(Screen::wait([&] { return seat->page()->standings().size() == 3; }));
    EXPECT_EQ(screen->text_of(QStringLiteral("ruledStandingsWords")),
              QStringLiteral("Places in pool A with the match at 25-20 20-25 15-13, and with the "
                             "remedy applied: not over."));
    EXPECT_NE(screen->find(QStringLiteral("ruledPlace0")), nullptr);
    screen->picture(QStringLiteral("head-ruled-standings-1366"));
    EXPECT_EQ(screen->nameless(), QStringList());

    // The result is confirmed as it ended: the same is compared.
    event.say(event_of("result A3 paper 25-20 20-25 15-13\n"));
    EXPECT_TRUE(Screen::wait([&] { return seat->page()->standings().size() == 3; }));
    EXPECT_TRUE(seat->page()->standingsWords().endsWith(QStringLiteral("not over.")));
}

/// Scores of the table, whose team A is the second side of the match.
Score points(std::uint8_t a, std::uint8_t b) {
    return {a, b};
}

TEST(RuledStandings, StandBesideThoseWithoutTheRemedy) {
    const std::string cup =
        "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
        "division U16 profile international-2021 chain international-2017 format best-of 3\n"
        "team \"Mill Lane\" in U16\nteam \"Quayside\" in U16\nteam \"Saltmarsh\" in U16\n"
        "draw U16 serpentine pools 1\n"
        "result A1 paper 25-20 25-20\nresult A2 paper 25-20 25-20\n";
    const auto state_with = [&](const std::string& said) {
        event::TournamentState state;
        for (const auto& one : event_of(cup + said)) event::fold_in(state, one.fact);
        return state;
    };
    const event::TournamentState open = state_with("");
    const event::MatchRef a3 = *open.find_match("A3");
    const auto name = [&](std::size_t side) { return open.teams[open.side(a3, side).team].name; };
    venue::CourtOnBoard court;
    court.match_id = "m";
    court.set = 3;
    court.teams.a.name = name(1);
    court.teams.b.name = name(0);
    venue::Alert alert;
    alert.match_id = "m";
    alert.match_name = "A3";
    alert.set = 3;
    const auto told = [&](const event::TournamentState& state) {
        QStringList lines;
        for (const auto& row : seats::standings_if_ruled(state, court, alert).rows)
            lines << QStringLiteral("%1: %2 → %3")
                         .arg(row.value("name").toString(), row.value("place").toString(),
                              row.value("without").toString());
        return lines;
    };
    const auto words = [&](const event::TournamentState& state) {
        return seats::standings_if_ruled(state, court, alert).words;
    };

    EXPECT_EQ(words(open), QString()) << "the remedy changes no score";
    court.finished_sets = {points(25, 20), points(20, 25)};
    court.score = points(10, 9);
    alert.evidence.score_if_ruled = points(9, 10);
    EXPECT_EQ(words(open),
              QStringLiteral("Places in pool A do not hang on it: the match is not over."));
    EXPECT_EQ(told(open), QStringList());

    court.finished_sets.push_back(points(15, 13));
    court.score = points(15, 13);
    alert.evidence.score_if_ruled = points(14, 14);
    EXPECT_EQ(words(open), QStringLiteral("Places in pool A with the match at 20-25 25-20 13-15, "
                                          "and with the remedy applied: not over."));
    const QStringList while_open = told(open);
    EXPECT_EQ(while_open.size(), 3);

    alert.evidence.score_if_ruled = points(13, 15);
    const QStringList turned = told(open);
    EXPECT_NE(turned, while_open) << "the other team has won it then";
    EXPECT_TRUE(std::any_of(turned.begin(), turned.end(), [](const QString& line) {
        return line.section(' ', -3, -3) != line.section(' ', -1);
    })) << turned.join('\n').toStdString();
    EXPECT_EQ(told(state_with("result A3 paper 20-25 25-20 13-15\n")), turned)
        << "confirmed meanwhile, as it ended";

    court.set = 2;
    EXPECT_EQ(words(open), QString()) << "of a set that has gone by";
    court.set = 3;
    court.teams.a.name = "Ropewalk";
    EXPECT_EQ(words(open), QString()) << "other teams play";
}

}  // namespace
}  // namespace courthand::tests
