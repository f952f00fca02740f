// Team lists written at the table, for a match whose lists the desk has not sent: the numbers of
// each team, touched or typed, and its captain. Nothing is recorded until a person says so.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QVariantList>
#include <optional>
#include <vector>

#include "courthand/match/fact.h"
#include "courthand/match/state.h"
#include "number_draft.h"
#include "session/match_session.h"
#include "tiles.h"

namespace courthand::client {

/// The list of the desk as a fact. Numbers beyond what a list may hold are left out.
[[nodiscard]] Roster roster_of(Team team, const std::vector<MatchSheet::Player>& players);
/// How the list of the desk differs from what is recorded.
struct ListDifference {
    std::vector<Jersey> only_desk;
    std::vector<Jersey> only_record;
    bool other_captain = false;
    [[nodiscard]] bool any() const noexcept {
        return !only_desk.empty() || !only_record.empty() || other_captain;
    }
};
[[nodiscard]] ListDifference difference(const Roster& desk, const TeamRecord& record);

class TeamListDraft : public courthand::client::NumberDraft {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("belongs to a table seat")
    /// The numbers of the team that is being written, in order: tiles {number, captain}.
    Q_PROPERTY(QVariantList listed READ listed NOTIFY changed)
    /// Every number there is: tiles {number, listed}.
    Q_PROPERTY(QVariantList numbers READ numbers NOTIFY changed)
    Q_PROPERTY(bool namingCaptain READ namingCaptain WRITE setNamingCaptain NOTIFY changed)
    Q_PROPERTY(bool complete READ complete NOTIFY changed)
    Q_PROPERTY(bool full READ full NOTIFY changed)

  public:
    explicit TeamListDraft(QObject* parent = nullptr) : NumberDraft{parent} {}

    void write_for(Team team);
    /// Teams whose list is in the record already need no numbers here.
    void set_recorded(PerTeam<bool> recorded);
    /// The lists that are not in the record yet, as facts.
    [[nodiscard]] std::vector<Fact> facts() const;
    [[nodiscard]] Team team() const { return team_; }
    void clear();

    QVariantList listed() const;
    QVariantList numbers() const;
    bool namingCaptain() const { return naming_captain_; }
    void setNamingCaptain(bool on);
    bool complete() const;
    bool full() const { return list().size() == most_players; }

    /// Writes a number, or takes it away when it is there.
    Q_INVOKABLE void turn(int number);
    /// A number of the list is touched: the captain, when he is asked for, else it goes.
    Q_INVOKABLE void touchListed(int number);
    void acceptTyped() override;

  private:
    [[nodiscard]] const std::vector<Jersey>& list() const { return numbers_[team_]; }

    Team team_{};
    PerTeam<bool> recorded_{};
    PerTeam<std::vector<Jersey>> numbers_;
    PerTeam<Jersey> captain_;
    bool naming_captain_ = false;
};

}  // namespace courthand::client
