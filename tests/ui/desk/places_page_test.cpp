// Final places: who holds each and why, what is open, and the sentence that says when all is over.
#include "tournament_fixture.h"

namespace courthand::tests {
namespace {

class PlacesPageTest : public TournamentTest {
  protected:
    [[nodiscard]] QString word(const char* name) {
        auto* const item = screen->peek(QString::fromLatin1(name));
        return item == nullptr ? QString() : item->property("word").toString();
    }
    [[nodiscard]] QString row(int index, const char* field) {
        return seat->tournament()
            ->places()
            ->rows()
            ->field(index, QString::fromLatin1(field))
            .toString();
    }
};

TEST_F(PlacesPageTest, TheLastResultEndsTheEventAndTheWayToAPlaceIsTold) {
    ASSERT_NO_FATAL_FAILURE(
        open(event_case("harbour-cup-24-teams", "result S11 paper 25-20 25-22")));
    screen->key(Qt::Key_F10);
    auto& rows = *seat->tournament()->places()->rows();
    ASSERT_TRUE(Screen::wait([&] { return rows.count() == 24; }));
    EXPECT_EQ(word("divisionEnding"),
              QStringLiteral("U16: 1 of 59 matches without a confirmed result."));
    EXPECT_EQ(word("eventEnding"), QString());
    EXPECT_EQ(row(0, "name"), QStringLiteral("Harbour Lights"));
    EXPECT_EQ(row(12, "place"), QStringLiteral("13"));
    EXPECT_EQ(row(12, "state"), QStringLiteral("open"));
    screen->picture(QStringLiteral("places-open-1366"));
    EXPECT_EQ(screen->cut(), QStringList());

    event->say(event_of("result S11 paper 25-20 25-22\n"));
    EXPECT_TRUE(Screen::wait([&] {
        return word("eventEnding") ==
               QStringLiteral("Every match of the event is confirmed, places stand.");
    }));
    EXPECT_EQ(word("divisionEnding"),
              QStringLiteral("Every match of U16 is confirmed, places stand."));
    EXPECT_EQ(row(12, "name"), QStringLiteral("Kelp Row"));
    EXPECT_EQ(row(12, "state"), QStringLiteral("stands"));
    screen->picture(QStringLiteral("places-over-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    EXPECT_EQ(screen->nameless(), QStringList());

    // By key: down to the second place, Enter, Escape.
    screen->key(Qt::Key_Down);
    screen->key(Qt::Key_Return);
    EXPECT_TRUE(screen->text_of(QStringLiteral("placeReason0"))
                    .contains(QStringLiteral("won against ") + row(1, "name")));
    EXPECT_EQ(seat->tournament()->places()->title(),
              QStringLiteral("Place 2 of U16: ") + row(1, "name"));
    EXPECT_TRUE(seat->tournament()->places()->reasons().filter("of pool").size() == 1);
    screen->picture(QStringLiteral("place-why-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->key(Qt::Key_Escape);
    EXPECT_TRUE(
        Screen::wait([&] { return screen->peek(QStringLiteral("placeReason0")) == nullptr; }));

    event->say(event_of("reopen M12\n"));
    EXPECT_TRUE(Screen::wait([&] { return word("eventEnding").isEmpty(); }));
    EXPECT_EQ(row(0, "state"), QStringLiteral("open"));
    screen->touch(QStringLiteral("place-") + row(0, "key"));
    EXPECT_EQ(screen->text_of(QStringLiteral("placeReason1")),
              QStringLiteral("M12 has no confirmed result"));
}

/// Another desk makes a bracket meanwhile: its places come before those of the pools.
TEST_F(PlacesPageTest, ASheetStaysWithItsPlaceWhenOthersComeBeforeIt) {
    std::string cup =
        "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
        "division U16 profile international-2021 chain international-2017 format best-of 3\n";
    for (const char* team :
         {"Mill Lane", "Quayside", "Saltmarsh", "Ropewalk", "Lantern Hill", "Harbour Lights"})
        cup += std::string("team \"") + team + "\" in U16\n";
    cup += "draw U16 serpentine pools 2\n";
    for (const char* match : {"A1", "A2", "A3", "B1", "B2", "B3"})
        cup += std::string("result ") + match + " paper 25-20 25-20\n";
    ASSERT_NO_FATAL_FAILURE(open(event_of(cup)));
    screen->key(Qt::Key_F10);
    auto& rows = *seat->tournament()->places()->rows();
    ASSERT_TRUE(Screen::wait([&] { return rows.count() == 6; }));
    screen->touch(QStringLiteral("place-") + row(2, "key"));
    const QString title = seat->tournament()->places()->title();
    const QStringList reasons = seat->tournament()->places()->reasons();
    ASSERT_EQ(title, QStringLiteral("Place 3 of pool A: ") + row(2, "name"));
    event->say(event_of("bracket U16 single prefix M to-place 2\n"));
    ASSERT_TRUE(Screen::wait([&] { return row(0, "state") == QStringLiteral("open"); }));
    EXPECT_EQ(seat->tournament()->places()->title(), title);
    EXPECT_EQ(seat->tournament()->places()->reasons(), reasons);
}

TEST_F(PlacesPageTest, OfTwoDivisionsItIsSaidWhichOneLacksWhat) {
    ASSERT_NO_FATAL_FAILURE(open(event_of(
        "# memory\n"
        "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
        "division U16 profile international-2021 chain international-2017 format best-of 3\n"
        "division U18 profile international-2021 chain international-2017 format best-of 3\n"
        "team \"Mill Lane\" in U16\nteam \"Quayside\" in U16\nteam \"Saltmarsh\" in U16\n"
        "team \"Ropewalk\" in U18\nteam \"Lantern Hill\" in U18\n"
        "draw U16 serpentine pools 1\n"
        "result A1 paper 25-20 25-20\nresult A2 paper 25-20 25-20\n"
        "result A3 paper 25-20 25-20\n")));
    screen->key(Qt::Key_F10);
    EXPECT_TRUE(Screen::wait([&] {
        return word("divisionEnding") ==
               QStringLiteral("Every match of U16 is confirmed, places stand.");
    }));
    EXPECT_EQ(word("eventEnding"),
              QStringLiteral("The event is not over. U18: no match is made yet."));
    screen->picture(QStringLiteral("places-two-divisions-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->touch(QStringLiteral("division-U18"));
    EXPECT_EQ(seat->tournament()->places()->rows()->count(), 0);
    event->say(event_of("withdrawn \"Ropewalk\"\nwithdrawn \"Lantern Hill\"\n"));
    EXPECT_TRUE(Screen::wait([&] {
        return word("divisionEnding") == QStringLiteral("Of U18 no match is left to play.");
    }));
    EXPECT_EQ(word("eventEnding"),
              QStringLiteral("Every match of the event is confirmed, places stand."));
}

}  // namespace
}  // namespace courthand::tests
