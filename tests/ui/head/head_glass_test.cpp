// Every page and every sheet of the head seat on every glass it is used on: all can be touched and
// read to its end, also with many courts and long names.
#include <gtest/gtest.h>

#include "event_case.h"
#include "glass_faults.h"
#include "harbour_cup.h"
#include "head_seat.h"
#include "screen.h"
#include "venue/memory_board.h"
#include "venue/memory_event.h"

namespace courthand::tests {
namespace {

using namespace std::chrono_literals;
using client::test::glass_faults;
using client::test::text_faults;
using seats::HeadSeat;
using venue::MemoryBoard;

const QString window_url = QStringLiteral("qrc:/qt/qml/Courthand/Head/HeadWindow.qml");

struct Glass {
    const char* name;
    int width;
    int height;
};

const Glass glasses[] = {{"360x800", 360, 800},    {"390x844", 390, 844},   {"412x915", 412, 915},
                         {"1024x768", 1024, 768},  {"1280x800", 1280, 800}, {"1366x768", 1366, 768},
                         {"1920x1080", 1920, 1080}};

class HeadGlass : public ::testing::TestWithParam<Glass> {
  protected:
    void open(venue::Board board) {
        source = std::make_unique<MemoryBoard>(std::move(board), "Chief");
        seat = std::make_unique<HeadSeat>(*source, event, QStringLiteral("Harbour Cup"),
                                          [] { return 1'000'000ms; });
        screen = std::make_unique<Screen>(
            window_url, QVariantMap{{QStringLiteral("seat"), QVariant::fromValue(seat.get())}},
            GetParam().width, GetParam().height);
        ASSERT_TRUE(screen->ready());
    }
    void close() {
        screen.reset();
        seat.reset();
    }
    void TearDown() override { close(); }
    [[nodiscard]] static bool phone() { return GetParam().width < GetParam().height; }
    /// The page by its button: beside the clock, or below it on a phone.
    void turn_to(const char* wide, int tab) {
        if (phone())
            screen->touch(QStringLiteral("tab%1").arg(tab));
        else if (wide != nullptr)
            screen->touch(QString::fromLatin1(wide));
    }
    void look(const QString& what) {
        screen->picture(QStringLiteral("h-%1-%2").arg(QLatin1String(GetParam().name), what));
        for (const QString& fault : glass_faults(screen->window()))
            ADD_FAILURE() << what.toStdString() << ": " << fault.toStdString();
    }

    std::unique_ptr<MemoryBoard> source;
    venue::MemoryEvent event;
    std::unique_ptr<HeadSeat> seat;
    std::unique_ptr<Screen> screen;
};

TEST_P(HeadGlass, CardsOfManyCourtsWithLongNames) {
    for (const int courts : {4, 8, 12, 16, 32}) {
        ASSERT_NO_FATAL_FAILURE(open(harbour_cup_crowd(courts)));
        look(QStringLiteral("courts-%1").arg(courts));
        for (int court = 1; court <= 4; ++court) {
            const QQuickItem* card = screen->peek(QStringLiteral("court%1").arg(court));
            if (card == nullptr) continue;
            for (const QString& fault : text_faults(*card))
                ADD_FAILURE() << courts << " courts, court " << court << ": "
                              << fault.toStdString();
        }
        close();
    }
}

TEST_P(HeadGlass, PagesAndTheirAlerts) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_crowd(8)));
    turn_to(nullptr, 1);
    look(QStringLiteral("alerts"));
    for (const char* const id : {"a1", "a2", "a3", "a4"}) {
        screen->touch(QStringLiteral("alert-") + QString::fromLatin1(id));
        look(QStringLiteral("alert-") + QString::fromLatin1(id));
        screen->touch(QStringLiteral("back"));
    }
    turn_to("liberos", 2);
    look(QStringLiteral("liberos"));
}

TEST_P(HeadGlass, SheetsOfAnAlert) {
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_crowd(8)));
    turn_to(nullptr, 1);
    screen->touch(QStringLiteral("alert-a2"));
    screen->touch(QStringLiteral("ruling"));
    look(QStringLiteral("sheet-ruling"));
    screen->key(Qt::Key_Escape);
    screen->touch(QStringLiteral("shelve"));
    look(QStringLiteral("sheet-shelve"));
    screen->key(Qt::Key_Escape);
    screen->key(Qt::Key_Question, Qt::ShiftModifier);
    look(QStringLiteral("sheet-keys"));
    close();
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_forked()));
    source->show_fork(harbour_cup_fork());
    turn_to(nullptr, 1);
    screen->touch(QStringLiteral("alert-a7"));
    screen->touch(QStringLiteral("lookAtFork"));
    look(QStringLiteral("sheet-fork"));
}

TEST_P(HeadGlass, PlacesWithAndWithoutADecision) {
    event.say(event_case("decision-by-lot", "take-back 11"));
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board()));
    turn_to("standings", 3);
    look(QStringLiteral("places"));
    screen->touch(QStringLiteral("without0"));
    look(QStringLiteral("places-without"));
}

TEST_P(HeadGlass, FinalPlacesAndTheWayToOne) {
    event.say(event_case("harbour-cup-24-teams", "result S11 paper 25-20 25-22"));
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board()));
    turn_to("standings", 3);
    screen->touch(QStringLiteral("finals-U16"));
    EXPECT_NE(screen->peek(QStringLiteral("placeList")), nullptr);
    look(QStringLiteral("finals"));
    const auto& rows = *seat->standings()->finals()->rows();
    screen->touch(QStringLiteral("place-") + rows.field(1, QStringLiteral("key")).toString());
    EXPECT_NE(screen->find(QStringLiteral("placeReason0")), nullptr);
    look(QStringLiteral("finals-why"));
}

TEST_P(HeadGlass, PlacesThatWaitForADecision) {
    event.say(event_case("decision-by-lot",
                         "decision U16 pool A by lot teams \"Mill Lane\" \"Saltmarsh\" "
                         "\"Harbour Lights\""));
    ASSERT_NO_FATAL_FAILURE(open(harbour_cup_board()));
    turn_to("standings", 3);
    EXPECT_EQ(screen->text_of(QStringLiteral("standingsState")),
              QStringLiteral("Places 1–3 are level: a person must decide, at the desk"));
    look(QStringLiteral("places-open"));
}

INSTANTIATE_TEST_SUITE_P(Glass, HeadGlass, ::testing::ValuesIn(glasses),
                         [](const auto& glass) { return std::string{"g"} + glass.param.name; });

}  // namespace
}  // namespace courthand::tests
