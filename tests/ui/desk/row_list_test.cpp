// A list of rows tells what changed, row by row, and never the list as a whole.
#include <gtest/gtest.h>

#include <QAbstractItemModelTester>
#include <QCoreApplication>
#include <QSignalSpy>

#include "row_list.h"

namespace courthand::tests {
namespace {

using seats::RowList;

std::vector<QVariantMap> rows_of(const QStringList& keys, const QString& word = {}) {
    std::vector<QVariantMap> rows;
    for (const QString& key : keys)
        rows.push_back({{QStringLiteral("key"), key}, {QStringLiteral("word"), key + word}});
    return rows;
}

QStringList keys_of(const RowList& list) {
    QStringList keys;
    for (int i = 0; i < list.count(); ++i) keys << list.field(i, QStringLiteral("key")).toString();
    return keys;
}

struct Step {
    QStringList before;
    QStringList after;
    int inserted;  ///< signals
    int removed;
    int moved;
};

TEST(RowList, RowsComeGoAndMoveWithoutAReset) {
    const std::vector<Step> steps{
        {{}, {"a", "b", "c"}, 1, 0, 0},
        {{"a", "b", "c"}, {}, 0, 1, 0},
        {{"a", "b", "c"}, {"a", "x", "b", "c"}, 1, 0, 0},
        {{"a", "b", "c", "d"}, {"a", "d"}, 0, 1, 0},
        {{"a", "b", "c"}, {"c", "a", "b"}, 0, 0, 1},
        {{"a", "b", "c"}, {"d", "c", "e", "f"}, 2, 1, 0},
        {{"a", "b"}, {"b", "b", "a"}, 1, 0, 1},
        {{"b", "b", "a"}, {"a"}, 0, 1, 0},
    };
    for (const Step& step : steps) {
        RowList list({QStringLiteral("key"), QStringLiteral("word")});
        const QAbstractItemModelTester tester(
            &list, QAbstractItemModelTester::FailureReportingMode::Fatal);
        list.show(rows_of(step.before));
        ASSERT_EQ(keys_of(list), step.before);
        QSignalSpy reset(&list, &QAbstractItemModel::modelReset);
        QSignalSpy inserted(&list, &QAbstractItemModel::rowsInserted);
        QSignalSpy removed(&list, &QAbstractItemModel::rowsRemoved);
        QSignalSpy moved(&list, &QAbstractItemModel::rowsMoved);
        list.show(rows_of(step.after));
        const std::string told = step.after.join(',').toStdString();
        EXPECT_EQ(keys_of(list), step.after) << told;
        EXPECT_EQ(reset.count(), 0) << told;
        EXPECT_EQ(inserted.count(), step.inserted) << told;
        EXPECT_EQ(removed.count(), step.removed) << told;
        EXPECT_EQ(moved.count(), step.moved) << told;
    }
}

TEST(RowList, OfFiveHundredRowsOnlyTheFieldThatChangedIsTold) {
    QStringList keys;
    for (int i = 0; i < 500; ++i) keys << QStringLiteral("M%1").arg(i);
    RowList list({QStringLiteral("key"), QStringLiteral("word")});
    list.show(rows_of(keys));
    QSignalSpy reset(&list, &QAbstractItemModel::modelReset);
    QSignalSpy changed(&list, &QAbstractItemModel::dataChanged);
    auto rows = rows_of(keys);
    rows[321].insert(QStringLiteral("word"), QStringLiteral("25:20"));
    list.show(std::move(rows));
    EXPECT_EQ(reset.count(), 0);
    ASSERT_EQ(changed.count(), 1);
    EXPECT_EQ(changed[0][0].toModelIndex().row(), 321);
    const auto roles = changed[0][2].value<QList<int>>();
    ASSERT_EQ(roles.size(), 1);
    EXPECT_EQ(list.roleNames().value(roles[0]), "word");
    EXPECT_EQ(list.rowOf(QStringLiteral("M321")), 321);
}

}  // namespace
}  // namespace courthand::tests
