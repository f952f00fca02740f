// Places at the head official's seat: the standings of a pool, with and without one decision or
// result, or the final places of a division. It only reads: what is recorded, the desk records.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QString>
#include <QStringList>
#include <QVariantList>
#include <memory>
#include <mutex>
#include <optional>

#include "place_page.h"
#include "standings_without.h"
#include "venue/event_source.h"

namespace courthand::seats {

class StandingsPage : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the head seat")
    Q_PROPERTY(QStringList pools READ pools NOTIFY changed)
    Q_PROPERTY(QString pool READ pool WRITE setPool NOTIFY changed)
    Q_PROPERTY(QStringList divisions READ divisions NOTIFY changed)
    Q_PROPERTY(QString division READ division WRITE setDivision NOTIFY changed)
    Q_PROPERTY(QObject* finals READ finals CONSTANT)
    Q_PROPERTY(QVariantList facts READ facts NOTIFY changed)
    Q_PROPERTY(int fact READ fact WRITE setFact NOTIFY changed)
    Q_PROPERTY(QVariantList places READ places NOTIFY changed)
    Q_PROPERTY(QString ending READ ending NOTIFY changed)
    Q_PROPERTY(int endingMark READ endingMark NOTIFY changed)
    Q_PROPERTY(QString stateWords READ stateWords NOTIFY changed)
    Q_PROPERTY(QString problem READ problem NOTIFY changed)

  public:
    explicit StandingsPage(venue::EventSource& source, QObject* parent = nullptr);
    ~StandingsPage() override;

    /// The record as far as it has come.
    [[nodiscard]] std::shared_ptr<const event::TournamentState> state() const {
        return book_.state;
    }
    /// "U16 A", in the order of divisions.
    [[nodiscard]] QStringList pools() const;
    /// Empty while final places are shown.
    [[nodiscard]] QString pool() const { return pool_; }
    void setPool(const QString& pool);
    /// The codes of those that can have final places.
    [[nodiscard]] QStringList divisions() const;
    /// Whose final places are shown; empty: those of a pool are.
    [[nodiscard]] QString division() const { return division_; }
    void setDivision(const QString& code);
    [[nodiscard]] PlacePage* finals() { return &finals_; }
    /// What the places of the pool still wait for; empty: they are settled.
    [[nodiscard]] QString stateWords() const;
    /// Maps with number, words and teams, the latest first.
    [[nodiscard]] QVariantList facts() const;
    /// The one that is left out; 0: none.
    [[nodiscard]] int fact() const { return static_cast<int>(fact_); }
    void setFact(int number);
    /// Maps with name, place, without and changed.
    [[nodiscard]] QVariantList places() const;
    /// How far the event is from its end, in a sentence, and its mark.
    [[nodiscard]] QString ending() const;
    [[nodiscard]] int endingMark() const;
    /// Why the record is not read further.
    [[nodiscard]] QString problem() const { return problem_; }

  Q_SIGNALS:
    void changed();

  private:
    void take();
    void show_finals();
    [[nodiscard]] std::optional<PoolRef> ref() const;

    venue::EventSource& source_;
    venue::EventBook book_;
    PlacePage finals_;
    QString pool_;
    QString division_;
    QString problem_;
    event::FactNumber fact_ = 0;

    std::mutex newest_mutex_;
    std::optional<venue::EventBook> newest_;  ///< guarded by newest_mutex_
};

}  // namespace courthand::seats
