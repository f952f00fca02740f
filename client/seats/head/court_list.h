// The court cards: one row for each court of the venue, in the order of the hall.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QAbstractListModel>
#include <vector>

#include "venue/board.h"

namespace courthand::seats {

class CourtList : public QAbstractListModel {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the head seat")
    Q_PROPERTY(int count READ count NOTIFY countChanged)

  public:
    enum Role {
        CourtRole = Qt::UserRole + 1,
        NumberRole,
        NameRole,
        MatchRole,
        SetRole,
        MarkRole,
        StateRole,
        NotSeenRole,
        PlayingRole,
        TeamARole,
        TeamBRole,
        AlertIdRole,
        AlertMarkRole,
        AlertWordRole,
        AlertTitleRole,
        AlertAgeRole,
        AlertOwnerRole,
        AlertCountRole,
        EarlierRole,
        SpokenRole,
    };

    using QAbstractListModel::QAbstractListModel;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QHash<int, QByteArray> roleNames() const override;
    [[nodiscard]] int count() const { return static_cast<int>(courts_.size()); }

    /// Takes the courts and, for each, the worst open alert of its match. Those of a match that was
    /// there before are counted apart; what is touched opens them when the match itself has none.
    /// Rows are kept where the courts are the same, so that focus and scrolling stay.
    void show(const venue::Board& board);
    /// The server's time now; ages and "not seen" follow it.
    void tick(venue::Moment now);

  Q_SIGNALS:
    void countChanged();

  private:
    struct Card {
        venue::CourtOnBoard court;
        venue::Alert worst;  ///< of the match on the court, and of the court; empty id: none
        int alerts = 0;
        venue::Alert earlier;  ///< the worst of other matches of the court
        int of_others = 0;
        bool of_several = false;  ///< not all of one match
        friend bool operator==(const Card&, const Card&) = default;
    };

    [[nodiscard]] QVariantMap team_map(const Card& card, Team team) const;
    [[nodiscard]] QString not_seen(const Card& card) const;
    [[nodiscard]] QString spoken(const Card& card) const;
    [[nodiscard]] QString earlier_words(const Card& card) const;
    [[nodiscard]] QVariant alert_data(const Card& card, int role) const;

    std::vector<Card> courts_;
    venue::Moment now_{};
};

}  // namespace courthand::seats
