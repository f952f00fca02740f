// A head official at the head seat: reads what stands on the screen, and rules by hand.
#pragma once

#include <QQuickWindow>
#include <QString>
#include <QStringList>

#include "courthand/match/state.h"
#include "head_seat.h"
#include "screen_hand.h"

namespace courthand::client::test {

class HeadEyes {
  public:
    /// Looks at one court.
    HeadEyes(QQuickWindow& window, seats::HeadSeat& seat, int court);

    [[nodiscard]] ScreenHand& screen() { return hand_; }
    /// Waits until the card of the court shows points, sets and liberos of that state.
    [[nodiscard]] bool sees(const MatchState& state);
    /// Waits until an alert of that title is in the list and can be read; its id, or nothing.
    [[nodiscard]] QString sees_alert(const QString& title);
    [[nodiscard]] bool sees_no_alert(const QString& title);
    /// Opens the alert, says "I'm going", and records that the fault stands.
    [[nodiscard]] bool rules_that_it_stands(const QString& alert_id, const QString& picture);
    /// Opens the alert, reads both records, and says that what lies beside is entered again.
    [[nodiscard]] bool settles_fork(const QString& alert_id, const QString& picture);
    /// Every text that can be read in the window now, or under the item of that name.
    [[nodiscard]] QStringList texts(const QString& under = {}) const;

  private:
    [[nodiscard]] bool shows(const MatchState& state, Team team) const;
    /// Waits until it can be touched, then clicks it.
    [[nodiscard]] bool press(const QString& name);
    [[nodiscard]] QString row(const QString& title) const;

    QQuickWindow& window_;
    ScreenHand hand_;
    seats::HeadSeat& seat_;
    QString card_;
    QString place_;
};

/// What the card of a court says of the liberos on court: "L 21 for 6", or how it begins when none
/// is on.
[[nodiscard]] QString libero_words_of(const TeamSet& team);

}  // namespace courthand::client::test
