// The room of saving and sending: whether all is saved and sent, who writes, and the wish to go on
// here, looked at now and then.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QString>
#include <QTimer>

#include "saving.h"
#include "session/match_session.h"

namespace courthand::client {

class SavingLine : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("belongs to a table seat")
    Q_PROPERTY(QString words READ words NOTIFY changed)
    Q_PROPERTY(Mark mark READ mark NOTIFY changed)
    /// The match is never sent.
    Q_PROPERTY(bool practice READ practice NOTIFY changed)
    /// Another device writes now; what is recorded here is kept beside the record.
    Q_PROPERTY(bool fenced READ fenced NOTIFY changed)
    /// How far the wish to go on here has come; empty before it is asked.
    Q_PROPERTY(QString wishWords READ wishWords NOTIFY changed)
    Q_PROPERTY(bool wishOpen READ wishOpen NOTIFY changed)
    Q_PROPERTY(bool canAsk READ canAsk NOTIFY changed)

  public:
    /// How it is shown, in the order of `Saving::Mark`.
    enum Mark { AllSent, OnItsWay, NeedsPerson };
    Q_ENUM(Mark)

    /// `session` outlives it.
    explicit SavingLine(MatchSession& session);

    QString words() const { return now_.words(); }
    Mark mark() const { return static_cast<Mark>(now_.mark()); }
    bool practice() const { return now_.sync.practice; }
    bool fenced() const { return now_.fenced(); }
    QString wishWords() const { return now_.wish_words(); }
    bool wishOpen() const { return now_.wish_open(); }
    bool canAsk() const { return now_.writing.who != Writing::Who::here && !wishOpen(); }

    [[nodiscard]] const Saving& now() const { return now_; }
    /// Another device writes: nothing is recorded here.
    [[nodiscard]] bool elsewhere() const { return now_.writing.who == Writing::Who::elsewhere; }
    void look();

    /// Asks desk and head official to go on here with a match that another device writes.
    Q_INVOKABLE void askToGoOn();

  Q_SIGNALS:
    void changed();
    /// Another device writes than before: the page is another one.
    void writerChanged();

  private:
    MatchSession& session_;
    Saving now_;
    QTimer timer_;
};

}  // namespace courthand::client
