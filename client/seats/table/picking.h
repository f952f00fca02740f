// The room of picking: a number that is touched or typed on the court, what may be done with it,
// and the question whether something that is not legal happened all the same.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QVariantList>
#include <optional>

#include "acting.h"
#include "court_pick.h"
#include "display.h"

namespace courthand::client {

class Picking : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("belongs to a table seat")
    Q_PROPERTY(bool choosing READ choosing NOTIFY changed)
    Q_PROPERTY(bool choiceOnLeft READ choiceOnLeft NOTIFY changed)
    /// Numbers that take part in what is chosen but stand on no tile: `PlayerTile`.
    Q_PROPERTY(QVariantList otherNumbers READ otherNumbers NOTIFY changed)
    Q_PROPERTY(bool proposing READ proposing NOTIFY changed)
    /// In two words why it is asked, and in a sentence.
    Q_PROPERTY(QString proposalMark READ proposalMark NOTIFY changed)
    Q_PROPERTY(QString proposalWhy READ proposalWhy NOTIFY changed)

  public:
    Picking(Acting& table, const MatchLook& look) : table_{table}, look_{look} {}

    bool choosing() const { return pick_.choice().made(); }
    bool choiceOnLeft() const { return table_.is_left(pick_.choice().team); }
    QVariantList otherNumbers() const;
    bool proposing() const { return proposal_.has_value(); }
    QString proposalMark() const { return proposal_ ? proposal_->mark : QString(); }
    QString proposalWhy() const { return proposal_ ? proposal_->why : QString(); }

    [[nodiscard]] const Choice& choice() const { return pick_.choice(); }
    /// A number is being typed.
    [[nodiscard]] bool typing() const { return !pick_.typed().isEmpty(); }
    /// What is asked or proposed now, with a word before it; empty while nothing is picked. `key`
    /// is the one that names a team.
    [[nodiscard]] QString line(const QString& key) const;
    [[nodiscard]] QString lead() const;

    void touch(Team team, Jersey jersey);
    void ask(Proposal proposal) { proposal_ = std::move(proposal); }
    /// What was chosen and proposed is over, without a look at the screen.
    void drop();
    void show() { Q_EMIT changed(); }

    Q_INVOKABLE void touchNumber(bool onLeft, int number);
    Q_INVOKABLE void letGo();
    Q_INVOKABLE void itHappened();

    // ---- keyboard -------------------------------------------------------------------------------
    void next_team();
    void digit(int figure);
    void erase();
    /// Takes the number that is typed.
    void enter();

  Q_SIGNALS:
    void changed();

  private:
    void follow(const CourtPick::Result& result);
    void tell_unknown(const CourtPick::Unknown& unknown);
    [[nodiscard]] QString team_typed() const;

    Acting& table_;
    const MatchLook& look_;
    CourtPick pick_;
    std::optional<Proposal> proposal_;
};

}  // namespace courthand::client
