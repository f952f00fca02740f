#include "row_list.h"

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

bool RowList::same_keys(const std::vector<QVariantMap>& rows) const {
    const QString& key = fields_.constFirst();
    return std::equal(rows.begin(), rows.end(), rows_.begin(), rows_.end(),
                      [&](const auto& a, const auto& b) { return a.value(key) == b.value(key); });
}

void RowList::show(std::vector<QVariantMap> rows) {
    if (!same_keys(rows)) {
        beginResetModel();
        rows_ = std::move(rows);
        endResetModel();
        Q_EMIT countChanged();
        return;
    }
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (rows[i] == rows_[i]) continue;
        rows_[i] = std::move(rows[i]);
        const auto at = index(static_cast<int>(i));
        Q_EMIT dataChanged(at, at);
    }
}

}  // namespace courthand::seats
