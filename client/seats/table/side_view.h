// One side of the net as the screen shows it: the team, its counts, its tiles.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QString>
#include <QStringList>
#include <QVariantList>
#include <vector>

#include "courthand/match/state.h"
#include "courthand/match/team.h"
#include "tiles.h"

namespace courthand::client {

/// Everything shown of one team; written by the seat after each entry, read by QML.
struct SideFacts {
    Team team{};
    QString name;
    QString letter;
    QString colour;
    int points = 0;
    int sets = 0;
    int timeOuts = 0;
    int timeOutLimit = 0;
    int substitutions = 0;
    int substitutionLimit = 0;
    bool serving = false;
    bool checked = false;
    bool awaitingSix = false;  ///< after a time-out: nobody has said that the same six are back
    QString liberoWords;       ///< for the second referee in a time-out
    QString sixWords;
    std::vector<FloorTile> places;
    std::vector<FloorTile> liberos;
    std::vector<PlayerTile> roster;
    QStringList setScores;  ///< points in the sets that are over
};

class SideView : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("belongs to a table seat")
    Q_PROPERTY(QString name READ name NOTIFY changed)
    Q_PROPERTY(QString letter READ letter NOTIFY changed)
    Q_PROPERTY(QString colour READ colour NOTIFY changed)
    Q_PROPERTY(int points READ points NOTIFY changed)
    Q_PROPERTY(int sets READ sets NOTIFY changed)
    Q_PROPERTY(int timeOuts READ timeOuts NOTIFY changed)
    Q_PROPERTY(int timeOutLimit READ timeOutLimit NOTIFY changed)
    Q_PROPERTY(int substitutions READ substitutions NOTIFY changed)
    Q_PROPERTY(int substitutionLimit READ substitutionLimit NOTIFY changed)
    Q_PROPERTY(bool serving READ serving NOTIFY changed)
    Q_PROPERTY(bool checked READ checked NOTIFY changed)
    Q_PROPERTY(bool awaitingSix READ awaitingSix NOTIFY changed)
    Q_PROPERTY(QString liberoWords READ liberoWords NOTIFY changed)
    Q_PROPERTY(QString sixWords READ sixWords NOTIFY changed)
    Q_PROPERTY(QVariantList places READ places NOTIFY changed)
    Q_PROPERTY(QVariantList liberos READ liberos NOTIFY changed)
    Q_PROPERTY(QVariantList roster READ roster NOTIFY changed)
    Q_PROPERTY(QStringList setScores READ setScores NOTIFY changed)
    /// Name, points of each set, sets won: one line of the table of sets.
    Q_PROPERTY(QStringList setRow READ setRow NOTIFY changed)

  public:
    explicit SideView(QObject* parent = nullptr) : QObject{parent} {}

    void show(SideFacts facts) {
        facts_ = std::move(facts);
        Q_EMIT changed();
    }
    [[nodiscard]] Team team() const { return facts_.team; }

    QString name() const { return facts_.name; }
    QString letter() const { return facts_.letter; }
    QString colour() const { return facts_.colour; }
    int points() const { return facts_.points; }
    int sets() const { return facts_.sets; }
    int timeOuts() const { return facts_.timeOuts; }
    int timeOutLimit() const { return facts_.timeOutLimit; }
    int substitutions() const { return facts_.substitutions; }
    int substitutionLimit() const { return facts_.substitutionLimit; }
    bool serving() const { return facts_.serving; }
    bool checked() const { return facts_.checked; }
    bool awaitingSix() const { return facts_.awaitingSix; }
    QString liberoWords() const { return facts_.liberoWords; }
    QString sixWords() const { return facts_.sixWords; }
    QVariantList places() const { return as_list(facts_.places); }
    QVariantList liberos() const { return as_list(facts_.liberos); }
    QVariantList roster() const { return as_list(facts_.roster); }
    QStringList setScores() const { return facts_.setScores; }
    QStringList setRow() const {
        return QStringList{facts_.name} + facts_.setScores +
               QStringList{QString::number(facts_.sets)};
    }

  Q_SIGNALS:
    void changed();

  private:
    SideFacts facts_;
};

}  // namespace courthand::client
