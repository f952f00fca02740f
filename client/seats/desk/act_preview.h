// The one way by which the desk acts in the tournament's record: what the act would do is shown
// first, then it is done. What came between is told, and the question asked again.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QString>
#include <QStringList>
#include <QTimer>
#include <chrono>
#include <cstdint>
#include <functional>
#include <vector>

#include "venue/event_source.h"

namespace courthand::seats {

/// What a page wants done.
struct ActWish {
    using Notes = std::function<QStringList(const event::TournamentState&)>;
    using Facts = std::function<std::vector<event::Fact>()>;

    QString title;  ///< "Reopen M7"
    QString told;   ///< said once it is done
    Notes notes;    ///< what the page itself has to tell beforehand, of the record as it is then
    std::vector<event::Fact> facts;
    /// Beside the last of the facts that lists nobody: a name, or the reason as far as it is known.
    QString words{};
    /// The facts as they are to be said now, where they hang on what may change meanwhile: on a
    /// table, or on what the record has by now. None: there is nothing to say any more.
    Facts renewed{};
    QString renewed_because{};  ///< told when they have become others
    QString none_left{};        ///< told when there are none any more
};

class ActPreview : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the desk seat")
    Q_PROPERTY(bool open READ open NOTIFY changed)
    Q_PROPERTY(bool busy READ busy NOTIFY changed)
    Q_PROPERTY(bool acting READ acting NOTIFY changed)
    Q_PROPERTY(bool mayAct READ mayAct NOTIFY changed)
    Q_PROPERTY(QString title READ title NOTIFY changed)
    Q_PROPERTY(QStringList says READ says NOTIFY changed)
    Q_PROPERTY(QStringList notes READ notes NOTIFY changed)
    Q_PROPERTY(QStringList findings READ findings NOTIFY changed)
    Q_PROPERTY(QStringList effects READ effects NOTIFY changed)
    Q_PROPERTY(QStringList between READ between NOTIFY changed)
    Q_PROPERTY(QString problem READ problem NOTIFY changed)
    Q_PROPERTY(QString whyLabel READ whyLabel NOTIFY changed)
    Q_PROPERTY(QString whyMissing READ whyMissing NOTIFY changed)
    Q_PROPERTY(QString why READ why WRITE setWhy NOTIFY changed)

  public:
    /// What has come or changed on the screen is not acted on before this: a key pressed twice is
    /// no answer to what nobody can have read.
    static constexpr std::chrono::milliseconds least_read{700};

    /// `book` is the one on the screen and outlives the preview.
    ActPreview(venue::EventSource& source, const venue::EventBook& book, QObject* parent = nullptr);

    [[nodiscard]] bool open() const { return stage_ != Stage::closed; }
    /// An answer of the record is waited for.
    [[nodiscard]] bool busy() const { return stage_ == Stage::asking || stage_ == Stage::acting; }
    /// What was sent may be done already: it can no longer be left.
    [[nodiscard]] bool acting() const { return stage_ == Stage::acting; }
    [[nodiscard]] bool mayAct() const {
        return stage_ == Stage::shown && findings_.isEmpty() && !act_.facts.empty() &&
               !lacks_reason() && !reading_.isActive();
    }
    [[nodiscard]] QString title() const { return wish_.title; }
    /// The facts of the act, one sentence each.
    [[nodiscard]] QStringList says() const;
    [[nodiscard]] QStringList notes() const { return notes_; }
    /// Why it would have no effect; then it cannot be done.
    [[nodiscard]] QStringList findings() const { return findings_; }
    [[nodiscard]] QStringList effects() const { return effects_; }
    /// What others recorded while this was on the screen.
    [[nodiscard]] QStringList between() const { return between_; }
    [[nodiscard]] QString problem() const { return problem_; }
    /// What the act changes that is frozen, confirmed or published, or that it takes back, as a
    /// question for the reason; empty: nothing of that kind.
    [[nodiscard]] QString whyLabel() const { return why_label_; }
    /// Why it cannot be done without a reason; empty: it can.
    [[nodiscard]] QString whyMissing() const;
    /// The reason, kept beside the act.
    [[nodiscard]] QString why() const { return wish_.words; }
    void setWhy(const QString& why);

    /// While an act is being done nothing else is asked: `problem` says so.
    void ask(ActWish wish);
    /// Does what is shown.
    Q_INVOKABLE void act();
    /// Asks again after a failure, or when the record has gone on.
    Q_INVOKABLE void askAgain();
    /// Nothing is done.
    Q_INVOKABLE void close();
    /// A newer book is on the screen.
    void book_changed();
    /// What acts hang on may have changed, a table or the record: one that is another now is asked
    /// anew.
    void renew();

  Q_SIGNALS:
    void changed();
    /// A wish has come to the preview. Wishes are numbered from 1.
    void asked(int wish);
    void done(const QString& words, int wish);

  private:
    enum class Stage : std::uint8_t { closed, asking, shown, acting, failed };
    using Call = void (venue::EventSource::*)(const venue::EventAct&,
                                              venue::EventSource::ActAnswer);

    void call(Call how, Stage stage);
    void take(const venue::ActOutcome& outcome, std::uint64_t question);
    void take_preview(const venue::ActOutcome& outcome);
    void take_act(const venue::ActOutcome& outcome);
    void tell_between();
    [[nodiscard]] bool take_renewed();
    void ask_renewed();
    [[nodiscard]] bool in_record() const;
    void say(const std::vector<event::Fact>& facts);
    void finish();
    [[nodiscard]] QStringList notes_now() const;
    [[nodiscard]] std::vector<event::Fact> facts_said() const;
    void put_words();
    void look_for_settled();
    [[nodiscard]] bool lacks_reason() const;

    venue::EventSource& source_;
    const venue::EventBook& book_;
    Stage stage_ = Stage::closed;
    ActWish wish_;
    int wishes_ = 0;  ///< the number of `wish_`
    QTimer reading_;  ///< runs while nobody can have read what is shown
    venue::EventAct act_;
    std::uint64_t question_ = 0;      ///< answers to older ones are dropped
    event::FactNumber shown_at_ = 0;  ///< the last fact when the wish arose
    bool renewed_ = false;            ///< since then the facts of the wish have become others
    bool shown_before_ = false;       ///< what follows is compared with what a person has seen
    QStringList notes_;
    QStringList findings_;
    QStringList effects_;
    QStringList between_;
    QString problem_;
    QString why_label_;
    bool reason_wanted_ = false;  ///< the record keeps the act for a reason only
};

}  // namespace courthand::seats
