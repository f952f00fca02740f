// Every page and every sheet of the table on every glass it is used on: all can be touched and
// read.
#include <QTest>
#include <functional>

#include "glass_faults.h"
#include "table_fixture.h"

namespace courthand::client::test {
namespace {

struct Glass {
    const char* name;
    QSize size;
};

/// Tablets and laptops, each filled by its window.
const Glass glasses[] = {{"1024x768", {1024, 768}},
                         {"1280x800", {1280, 800}},
                         {"1366x768", {1366, 768}},
                         {"1920x1080", {1920, 1080}}};
/// Phones held upright: no screen for a table.
const Glass phones[] = {{"360x800", {360, 800}}, {"390x844", {390, 844}}, {"412x915", {412, 915}}};

class TableGlass : public TableTest, public testing::WithParamInterface<Glass> {
  protected:
    void show_here() {
        show(GetParam().size, 0);
        hand->settle();
    }
    void look(const QString& what) {
        hand->settle();
        hand->picture(QStringLiteral("t-%1-%2").arg(QLatin1String(GetParam().name), what));
        for (const QString& fault : glass_faults(*window))
            ADD_FAILURE() << what.toStdString() << ": " << fault.toStdString();
    }
    [[nodiscard]] std::vector<QObject*> sheets() const {
        std::vector<QObject*> sheets;
        for (QObject* child : window->findChildren<QObject*>())
            if (child->metaObject()->indexOfMethod("makeKnown()") >= 0) sheets.push_back(child);
        return sheets;
    }
    void middle_of_the_set() {
        ready_to_serve(*session);
        session->record(LiberoReplacement{Team::A, no(21), no(6)});
        session->record(LiberoReplacement{Team::B, no(41), no(35)});
        for (int i = 0; i < 12; ++i) {
            session->record(Serve{});
            session->record(RallyWon{Team::A});
        }
        session->record(TimeOut{Team::B});
    }
};

TEST_P(TableGlass, PagesBeforePlay) {
    show_here();
    look("start");
    open_match(*session);
    seat->lookAgain();
    look("toss");
    session->record(Toss{Team::A, Team::A});
    seat->lookAgain();
    look("set");
    session->record(SetStarted{1});
    seat->lookAgain();
    look("line-up");
}

TEST_P(TableGlass, PlayAndItsSheets) {
    middle_of_the_set();
    show_here();
    look("play");
    for (QObject* sheet : sheets()) {
        const QString name = sheet->property("name").toString();
        if (!sheet->property("offered").toBool()) continue;
        QMetaObject::invokeMethod(sheet, "ask");
        ASSERT_TRUE(QTest::qWaitFor([&] { return sheet->property("opened").toBool(); }))
            << name.toStdString();
        look(QStringLiteral("sheet-") + name);
        QMetaObject::invokeMethod(sheet, "close");
        ASSERT_TRUE(QTest::qWaitFor([&] { return !sheet->property("visible").toBool(); }));
    }
}

TEST_P(TableGlass, AVerdictAndItsRuling) {
    ready_to_serve(*session);
    show_here();
    ASSERT_TRUE(hand->touch("leftLibero0"));
    look("chosen");
    ASSERT_TRUE(hand->touch("left2"));
    look("not-legal");
    ASSERT_TRUE(hand->touch("happened"));
    ASSERT_TRUE(hand->touch("wonLeft"));
    look("verdict");
    ASSERT_TRUE(hand->touch("ruling"));
    look("sheet-ruling");
}

TEST_P(TableGlass, TheEndOfTheMatch) {
    MatchFormat format = session->rules().format;
    format.sets = 1;
    session->record(MatchOpened{format});
    ready_to_serve(*session);
    for (int i = 0; i < 15; ++i) {
        session->record(Serve{});
        session->record(RallyWon{Team::A});
        if (i == 7) {
            session->record(CourtSwitch{});
            session->record(LineUpChecked{Team::A});
            session->record(LineUpChecked{Team::B});
        }
    }
    show_here();
    seat->setNextMatch(QStringLiteral("match 18, Quayside against Saltmarsh"));
    look("result");
    ASSERT_TRUE(hand->touch("sign"));
    ASSERT_NE(hand->await("sign-captain-a"), nullptr);
    look("sheet-sign");
    hand->key(Qt::Key_Escape);
    session->written_by.who = Writing::Who::elsewhere;
    session->sync.link = SyncStatus::Link::online;
    seat->lookAgain();
    QTest::qWait(600);
    look("elsewhere");
}

class TablePhone : public TableGlass {};

TEST_P(TablePhone, SaysThatItIsTooSmallAndStillGoesOn) {
    middle_of_the_set();
    show_here();
    look("small");
    EXPECT_TRUE(hand->text("smallGlass").contains("too small"));
    EXPECT_FALSE(hand->shows("wonLeft")) << "nothing is touched by chance under it";
    ASSERT_TRUE(hand->touch("goOnSmall"));
    EXPECT_TRUE(hand->shows("wonLeft"));
    hand->picture(QStringLiteral("t-%1-after").arg(QLatin1String(GetParam().name)));
}

TEST_P(TableGlass, ATabletIsNotCalledSmall) {
    middle_of_the_set();
    show_here();
    EXPECT_FALSE(hand->shows("smallGlass"));
}

INSTANTIATE_TEST_SUITE_P(Phone, TablePhone, testing::ValuesIn(phones),
                         [](const auto& glass) { return std::string{"g"} + glass.param.name; });
INSTANTIATE_TEST_SUITE_P(Glass, TableGlass, testing::ValuesIn(glasses),
                         [](const auto& glass) { return std::string{"g"} + glass.param.name; });

}  // namespace
}  // namespace courthand::client::test
