// What the sheets and the list of seldom acts record. Most of it a sheet says by itself
// (said_fact.h); here is what needs more than its fields: words, a look at the score, numbers by
// hand.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QVariantList>
#include <QVariantMap>

#include "acting.h"
#include "display.h"

namespace courthand::client {

class SheetActs : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("belongs to a table seat")

  public:
    SheetActs(Acting& table, const MatchLook& look) : table_{table}, look_{look} {}

    /// Records a fact by the names of its kind and its fields. False when nothing was recorded.
    Q_INVOKABLE bool record(const QString& kind, const QVariantMap& said);
    /// As `record` when the core raises nothing; otherwise asks, with the reason.
    Q_INVOKABLE bool attempt(const QString& kind, const QVariantMap& said);

    /// Another player than the expected one has served.
    Q_INVOKABLE void servedBy(bool onLeft, int number);
    /// A referee calls the team out of position at the service hit.
    Q_INVOKABLE void positionalFault(bool onLeft);
    /// Who of the six may be game captain.
    Q_INVOKABLE QVariantList captainOptions(bool onLeft) const;
    Q_INVOKABLE void remark(const QString& text);
    Q_INVOKABLE void protest(bool onLeft, const QString& text);
    /// Asks first when the score ends the set or no play leads to it.
    Q_INVOKABLE void correctScore(int leftPoints, int rightPoints);

  private:
    Acting& table_;
    const MatchLook& look_;
};

}  // namespace courthand::client
