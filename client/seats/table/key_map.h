// The keys of the table seat in one place: each can be changed or turned off. Those of the course
// of play stand here; a sheet makes its own known.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QVariantList>
#include <map>
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
        ItHappened,
        Undo,
        Figures,
        GoOnHere,
        FirstSheet,  ///< sheets are numbered from here on, as they make themselves known
    };
    Q_ENUM(Act)

    explicit KeyMap(QObject* parent = nullptr) : QObject{parent} {}

    QVariantList list() const;

    /// A sheet makes its key known, by its name. The number of its act, the same one each time.
    Q_INVOKABLE int know(const QString& sheet, const QString& words, const QString& keys);

    /// The key sequence of an act in portable form, empty when it is turned off.
    Q_INVOKABLE QString keys(int act) const;
    Q_INVOKABLE bool on(int act) const;
    Q_INVOKABLE void turn(int act, bool on);
    /// Gives an act another key. Refused (false) when the key is unreadable or taken.
    Q_INVOKABLE bool remap(int act, const QString& keys);
    Q_INVOKABLE void restore();

    /// What differs from the usual, to be given to the seat of the next match. A line for each act:
    /// its name, 1 or 0 for on or off, its keys; up to a few hundred bytes.
    [[nodiscard]] QString choices() const;
    /// Takes choices over, also for sheets that make themselves known later. A line that cannot be
    /// read is left out.
    void choose(const QString& choices);

  Q_SIGNALS:
    void changed();
    /// A person has changed, turned off or restored keys.
    void chosen();

  private:
    struct Row {
        int act = 0;
        QString words;
        QString keys;
        QString sheet;  ///< name of the sheet that it opens; empty: of the course of play
        bool on = true;
    };
    struct Choice {
        QString keys;
        bool on = true;
    };
    [[nodiscard]] static std::vector<Row> usual();
    [[nodiscard]] static QString name_of(const Row& row);
    void apply_choice(Row& row) const;
    void note_choice(int act);

    std::vector<Row> rows_ = usual();
    std::vector<Row> usual_of_sheets_;
    std::map<QString, Choice> choices_;  ///< by name of the act
};

}  // namespace courthand::client
