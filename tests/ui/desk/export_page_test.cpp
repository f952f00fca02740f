// The whole event as files: where to, with names or without, how far it is, what came of it.
#include <thread>

#include "tournament_fixture.h"

namespace courthand::tests {
namespace {

class ExportTest : public TournamentTest {
  protected:
    void open_sheet() {
        ASSERT_NO_FATAL_FAILURE(
            open(event_case("harbour-cup-24-teams", "result C1 paper 21-12 21-14")));
        screen->key(Qt::Key_F8);
        screen->click(QStringLiteral("exportEvent"));
        ASSERT_NE(screen->find(QStringLiteral("exportNow")), nullptr);
    }
    /// As the network client does it: on a thread of its own.
    void tell(const venue::ExportProgress& so_far) {
        std::thread{[&] { exporter->tell(so_far); }}.join();
        Screen::settle();
    }
    void answer(const venue::Outcome& outcome) {
        std::thread{[&] { exporter->answer(outcome); }}.join();
        Screen::settle();
    }
    void name_folder(const QString& folder) {
        screen->find(QStringLiteral("exportFolder"))->setProperty("text", QString());
        screen->type(QStringLiteral("exportFolder"), folder);
    }
};

TEST_F(ExportTest, IsOfferedBelowTheDocumentsUnderTheNameOfTheEventAndWithoutNames) {
    ASSERT_NO_FATAL_FAILURE(open_sheet());
    const QString offered =
        screen->find(QStringLiteral("exportFolder"))->property("text").toString();
    EXPECT_TRUE(offered.endsWith(QStringLiteral("/harbour-cup-2026-11-28")))
        << offered.toStdString();
    EXPECT_EQ(screen->text_of(QStringLiteral("exportNamesNote")),
              QStringLiteral("Names of persons, reasons and notes are left out."));
    screen->picture(QStringLiteral("export-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    EXPECT_EQ(screen->nameless(), QStringList());
    screen->key(Qt::Key_Return);
    ASSERT_EQ(exporter->asked().size(), 1u);
    EXPECT_EQ(exporter->asked()[0].folder.string(), offered.toStdString());
    EXPECT_FALSE(exporter->asked()[0].with_names);
    EXPECT_EQ(exporter->asked()[0].author, "desk 1");
}

TEST_F(ExportTest, TellsHowFarItIsAndWhatWasWritten) {
    ASSERT_NO_FATAL_FAILURE(open_sheet());
    name_folder(QStringLiteral("/somewhere/cup"));
    screen->click(QStringLiteral("exportNames"));
    screen->click(QStringLiteral("exportNow"));
    ASSERT_EQ(exporter->asked().size(), 1u);
    EXPECT_TRUE(exporter->asked()[0].with_names);
    EXPECT_EQ(screen->text_of(QStringLiteral("exportProgress")),
              QStringLiteral("Asking the server"));
    EXPECT_FALSE(screen->find(QStringLiteral("exportNow"))->isEnabled());
    tell({1, 2048});
    EXPECT_EQ(screen->text_of(QStringLiteral("exportProgress")),
              QStringLiteral("1 file, 2.00 KiB so far"));
    screen->picture(QStringLiteral("export-under-way-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    tell({9, 3 * 1024 * 1024});
    answer(venue::Outcome::ok());
    EXPECT_EQ(screen->find(QStringLiteral("exportWritten"))->property("word").toString(),
              QStringLiteral("Written: 9 files, 3.00 MiB in /somewhere/cup"));
    EXPECT_TRUE(screen->find(QStringLiteral("exportNow"))->isEnabled());
    screen->picture(QStringLiteral("export-written-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
}

TEST_F(ExportTest, SaysWhyNotWithTheCure) {
    ASSERT_NO_FATAL_FAILURE(open_sheet());
    name_folder(QStringLiteral("cup"));
    screen->key(Qt::Key_Return);
    EXPECT_TRUE(screen->find(QStringLiteral("exportProblem"))
                    ->property("word")
                    .toString()
                    .startsWith(QStringLiteral("Name the folder from the root")));
    EXPECT_TRUE(exporter->asked().empty());
    name_folder(QStringLiteral("/somewhere/cup"));
    screen->key(Qt::Key_Return);
    const auto why = QStringLiteral(
        "/somewhere/cup is there already and not empty; name another folder. Nothing was saved.");
    answer(venue::Outcome::refused(why.toStdString()));
    EXPECT_EQ(screen->find(QStringLiteral("exportProblem"))->property("word").toString(), why);
    screen->picture(QStringLiteral("export-refused-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    EXPECT_EQ(screen->find(QStringLiteral("exportFolder"))->property("text").toString(),
              QStringLiteral("/somewhere/cup"))
        << "what was typed is still there";
}

TEST_F(ExportTest, GoesOnWhenTheSheetIsLeftAndIsToldOnThePage) {
    ASSERT_NO_FATAL_FAILURE(
        open(event_case("harbour-cup-24-teams", "result C1 paper 21-12 21-14")));
    screen->key(Qt::Key_E, Qt::ControlModifier);
    screen->click(QStringLiteral("exportNow"));
    screen->key(Qt::Key_Escape);
    EXPECT_TRUE(Screen::wait([&] { return screen->peek(QStringLiteral("exportNow")) == nullptr; }));
    tell({4, 4096});
    answer(venue::Outcome::ok());
    EXPECT_TRUE(screen->find(QStringLiteral("toastMark"))
                    ->property("word")
                    .toString()
                    .startsWith(QStringLiteral("Written: 4 files, 4.00 KiB in ")));
}

TEST_F(ExportTest, TheWindowMayCloseMeanwhile) {
    ASSERT_NO_FATAL_FAILURE(open_sheet());
    screen->click(QStringLiteral("exportNow"));
    ASSERT_EQ(exporter->asked().size(), 1u);
    std::thread late{[&] { exporter->tell({1, 1}); }};
    close();
    late.join();
    exporter->tell({2, 2});
    exporter->answer(venue::Outcome::ok());
    Screen::settle();
}

TEST(ExportFolder, IsNamedAfterTheEvent) {
    struct Case {
        const char* event;
        const char* folder;
    };
    for (const auto& [event, folder] :
         {Case{"Harbour Cup", "harbour-cup-2026-11-28"},
          Case{" U16/U18: a  b!", "u16-u18-a-b-2026-11-28"}, Case{"../..", "event-2026-11-28"},
          Case{"\u00c9t\u00e9", "t-2026-11-28"}}) {
        event::TournamentState state;
        state.opened = event::TournamentOpened{event, *event::date_of("2026-11-28"),
                                               *event::date_of("2026-11-29"), "Europe/London"};
        EXPECT_EQ(seats::folder_name(state).toStdString(), folder);
    }
    EXPECT_EQ(seats::folder_name({}).toStdString(), "event");
}

}  // namespace
}  // namespace courthand::tests
