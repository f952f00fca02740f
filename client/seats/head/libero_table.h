// The liberos of all live matches: designated, re-designated, replaced, unable, and who is barred.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QAbstractListModel>
#include <vector>

#include "venue/board.h"

namespace courthand::seats {

class LiberoTable : public QAbstractListModel {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the head seat")
    Q_PROPERTY(int count READ count NOTIFY countChanged)

  public:
    enum Role {
        CourtRole = Qt::UserRole + 1,
        TeamRole,
        ColourRole,
        DesignatedRole,
        RedesignatedRole,
        OutRole,
        BarredRole,
        NowRole,
        SpokenRole,
    };

    using QAbstractListModel::QAbstractListModel;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QHash<int, QByteArray> roleNames() const override;
    [[nodiscard]] int count() const { return static_cast<int>(rows_.size()); }

    void show(const venue::Board& board);

  Q_SIGNALS:
    void countChanged();

  private:
    struct Row {
        QString court;
        venue::TeamOnBoard team;
        friend bool operator==(const Row&, const Row&) = default;
    };
    std::vector<Row> rows_;
};

}  // namespace courthand::seats
