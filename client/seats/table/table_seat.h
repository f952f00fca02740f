// The table seat: what the scorer and the assistant scorer see, and what their touches record.
//
// It asks the core what is legal and what must happen next; it decides no rule itself. Every touch
// that changes the match goes through the session, which has it on disk before the screen says so.
#pragma once

#include <QObject>
#include <QTimer>
#include <QVariantList>
#include <QtQml/qqmlregistration.h>
#include <optional>
#include <vector>

#include "court_view.h"
#include "courthand/rules/judge.h"
#include "key_map.h"
#include "line_up_draft.h"
#include "redesignation_draft.h"
#include "session/match_session.h"
#include "side_view.h"
#include "substitution_draft.h"
#include "typed_number.h"
#include "wording.h"

namespace courthand::client {

class TableSeat : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program for one match")
    Q_PROPERTY(courthand::client::SideView* left READ left CONSTANT)
    Q_PROPERTY(courthand::client::SideView* right READ right CONSTANT)
    Q_PROPERTY(courthand::client::LineUpDraft* lineUp READ lineUp CONSTANT)
    Q_PROPERTY(courthand::client::SubstitutionDraft* substitution READ substitution CONSTANT)
    Q_PROPERTY(courthand::client::RedesignationDraft* redesignation READ redesignation CONSTANT)
    Q_PROPERTY(courthand::client::KeyMap* keys READ keys CONSTANT)

    Q_PROPERTY(Page page READ page NOTIFY changed)
    Q_PROPERTY(QString court READ court CONSTANT)
    Q_PROPERTY(QString matchNumber READ matchNumber CONSTANT)
    Q_PROPERTY(QString profile READ profile CONSTANT)
    Q_PROPERTY(int setNumber READ setNumber NOTIFY changed)
    Q_PROPERTY(bool deciding READ deciding NOTIFY changed)
    Q_PROPERTY(bool inPlay READ inPlay NOTIFY changed)
    Q_PROPERTY(bool rallyOpen READ rallyOpen NOTIFY changed)
    Q_PROPERTY(bool interrupted READ interrupted NOTIFY changed)
    Q_PROPERTY(bool lineUpOnLeft READ lineUpOnLeft NOTIFY changed)
    Q_PROPERTY(bool lineUpCorrection READ lineUpCorrection NOTIFY changed)
    Q_PROPERTY(int timeOutSeconds READ timeOutSeconds CONSTANT)
    Q_PROPERTY(int intervalSeconds READ intervalSeconds CONSTANT)
    Q_PROPERTY(int recoverySeconds READ recoverySeconds CONSTANT)

    Q_PROPERTY(QString nextWords READ nextWords NOTIFY changed)
    Q_PROPERTY(QString expectedAct READ expectedAct NOTIFY changed)
    Q_PROPERTY(QString undoWords READ undoWords NOTIFY changed)
    Q_PROPERTY(QString resultWords READ resultWords NOTIFY changed)
    /// Armed and open verdicts: maps {open, phase, text, rule, remedy, before, after, rally}.
    Q_PROPERTY(QVariantList notices READ notices NOTIFY changed)

    Q_PROPERTY(bool choosing READ choosing NOTIFY changed)
    Q_PROPERTY(bool choiceOnLeft READ choiceOnLeft NOTIFY changed)
    Q_PROPERTY(QString choiceWords READ choiceWords NOTIFY changed)
    /// Numbers that take part in what is chosen but stand on no tile: {number, legal, whyNot}.
    Q_PROPERTY(QVariantList otherNumbers READ otherNumbers NOTIFY changed)
    Q_PROPERTY(bool proposing READ proposing NOTIFY changed)
    Q_PROPERTY(QString proposalWords READ proposalWords NOTIFY changed)
    Q_PROPERTY(QString proposalWhy READ proposalWhy NOTIFY changed)
    Q_PROPERTY(QString typed READ typed NOTIFY changed)
    Q_PROPERTY(QString typingFor READ typingFor NOTIFY changed)

    Q_PROPERTY(QString syncWords READ syncWords NOTIFY syncChanged)
    Q_PROPERTY(SyncMark syncMark READ syncMark NOTIFY syncChanged)
    /// What a person must know or do about entries that are not in the record; empty: nothing.
    Q_PROPERTY(QString syncHelp READ syncHelp NOTIFY syncChanged)
    /// Another device writes now; what is recorded here is kept beside the record.
    Q_PROPERTY(bool fenced READ fenced NOTIFY syncChanged)
    /// How far the wish to go on here has come; empty before it is asked.
    Q_PROPERTY(QString wishWords READ wishWords NOTIFY syncChanged)
    Q_PROPERTY(bool wishOpen READ wishOpen NOTIFY syncChanged)
    Q_PROPERTY(bool canAsk READ canAsk NOTIFY syncChanged)
    /// The score of the set and the set itself in one line, for who only watches.
    Q_PROPERTY(QString scoreWords READ scoreWords NOTIFY changed)
    /// What came in from outside since the last entry; empty: nothing.
    Q_PROPERTY(QString news READ news NOTIFY changed)
    /// Why the last touch could not be saved; empty when all is saved.
    Q_PROPERTY(QString problem READ problem NOTIFY changed)
    /// The match that waits on this court, in words; empty when none does.
    Q_PROPERTY(QString nextMatch READ nextMatch NOTIFY nextMatchChanged)

  public:
    enum Page { RosterPage, TossPage, StartPage, LineUpPage, CourtPage, ResultPage, ElsewherePage };
    Q_ENUM(Page)
    /// The sheet that the expected act needs, if it is not a single record.
    enum Wanted { NoSheet, CaptainSheet, SubstitutionSheet, BoxSheet };
    Q_ENUM(Wanted)

    /// How the state of saving and sending is shown.
    enum SyncMark { AllSent, OnItsWay, NeedsPerson };
    Q_ENUM(SyncMark)

    /// `session` outlives the seat.
    explicit TableSeat(MatchSession& session, QObject* parent = nullptr);

    SideView* left() { return &left_; }
    SideView* right() { return &right_; }
    LineUpDraft* lineUp() { return &line_up_; }
    SubstitutionDraft* substitution() { return &substitution_; }
    RedesignationDraft* redesignation() { return &redesignation_; }
    KeyMap* keys() { return &keys_; }

    Page page() const;
    QString court() const;
    QString matchNumber() const;
    QString profile() const;
    int setNumber() const;
    bool deciding() const;
    bool inPlay() const;
    bool rallyOpen() const;
    [[nodiscard]] bool interrupted() const;
    bool lineUpOnLeft() const;
    bool lineUpCorrection() const { return correcting_.has_value(); }
    int timeOutSeconds() const { return session_.rules().time_out_seconds; }
    int intervalSeconds() const { return session_.rules().interval_seconds; }
    int recoverySeconds() const { return session_.rules().recovery_seconds; }
    QString nextWords() const;
    QString expectedAct() const { return wording_.act(prompt_); }
    QString undoWords() const;
    QString resultWords() const;
    QVariantList notices() const;
    bool choosing() const { return choice_.made(); }
    bool choiceOnLeft() const { return isLeft(choice_.team); }
    QString choiceWords() const;
    QVariantList otherNumbers() const;
    bool proposing() const { return proposal_.has_value(); }
    QString proposalWords() const;
    QString proposalWhy() const;
    QString typed() const { return typed_.text(); }
    QString typingFor() const;
    QString syncWords() const;
    SyncMark syncMark() const;
    QString syncHelp() const;
    bool fenced() const { return writing_.who == Writing::Who::fenced; }
    QString wishWords() const;
    bool wishOpen() const;
    bool canAsk() const { return writing_.who != Writing::Who::here && !wishOpen(); }
    QString scoreWords() const;
    QString news() const { return news_; }
    QString problem() const { return problem_; }

    /// The match has changed from outside: a ruling of the head official was recorded.
    void lookAgain() { refresh(); }
    /// Something the person should know that came from outside; shown until the next entry.
    void tell(const QString& words);
    QString nextMatch() const { return next_match_; }
    void setNextMatch(const QString& words) {
        if (words == next_match_) return;
        next_match_ = words;
        Q_EMIT nextMatchChanged();
    }
    /// The person is done with this match: the program opens the next one.
    Q_INVOKABLE void goToNextMatch() { Q_EMIT nextMatchWanted(); }
    /// Asks desk and head official to go on here with a match that another device writes.
    Q_INVOKABLE void askToGoOn();

    // ---- before the match and the set ---------------------------------------------------------
    Q_INVOKABLE void takeTeamLists();
    Q_INVOKABLE void recordToss(bool aOnLeft, bool aServes);
    Q_INVOKABLE void openLineUp(bool onLeft);
    Q_INVOKABLE void closeLineUp();
    Q_INVOKABLE void handInLineUp();
    /// A number, or -1 for "none".
    Q_INVOKABLE void settleBox(bool onLeft, int box, int number);
    /// The first blank box of the team the prompt asks about: {onLeft, box, team}, or empty.
    Q_INVOKABLE QVariantMap openBox() const;
    Q_INVOKABLE void startInterval();

    // ---- play -----------------------------------------------------------------------------------
    Q_INVOKABLE void touchPlace(bool onLeft, int position);
    Q_INVOKABLE void touchLibero(bool onLeft, int box);
    Q_INVOKABLE void touchNumber(bool onLeft, int number);
    Q_INVOKABLE void letGo();
    Q_INVOKABLE void itHappened();
    Q_INVOKABLE void serveHit();
    Q_INVOKABLE void servedBy(bool onLeft, int number);
    Q_INVOKABLE void rallyWon(bool onLeft);
    Q_INVOKABLE void replayRally();
    /// Does the one act that is expected, or says which sheet it needs.
    Q_INVOKABLE int doExpected();
    Q_INVOKABLE void undo();
    Q_INVOKABLE bool callTimeOut(bool onLeft);
    Q_INVOKABLE void confirmSameSix(bool onLeft);
    Q_INVOKABLE void beginSubstitution(bool onLeft, int out);
    Q_INVOKABLE void recordSubstitution();
    Q_INVOKABLE QVariantList captainOptions(bool onLeft) const;
    Q_INVOKABLE bool captainMissingOnLeft() const;
    Q_INVOKABLE void nameCaptain(bool onLeft, int number);
    Q_INVOKABLE void beginRedesignation(bool onLeft);
    Q_INVOKABLE void recordRedesignation();
    Q_INVOKABLE void changeCourts();
    /// A referee calls the team out of position at the service hit.
    Q_INVOKABLE void positionalFault(bool onLeft);
    Q_INVOKABLE void interrupt();
    /// After an interruption: the set on another court, or the whole match after four hours.
    Q_INVOKABLE void playAnew(bool wholeMatch);

    // ---- the rest of the sheet --------------------------------------------------------------------
    /// `number` -1: a person on the bench without one. Sanctions in the order of the core.
    Q_INVOKABLE void misconduct(bool onLeft, int number, int sanction);
    Q_INVOKABLE void delay(bool onLeft, int sanction);
    Q_INVOKABLE void improperRequest(bool onLeft);
    Q_INVOKABLE void injury(bool onLeft, int number);
    Q_INVOKABLE void recovery(bool onLeft, int number);
    Q_INVOKABLE void rule(int notice, bool accept);
    Q_INVOKABLE void remark(const QString& text);
    Q_INVOKABLE void protest(bool onLeft, const QString& text);
    Q_INVOKABLE void correctScore(int leftPoints, int rightPoints);
    Q_INVOKABLE void incomplete(bool onLeft, bool wholeMatch);
    Q_INVOKABLE void flipView();

    // ---- keyboard ---------------------------------------------------------------------------------
    Q_INVOKABLE void keyLibero();
    Q_INVOKABLE void keyDigit(int digit);
    Q_INVOKABLE void keyEnter();
    Q_INVOKABLE void keyErase();

  Q_SIGNALS:
    void changed();
    void syncChanged();
    void nextMatchChanged();
    void nextMatchWanted();
    /// A short word about what was recorded; `good` is false when it needs a look.
    void said(const QString& words, bool good);
    void struck(const QString& words);
    void substitutionAsked();
    void clockStarted(int seconds, const QString& words);
    /// The service is hit: time-out and interval are over, whatever their clock says.
    void clockStopped();

  private:
    struct Act {
        std::size_t facts = 0;
        QString words;
    };
    struct Proposal {
        std::vector<Fact> facts;
        QString words;
        QString why;
    };
    enum class Saying : std::uint8_t { aloud, silent };

    [[nodiscard]] Team teamOn(bool onLeft) const;
    [[nodiscard]] bool isLeft(Team team) const;
    [[nodiscard]] const MatchState& state() const { return session_.state(); }
    /// Records the facts as one act that one undo strikes. False when one could not be saved.
    bool perform(const std::vector<Fact>& facts, const QString& text = {},
                 Saying saying = Saying::aloud);
    /// As `perform` when the core raises nothing; otherwise proposes it with the reason.
    bool attempt(const Fact& fact);
    void choose(Team team, Jersey jersey);
    /// For a libero on court: everybody on the bench who might walk in for him, asked of the judge.
    void addOtherReturners();
    void touch(Team team, Jersey jersey);
    void refresh();
    void refreshSync();
    [[nodiscard]] SideFacts side(Team team) const;
    [[nodiscard]] QString liberoWords(Team team) const;
    [[nodiscard]] QVariantList roster(Team team) const;
    void keepLineUpDraft();

    MatchSession& session_;
    Wording wording_;
    PerTeam<std::array<QString, Jersey::largest + 1>> names_;
    SideView left_;
    SideView right_;
    LineUpDraft line_up_;
    SubstitutionDraft substitution_;
    RedesignationDraft redesignation_;
    KeyMap keys_;
    Prompt prompt_{};
    std::vector<Verdict> standing_;
    Choice choice_{};
    std::optional<Proposal> proposal_;
    std::vector<Act> acts_;
    std::optional<Team> correcting_;
    std::optional<std::pair<int, Team>> draft_for_;
    PerTeam<bool> awaiting_six_{};
    PerTeam<unsigned> ticked_{};
    TypedNumber typed_;
    std::optional<Team> typing_for_;
    bool flipped_ = false;
    QString problem_;
    QString next_match_;
    QString news_;
    SyncStatus sync_;
    Writing writing_;
    QTimer sync_timer_;
};

}  // namespace courthand::client
