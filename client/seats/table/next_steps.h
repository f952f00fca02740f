// The room of what comes next: all that must happen before the next service, in order, and the one
// act that does the first of it.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QString>
#include <QStringList>
#include <optional>

#include "acting.h"
#include "courthand/rules/prompt.h"
#include "display.h"
#include "picking.h"
#include "tiles.h"

namespace courthand::client {

class NextSteps : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("belongs to a table seat")
    /// A word before the sentence: what kind of thing is waited for.
    Q_PROPERTY(QString lead READ lead NOTIFY changed)
    /// What must happen next, what is asked while something is chosen or typed, or what is
    /// proposed.
    Q_PROPERTY(QString line READ line NOTIFY changed)
    Q_PROPERTY(QString words READ words NOTIFY changed)
    /// The one act for it; empty when there is no single one.
    Q_PROPERTY(QString act READ act NOTIFY changed)
    /// What must happen after that, in order, as far as there is room for it, and how much more.
    Q_PROPERTY(QString thenWords READ thenWords NOTIFY changed)
    /// A libero box is asked about.
    Q_PROPERTY(bool boxAsked READ boxAsked NOTIFY changed)
    /// Whose captain is asked for; the left team's when none is.
    Q_PROPERTY(bool captainOnLeft READ captainOnLeft NOTIFY changed)

  public:
    /// As many sentences as one line holds in small type. What is due comes up as they are done.
    static constexpr int most_then = 2;

    NextSteps(Acting& table, const MatchLook& look, const Picking& picking)
        : table_{table}, look_{look}, picking_{picking} {}

    /// Asks the core anew. `team_key` is the key that names a team for a typed number.
    void look(const QString& team_key);
    void show() { Q_EMIT changed(); }
    [[nodiscard]] const Prompt& first() const { return first_; }

    QString lead() const;
    QString line() const;
    QString words() const { return sentences_.value(0); }
    QString act() const;
    QStringList then() const { return sentences_.mid(said(), most_then); }
    int more() const;
    QString thenWords() const { return thenWordsOf(most_then); }
    /// With no more than so many sentences, for a line that has less room.
    Q_INVOKABLE QString thenWordsOf(int shown) const;
    bool boxAsked() const { return first_.kind == Prompt::Kind::libero_box_open; }
    bool captainOnLeft() const;

    /// The libero box that is asked about; none: its team has no name.
    Q_INVOKABLE courthand::client::OpenBox openBox() const;
    /// Does the one act that is expected, or opens the sheet it needs.
    Q_INVOKABLE void doIt();

    // ---- after a time-out: nobody has said yet that the same six are back ------------------
    Q_INVOKABLE void sixBack(bool onLeft);
    void await_six() { awaiting_six_ = {true, true}; }
    void six_are_back() { awaiting_six_ = {}; }
    [[nodiscard]] bool awaits_six(Team team) const { return awaiting_six_[team]; }

  Q_SIGNALS:
    void changed();

  private:
    /// How many sentences the large line says.
    [[nodiscard]] int said() const { return picking_line_.isEmpty() ? 1 : 0; }
    [[nodiscard]] std::optional<Team> six_asked() const;

    Acting& table_;
    const MatchLook& look_;
    const Picking& picking_;
    Prompt first_{};
    QStringList sentences_;  ///< all of it, in order
    QString picking_line_;
    PerTeam<bool> awaiting_six_{};
};

}  // namespace courthand::client
