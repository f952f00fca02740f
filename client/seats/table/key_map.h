// The keys of the table seat in one place: each can be changed or turned off.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QVariantList>
#include <vector>

#include "tiles.h"

namespace courthand::client {

class KeyMap : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("belongs to a table seat")
    /// Rows {act, words, keys, on}, in the order of the list on the screen.
    Q_PROPERTY(QVariantList list READ list NOTIFY changed)

  public:
    enum Act {
        RallyLeft,
        RallyRight,
        ServeHit,
        Expected,
        Libero,
        Substitution,
        TimeOut,
        Captain,
        Redesignation,
        ItHappened,
        More,
        Undo,
        Help,
        Figures,
        GoOnHere,
    };
    Q_ENUM(Act)

    explicit KeyMap(QObject* parent = nullptr);

    QVariantList list() const;

    /// The key sequence of an act in portable form, empty when it is turned off.
    Q_INVOKABLE QString keys(int act) const;
    Q_INVOKABLE bool on(int act) const;
    Q_INVOKABLE void turn(int act, bool on);
    /// Gives an act another key. Refused (false) when the key is unreadable or taken.
    Q_INVOKABLE bool remap(int act, const QString& keys);
    Q_INVOKABLE void restore();

  Q_SIGNALS:
    void changed();

  private:
    struct Row {
        Act act;
        QString words;
        QString keys;
        bool on = true;
    };
    [[nodiscard]] static std::vector<Row> usual();

    std::vector<Row> rows_;
};

}  // namespace courthand::client
