// A sheet is known by its file alone: by name, word and key, and where its button stands.
#include <QDir>
#include <QKeySequence>
#include <QSet>
#include <QTest>

#include "heard_warnings.h"
#include "sheet_files.h"
#include "sheet_names.h"
#include "table_fixture.h"

namespace courthand::client::test {
namespace {

class Sheets : public TableTest {
  protected:
    /// What lies on the shelf of the window.
    [[nodiscard]] std::vector<QObject*> all() const {
        std::vector<QObject*> sheets;
        for (QObject* child : window->findChildren<QObject*>())
            if (child->metaObject()->indexOfMethod("makeKnown()") >= 0) sheets.push_back(child);
        return sheets;
    }
    [[nodiscard]] static QString text(const QObject* sheet, const char* property) {
        return sheet->property(property).toString();
    }
};

TEST_F(Sheets, EachFileIsOne) {
    ready_to_serve(*session);
    show();
    const QStringList files =
        QDir{QStringLiteral(COURTHAND_TABLE_SHEETS)}.entryList({QStringLiteral("*.qml")});
    ASSERT_GT(files.size(), 10);
    ASSERT_EQ(SheetFiles::list().size(), files.size());
    for (const QString& file : files)
        EXPECT_TRUE(SheetFiles::list().filter(file).size() == 1) << file.toStdString();
    EXPECT_EQ(all().size(), static_cast<std::size_t>(files.size()))
        << "a file there is no TableSheet, or does not load";
}

TEST_F(Sheets, EachHasANameAWordAndAKeyOfItsOwn) {
    ready_to_serve(*session);
    show();
    QSet<QString> names;
    for (const QObject* sheet : all()) {
        const QString name = text(sheet, "name");
        EXPECT_FALSE(name.isEmpty());
        EXPECT_FALSE(names.contains(name)) << name.toStdString() << " is the name of two sheets";
        names.insert(name);
        EXPECT_FALSE(text(sheet, "word").isEmpty()) << name.toStdString();
        EXPECT_EQ(seat->keys()->keys(sheet->property("act").toInt()), text(sheet, "key"))
            << name.toStdString();
    }
    for (const char* name : sheets::wanted)
        EXPECT_TRUE(names.contains(QString::fromLatin1(name))) << name << " has no file";
}

TEST_F(Sheets, NoTwoKeysAreTheSame) {
    ready_to_serve(*session);
    show();
    QSet<QString> keys;
    for (const QVariant& row : seat->keys()->list()) {
        const auto key = row.value<KeyRow>();
        EXPECT_FALSE(key.keys.isEmpty()) << key.words.toStdString();
        EXPECT_FALSE(key.words.isEmpty()) << key.keys.toStdString();
        EXPECT_FALSE(keys.contains(key.keys)) << key.keys.toStdString() << " is two keys";
        keys.insert(key.keys);
    }
    EXPECT_FALSE(keys.contains(QStringLiteral("N"))) << "it says \"none\" on a line-up sheet";
}

/// Opened by its key, closed by Escape; those that are not offered now stay closed.
TEST_F(Sheets, EachOpensByItsKeyWhenItIsOffered) {
    ready_to_serve(*session);
    show();
    for (QObject* sheet : all()) {
        const QString name = text(sheet, "name");
        const QKeySequence keys{text(sheet, "key")};
        hand->key(keys[0].key());
        EXPECT_EQ(sheet->property("visible").toBool(), sheet->property("offered").toBool())
            << name.toStdString();
        hand->key(Qt::Key_Escape);
        ASSERT_TRUE(QTest::qWaitFor([&] { return !sheet->property("visible").toBool(); }))
            << name.toStdString();
    }
}

TEST_F(Sheets, ThoseOnTheSheetMoreStandThereByTheirWord) {
    ready_to_serve(*session);
    show();
    ASSERT_TRUE(hand->touch("more"));
    ASSERT_NE(hand->await("more-keys"), nullptr);
    for (const QObject* sheet : all()) {
        const QString button = QStringLiteral("more-") + text(sheet, "name");
        const bool there = sheet->property("place").toInt() == 3;  // TableSheet.More
        EXPECT_EQ(hand->shows(button), there && sheet->property("offered").toBool())
            << button.toStdString();
        if (hand->shows(button)) {
            EXPECT_EQ(hand->text(button), text(sheet, "word"));
        }
    }
}

/// The next match has a key map of its own.
TEST_F(Sheets, AnotherMatchInTheWindowHasTheKeysToo) {
    ready_to_serve(*session);
    show();
    MemorySession other{"us-domestic-2014", harbour_cup_sheet("us-domestic-2014")};
    ready_to_serve(other);
    TableSeat next{other};
    const tests::HeardWarnings heard;
    ASSERT_TRUE(window->setProperty("seat", QVariant::fromValue(&next)));
    EXPECT_EQ(next.keys()->list().size(), seat->keys()->list().size());
    hand->key(Qt::Key_T);
    ASSERT_TRUE(hand->touch("timeOutLeft"));
    EXPECT_EQ(other.state().set.team.a.time_outs, 1);
    EXPECT_EQ(session->state().set.team.a.time_outs, 0);
    ASSERT_TRUE(window->setProperty("seat", QVariant::fromValue(seat.get())));
    EXPECT_EQ(heard.all(), QStringList());
}

}  // namespace
}  // namespace courthand::client::test
