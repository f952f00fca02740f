// The disk fails under a table that is open: its window stays, with what was read last and what to
// do about it.
#include <gtest/gtest.h>

#include <QQmlApplicationEngine>
#include <QQuickWindow>
#include <QTest>

#include "client/app/table_screen.h"
#include "screen_hand.h"
#include "tests/unit/client/journal_kit.h"

namespace courthand::client::test {
namespace {

TEST(UnreadableJournal, EndsNoWindowAndIsSaidWithItsCure) {
    const ScratchFolder folder;
    QQmlApplicationEngine engine;
    engine.addImportPath(QStringLiteral("qrc:/qt/qml"));
    TableStation::Options options;
    options.folder = folder.path();
    auto station = TableStation::open(std::move(options));
    ASSERT_TRUE(std::holds_alternative<std::unique_ptr<TableStation>>(station));
    auto screen = std::make_unique<TableScreen>(std::move(std::get<0>(station)), engine);
    const std::string wrong = screen->open();
    ASSERT_EQ(wrong, "");
    auto* window = qobject_cast<QQuickWindow*>(engine.rootObjects().constFirst());
    ASSERT_NE(window, nullptr);
    ASSERT_TRUE(QTest::qWaitForWindowExposed(window));
    ScreenHand hand{*window};
    auto* seat = window->property("seat").value<TableSeat*>();
    ASSERT_NE(seat, nullptr);
    for (int i = 0; i < 2; ++i) seat->acts()->remark(QStringLiteral("wet floor"));
    ASSERT_EQ(screen->match().records().size(), 3U);
    spoil_the_disk(screen->station().journal(), folder.path());
    EXPECT_TRUE(QTest::qWaitFor(
        [&] {
            return hand.text(QStringLiteral("saved")) ==
                   QStringLiteral("the journal cannot be read");
        },
        30000))
        << hand.text(QStringLiteral("saved")).toStdString();
    const QQuickItem* help = hand.find(QStringLiteral("help"));
    ASSERT_NE(help, nullptr);
    EXPECT_TRUE(help->property("word").toString().contains(QStringLiteral("another device")));
    hand.picture(QStringLiteral("table-unreadable"));
    // The next touches find the words on the screen and no journal to note that in.
    ASSERT_TRUE(QTest::qWaitFor([&] { return !seat->board()->news().isEmpty(); }, 30000));
    EXPECT_NO_THROW(seat->acts()->remark(QStringLiteral("still wet")));
    EXPECT_NO_THROW(seat->undo());
    EXPECT_NO_THROW(seat->undo());
    EXPECT_TRUE(window->isVisible());
}

}  // namespace
}  // namespace courthand::client::test
