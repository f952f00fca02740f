// A window that is made smaller and larger again, on each page with its rows.
#include "tournament_fixture.h"

namespace courthand::tests {
namespace {

class ResizedWindow : public TournamentTest, public ::testing::WithParamInterface<Qt::Key> {};

TEST_P(ResizedWindow, LivesOnWithAllItsRows) {
    ASSERT_NO_FATAL_FAILURE(
        open(event_case("harbour-cup-24-teams", "result M5 paper 25-20 25-22")));
    finish_c1();
    screen->key(GetParam());
    constexpr QSize sizes[] = {{1024, 700}, {1366, 768}, {800, 600}, {1920, 1080},
                               {412, 915},  {1280, 800}, {900, 400}, {1366, 768}};
    for (int round = 0; round < 3; ++round)
        for (const QSize& size : sizes) {
            screen->window().resize(size);
            QCoreApplication::processEvents();
            // News in the middle of it, and the frame that lays it out.
            event->say(
                {{event::CourtOpened{static_cast<std::uint16_t>(20 + round), "", {}, {}, {}}, {}}});
            Screen::settle();
            EXPECT_FALSE(screen->window().grabWindow().isNull());
        }
    screen->key(Qt::Key_F1);
    EXPECT_TRUE(screen->find(QStringLiteral("matchList")) != nullptr);
}

INSTANTIATE_TEST_SUITE_P(Pages, ResizedWindow,
                         ::testing::Values(Qt::Key_F1, Qt::Key_F2, Qt::Key_F3, Qt::Key_F4,
                                           Qt::Key_F5, Qt::Key_F6, Qt::Key_F7, Qt::Key_F8,
                                           Qt::Key_F9, Qt::Key_F10, Qt::Key_F11));

// Lines of a sheet are taken away while nobody sees it; the next size lays out what is left.
TEST_F(TournamentTest, ASheetThatWasLeftLivesThroughTheNextSize) {
    ASSERT_NO_FATAL_FAILURE(
        open(event_case("harbour-cup-24-teams", "result M5 paper 25-20 25-22"), 412, 915));
    seats::ResultPage& page = *seat->tournament()->results();
    open_match("M9");
    Screen::settle();
    const auto lines = page.about().size();
    screen->key(Qt::Key_Escape);
    event::ResultConfirmed result{"M6", event::ResultFrom::paper, {{25, 20}, {25, 22}}, {}, {}};
    event->say({{result, {}}});
    Screen::settle();
    EXPECT_LT(page.about().size(), lines);
    for (const int width : {800, 390, 1366}) {
        screen->window().resize(width, 768);
        QCoreApplication::processEvents();
        EXPECT_FALSE(screen->window().grabWindow().isNull());
    }
}

}  // namespace
}  // namespace courthand::tests
