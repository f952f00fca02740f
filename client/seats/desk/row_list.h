// A list of rows for the desk's screen. Rows keep their identity by a key, so that a new telling of
// the book changes only what changed and the focus stays where it was.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QAbstractListModel>
#include <QStringList>
#include <QVariantMap>
#include <vector>

namespace courthand::seats {

class RowList : public QAbstractListModel {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the desk seat")
    Q_PROPERTY(int count READ count NOTIFY countChanged)

  public:
    /// `fields` are the roles; the first one is the key.
    explicit RowList(QStringList fields, QObject* parent = nullptr);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QHash<int, QByteArray> roleNames() const override;
    [[nodiscard]] int count() const { return static_cast<int>(rows_.size()); }
    /// One field of one row; nothing when there is no such row.
    Q_INVOKABLE QVariant field(int row, const QString& name) const;

    void show(std::vector<QVariantMap> rows);

  Q_SIGNALS:
    void countChanged();

  private:
    [[nodiscard]] bool same_keys(const std::vector<QVariantMap>& rows) const;

    QStringList fields_;
    std::vector<QVariantMap> rows_;
};

}  // namespace courthand::seats
