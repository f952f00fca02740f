// The standings of a pool at the head official's seat, with and without one decision or result. It
// only reads: what is recorded, the desk records.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QString>
#include <QStringList>
#include <QVariantList>
#include <mutex>
#include <optional>

#include "standings_without.h"
#include "venue/event_source.h"
#include "venue/match_names.h"

namespace courthand::seats {

class StandingsPage : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the head seat")
    Q_PROPERTY(QStringList pools READ pools NOTIFY changed)
    Q_PROPERTY(QString pool READ pool WRITE setPool NOTIFY changed)
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

    /// "U16 A", in the order of divisions.
    [[nodiscard]] QStringList pools() const;
    [[nodiscard]] QString pool() const { return pool_; }
    void setPool(const QString& pool);
    /// What the places of the pool still wait for; empty: they are settled.
    [[nodiscard]] QString stateWords() const;
    /// Maps with number, words and teams, the latest first.
    [[nodiscard]] QVariantList facts() const;
    /// The one that is left out; 0: none.
    [[nodiscard]] int fact() const { return static_cast<int>(fact_); }
    void setFact(int number);
    /// Maps with name, place, without and changed.
    [[nodiscard]] QVariantList places() const;
    /// Of the matches of the record.
    [[nodiscard]] const venue::MatchNames& names() const { return names_; }
    /// How far the event is from its end, in a sentence, and its mark.
    [[nodiscard]] QString ending() const;
    [[nodiscard]] int endingMark() const;
    /// Why the record is not read further.
    [[nodiscard]] QString problem() const { return problem_; }

  Q_SIGNALS:
    void changed();

  private:
    void take();
    [[nodiscard]] std::optional<PoolRef> ref() const;

    venue::EventSource& source_;
    venue::EventBook book_;
    venue::MatchNames names_;
    QString pool_;
    QString problem_;
    event::FactNumber fact_ = 0;

    std::mutex newest_mutex_;
    std::optional<venue::EventBook> newest_;  ///< guarded by newest_mutex_
};

}  // namespace courthand::seats
