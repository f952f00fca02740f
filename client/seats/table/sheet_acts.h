// What the sheets and the list of seldom acts record: sanctions, injuries, words, corrections of
// the score, interruptions.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <vector>

#include "court_pick.h"
#include "courthand/match/fact.h"
#include "session/match_session.h"
#include "wording.h"

namespace courthand::client {

/// How an act reaches the record: at once, only when it is legal, or as a question to a person.
class Acting {
  public:
    virtual ~Acting() = default;
    /// Records the facts as one act that one undo strikes. False when one could not be saved.
    virtual bool perform(const std::vector<Fact>& facts, const QString& text = {}) = 0;
    /// As `perform` when the core raises nothing; otherwise asks, with the reason.
    virtual bool attempt(const Fact& fact) = 0;
    virtual void ask(Proposal proposal) = 0;
    [[nodiscard]] virtual Team team_on(bool on_left) const = 0;
    virtual void start_clock(int seconds, const QString& words) = 0;
};

/// The jersey of a number from the screen; none when it is no number.
[[nodiscard]] inline Jersey jersey_of(int number) {
    return number < 0 || number > Jersey::largest ? Jersey::none()
                                                  : Jersey{static_cast<std::uint8_t>(number)};
}

class SheetActs : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("belongs to a table seat")

  public:
    /// All of them outlive the acts.
    SheetActs(Acting& table, const MatchSession& session, const Wording& wording)
        : table_{table}, session_{session}, wording_{wording} {}

    /// `number` -1: a person on the bench without one. Sanctions in the order of the core.
    Q_INVOKABLE void misconduct(bool onLeft, int number, int sanction);
    Q_INVOKABLE void delay(bool onLeft, int sanction);
    Q_INVOKABLE void improperRequest(bool onLeft);
    Q_INVOKABLE void injury(bool onLeft, int number);
    Q_INVOKABLE void recovery(bool onLeft, int number);
    Q_INVOKABLE void nameCaptain(bool onLeft, int number);
    Q_INVOKABLE void remark(const QString& text);
    Q_INVOKABLE void protest(bool onLeft, const QString& text);
    /// Asks first when the score ends the set or no play leads to it.
    Q_INVOKABLE void correctScore(int leftPoints, int rightPoints);
    Q_INVOKABLE void incomplete(bool onLeft, bool wholeMatch);
    Q_INVOKABLE void replayRally();
    Q_INVOKABLE void changeCourts();
    /// A referee calls the team out of position at the service hit.
    Q_INVOKABLE void positionalFault(bool onLeft);
    Q_INVOKABLE void interrupt();
    /// After an interruption: the set on another court, or the whole match after four hours.
    Q_INVOKABLE void playAnew(bool wholeMatch);

  private:
    Acting& table_;
    const MatchSession& session_;
    const Wording& wording_;
};

}  // namespace courthand::client
