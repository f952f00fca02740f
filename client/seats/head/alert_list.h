// The alert list: by severity, then age. A tap holds the order for a moment, so that no row moves
// away under the finger; what came or went meanwhile takes its place when the hold ends.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QAbstractListModel>
#include <chrono>
#include <vector>

#include "venue/board.h"

namespace courthand::seats {

class AlertList : public QAbstractListModel {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the head seat")
    Q_PROPERTY(int count READ count NOTIFY countChanged)
    Q_PROPERTY(int shelvedCount READ shelvedCount NOTIFY countChanged)
    Q_PROPERTY(QString summary READ summary NOTIFY countChanged)

  public:
    enum Role {
        AlertIdRole = Qt::UserRole + 1,
        MarkRole,
        WordRole,
        TitleRole,
        DetailRole,
        CourtRole,
        PlaceRole,
        AgeRole,
        OwnerRole,
        ShelvedRole,
        GoneRole,
        SpokenRole,
        AsksRole,
    };
    /// How long after a tap the order stands still.
    static constexpr std::chrono::milliseconds hold_time{1000};

    using QAbstractListModel::QAbstractListModel;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QHash<int, QByteArray> roleNames() const override;
    [[nodiscard]] int count() const;
    [[nodiscard]] int shelvedCount() const;
    /// "1 critical, 2 medium", for the top of the page.
    [[nodiscard]] QString summary() const;
    [[nodiscard]] QString idAt(int row) const;
    [[nodiscard]] int rowOf(const QString& alert_id) const;

    void show(const venue::Board& board);
    /// Holds the order from `now` (this device's steady time) for `hold_time`.
    void hold(std::chrono::milliseconds now);
    /// `now` on this device's steady clock, `server` on the server's.
    void tick(std::chrono::milliseconds now, venue::Moment server);

  Q_SIGNALS:
    void countChanged();

  private:
    struct Row {
        venue::Alert alert;
        QString court;
        bool left_behind = false;  ///< another match is on the court now
        bool gone = false;         ///< closed while the order was held
        friend bool operator==(const Row&, const Row&) = default;
    };

    void update_in_place();
    void settle();

    std::vector<Row> rows_;
    std::vector<Row> wanted_;
    bool held_ = false;
    std::chrono::milliseconds held_until_{};
    venue::Moment server_now_{};
};

}  // namespace courthand::seats
