// The pools page: the cross tables of a division, why a team stands where it stands, what it still
// needs, and the decision of a person where the chain leaves teams level.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QString>
#include <QStringList>
#include <QVariantList>
#include <optional>
#include <string>

#include "courthand/event/pool_table.h"
#include "event_page.h"
#include "pool_rows.h"

namespace courthand::seats {

// The base by its whole name: qmllint knows it by no other.
class PoolPage : public courthand::seats::EventPage {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the desk seat")
    Q_PROPERTY(QString title READ title NOTIFY looked)
    Q_PROPERTY(QString chain READ chain NOTIFY looked)
    Q_PROPERTY(QStringList reasons READ reasons NOTIFY looked)
    Q_PROPERTY(QStringList matches READ matches NOTIFY looked)
    Q_PROPERTY(bool undecided READ undecided NOTIFY looked)
    Q_PROPERTY(QStringList needs READ needs NOTIFY needsChanged)
    Q_PROPERTY(bool counting READ counting NOTIFY needsChanged)
    Q_PROPERTY(QString pool READ pool NOTIFY levelChanged)
    Q_PROPERTY(QString usualDecider READ usualDecider NOTIFY levelChanged)
    Q_PROPERTY(QVariantList level READ level NOTIFY levelChanged)
    Q_PROPERTY(bool whole READ whole NOTIFY levelChanged)

  public:
    PoolPage(const venue::EventBook& book, ActPreview& preview, QObject* parent = nullptr);

    // The team that was looked at.
    [[nodiscard]] QString title() const { return title_; }
    [[nodiscard]] QString chain() const { return chain_; }
    [[nodiscard]] QStringList reasons() const { return reasons_; }
    [[nodiscard]] QStringList matches() const { return matches_; }
    /// Its pool needs the decision of a person now.
    [[nodiscard]] bool undecided() const { return undecided_; }
    [[nodiscard]] QStringList needs() const { return needs_; }
    /// What is needed is still being found out.
    [[nodiscard]] bool counting() const { return counting_; }
    // The teams to be put in order by a person.
    [[nodiscard]] QString pool() const { return pool_; }
    /// Who decides by the chain: "lot", "play-off" or "director".
    [[nodiscard]] QString usualDecider() const { return usual_; }
    /// Maps with name and place; place 0: not chosen yet.
    [[nodiscard]] QVariantList level() const;
    /// Every one of them has its place.
    [[nodiscard]] bool whole() const;

    void show(event::DivisionIndex division);

    /// Why the team of that row stands where it stands.
    Q_INVOKABLE void look(const QString& key);
    /// Nobody looks at that team any more.
    Q_INVOKABLE void leave();
    /// Begins the decision for the pool of that row; false when it needs none.
    Q_INVOKABLE bool beginDecision(const QString& key);
    /// The next place goes to that team; one that has a place gives it and the later ones back.
    Q_INVOKABLE void choose(const QString& team);
    Q_INVOKABLE void decide(const QString& by, const QString& words);

  Q_SIGNALS:
    void looked();
    void needsChanged();
    void levelChanged();

  private:
    /// The pool of a row and the team in it, when the row is one.
    struct Row {
        PoolRef ref;
        std::optional<standings::TeamIndex> team;
    };
    [[nodiscard]] std::optional<Row> row_of(const QString& key) const;
    [[nodiscard]] static QStringList why_there(const event::TournamentState& state, const Row& row,
                                               const event::Standing& how);
    void count_needs(const Row& row);
    /// The team that is looked at is gone.
    void look_at_none();
    /// The teams that are being put in order still need it.
    [[nodiscard]] bool still_level() const;

    QString looked_;  ///< the key of the team that is looked at
    QString title_;
    QString chain_;
    QStringList reasons_;
    QStringList matches_;
    bool undecided_ = false;
    QStringList needs_;
    bool counting_ = false;
    int question_ = 0;  ///< answers to older ones are dropped
    QString pool_;
    QString usual_;
    // By name: a pool may go, or have another index, while people think.
    std::string deciding_in_;
    std::string deciding_;
    QStringList level_;
    QStringList chosen_;
};

}  // namespace courthand::seats
