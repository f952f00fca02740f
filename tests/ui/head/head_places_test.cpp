// Places at the head official's seat: those of a pool, with and without a decision, and the final
// ones.
#include "head_fixture.h"

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

}  // namespace
}  // namespace courthand::tests
