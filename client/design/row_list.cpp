#include "row_list.h"

#include <QSet>
#include <algorithm>

namespace courthand::seats {

RowList::RowList(QStringList fields, QObject* parent)
    : QAbstractListModel(parent), fields_(std::move(fields)) {}

int RowList::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : count();
}

QHash<int, QByteArray> RowList::roleNames() const {
    QHash<int, QByteArray> names;
    for (int i = 0; i < fields_.size(); ++i)
        names.insert(Qt::UserRole + 1 + i, fields_[i].toUtf8());
    return names;
}

QVariant RowList::data(const QModelIndex& index, int role) const {
    const int at = role - Qt::UserRole - 1;
    if (!index.isValid() || at < 0 || at >= fields_.size()) return {};
    return field(index.row(), fields_[at]);
}

QVariant RowList::field(int row, const QString& name) const {
    if (row < 0 || row >= count()) return {};
    return rows_[static_cast<std::size_t>(row)].value(name);
}

int RowList::rowOf(const QString& key) const {
    for (std::size_t i = 0; i < rows_.size(); ++i)
        if (key_of(rows_[i]) == key) return static_cast<int>(i);
    return -1;
}

QList<int> RowList::changed_roles(const QVariantMap& before, const QVariantMap& after) const {
    QList<int> roles;
    for (int i = 0; i < fields_.size(); ++i)
        if (before.value(fields_[i]) != after.value(fields_[i])) roles << Qt::UserRole + 1 + i;
    return roles;
}

QString RowList::key_of(const QVariantMap& row) const {
    return row.value(fields_.constFirst()).toString();
}

void RowList::leave_out(const std::vector<QVariantMap>& rows) {
    QSet<QString> wanted;
    for (const auto& row : rows) wanted.insert(key_of(row));
    for (int end = count(); end > 0;) {
        int begin = end;
        while (begin > 0 && !wanted.contains(key_of(rows_[static_cast<std::size_t>(begin) - 1])))
            --begin;
        if (begin == end) {
            --end;
            continue;
        }
        beginRemoveRows({}, begin, end - 1);
        rows_.erase(rows_.begin() + begin, rows_.begin() + end);
        endRemoveRows();
        end = begin;
    }
}

void RowList::put_in(std::vector<QVariantMap>& rows, int from) {
    QSet<QString> there;
    for (const auto& row : rows_) there.insert(key_of(row));
    const int all = static_cast<int>(rows.size());
    int to = from;
    while (to < all && !there.contains(key_of(rows[static_cast<std::size_t>(to)]))) ++to;
    // A key that stands twice goes in one by one.
    to = std::max(to, from + 1);
    beginInsertRows({}, from, to - 1);
    rows_.insert(rows_.begin() + from, rows.begin() + from, rows.begin() + to);
    endInsertRows();
}

void RowList::bring(int from, int to) {
    beginMoveRows({}, from, from, {}, to);
    std::rotate(rows_.begin() + to, rows_.begin() + from, rows_.begin() + from + 1);
    endMoveRows();
}

bool RowList::same_keys(const std::vector<QVariantMap>& rows) const {
    return std::equal(rows.begin(), rows.end(), rows_.begin(), rows_.end(),
                      [this](const auto& a, const auto& b) {
                          return a.isSharedWith(b) || key_of(a) == key_of(b);
                      });
}

void RowList::show(std::vector<QVariantMap> rows) {
    if (same_keys(rows))
        change(std::move(rows));
    else
        exchange(std::move(rows));
}

void RowList::change(std::vector<QVariantMap> rows) {
    for (std::size_t i = 0; i < rows.size(); ++i) put(static_cast<int>(i), rows[i]);
}

void RowList::put(int at, QVariantMap& row) {
    QVariantMap& shown = rows_[static_cast<std::size_t>(at)];
    if (row == shown) return;
    const QList<int> roles = changed_roles(shown, row);
    shown = std::move(row);
    Q_EMIT dataChanged(index(at), index(at), roles);
}

void RowList::exchange(std::vector<QVariantMap> rows) {
    const int before = count();
    leave_out(rows);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const int at = static_cast<int>(i);
        const QString key = key_of(rows[i]);
        if (at >= count() || key_of(rows_[i]) != key) {
            const auto later = std::find_if(rows_.begin() + std::min(at, count()), rows_.end(),
                                            [&](const auto& row) { return key_of(row) == key; });
            if (later == rows_.end()) {
                put_in(rows, at);
                continue;
            }
            bring(static_cast<int>(later - rows_.begin()), at);
        }
        put(at, rows[i]);
    }
    const int more = count() - static_cast<int>(rows.size());
    if (more > 0) {
        beginRemoveRows({}, count() - more, count() - 1);
        rows_.resize(rows.size());
        endRemoveRows();
    }
    if (count() != before) Q_EMIT countChanged();
}

}  // namespace courthand::seats
