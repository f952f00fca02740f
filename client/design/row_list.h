// A list of rows for a screen. Rows keep their identity by a key, so that a new telling of
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
    QML_UNCREATABLE("Made by a seat")
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
    /// Where the row with that key stands; -1 when there is none.
    Q_INVOKABLE int rowOf(const QString& key) const;

    /// Rows that went are removed, new ones inserted, others moved or changed where they stand,
    /// field by field: the list as a whole is never told anew.
    void show(std::vector<QVariantMap> rows);

  Q_SIGNALS:
    void countChanged();

  private:
    [[nodiscard]] QString key_of(const QVariantMap& row) const;
    [[nodiscard]] QList<int> changed_roles(const QVariantMap& before,
                                           const QVariantMap& after) const;
    /// They stand in the list already, in this order.
    [[nodiscard]] bool same_keys(const std::vector<QVariantMap>& rows) const;
    void change(std::vector<QVariantMap> rows);
    void exchange(std::vector<QVariantMap> rows);
    void put(int at, QVariantMap& row);
    void leave_out(const std::vector<QVariantMap>& rows);
    /// The rows from there on that are not in the list, as many as follow each other.
    void put_in(std::vector<QVariantMap>& rows, int from);
    void bring(int from, int to);

    QStringList fields_;
    std::vector<QVariantMap> rows_;
};

}  // namespace courthand::seats
