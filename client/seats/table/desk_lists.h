// The room of the team lists of the desk: those that are not in the record yet, and one that
// differs from it.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QString>
#include <optional>
#include <vector>

#include "acting.h"
#include "display.h"
#include "recorder.h"
#include "team_list_draft.h"

namespace courthand::client {

class DeskLists : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("belongs to a table seat")
    /// The desk has sent a list that is not in the record yet, for a team without one; for all
    /// such.
    Q_PROPERTY(bool any READ any NOTIFY changed)
    Q_PROPERTY(bool all READ all NOTIFY changed)
    /// The desk's list is another one than the record's: what is offered; empty: nothing.
    Q_PROPERTY(QString offer READ offer NOTIFY changed)
    Q_PROPERTY(QString onlyDesk READ onlyDesk NOTIFY changed)
    Q_PROPERTY(QString onlyRecord READ onlyRecord NOTIFY changed)
    Q_PROPERTY(QString captain READ captain NOTIFY changed)
    Q_PROPERTY(bool onLeft READ onLeft NOTIFY changed)

  public:
    DeskLists(Acting& table, const MatchLook& look, const Recorder& recorder)
        : table_{table}, look_{look}, recorder_{recorder} {}

    bool any() const;
    bool all() const;
    QString offer() const;
    QString onlyDesk() const;
    QString onlyRecord() const;
    QString captain() const;
    bool onLeft() const;
    void show() { Q_EMIT changed(); }

    /// Records the lists of the desk for the teams that have none in the record.
    Q_INVOKABLE void takeMissing();
    /// The list that is offered takes the place of the record's from the beginning.
    Q_INVOKABLE void takeOffered();
    /// The record's list stays; the same list of the desk is not offered again.
    Q_INVOKABLE void leaveOffered();

  Q_SIGNALS:
    void changed();

  private:
    [[nodiscard]] const std::vector<MatchSheet::Player>& players(Team team) const {
        return look_.session.sheet().players[team];
    }
    [[nodiscard]] bool recorded(Team team) const { return look_.state().team[team].count > 0; }
    [[nodiscard]] Roster list_of(Team team) const { return roster_of(team, players(team)); }
    /// The team whose list of the desk is offered.
    [[nodiscard]] std::optional<Team> offered() const;
    [[nodiscard]] ListDifference offered_difference() const;

    Acting& table_;
    const MatchLook& look_;
    const Recorder& recorder_;
    PerTeam<Roster> declined_{};
};

}  // namespace courthand::client
