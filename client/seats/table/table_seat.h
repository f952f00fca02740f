// The table seat: what the scorer and the assistant scorer see, and what their touches record.
//
// It asks the core what is legal and what must happen next; it decides no rule itself. Every touch
// that changes the match goes through the session, which has it on disk before the screen says so.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QTimer>
#include <QVariantList>
#include <chrono>
#include <functional>
#include <optional>
#include <vector>

#include "court_pick.h"
#include "court_view.h"
#include "courthand/rules/judge.h"
#include "display.h"
#include "key_map.h"
#include "line_up_draft.h"
#include "news_line.h"
#include "recorder.h"
#include "redesignation_draft.h"
#include "saving.h"
#include "session/match_session.h"
#include "sheet_acts.h"
#include "side_view.h"
#include "substitution_draft.h"
#include "team_list_draft.h"
#include "wording.h"

namespace courthand::client {

class TableSeat : public QObject, private Acting {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program for one match")
    Q_PROPERTY(courthand::client::SideView* left READ left CONSTANT)
    Q_PROPERTY(courthand::client::SideView* right READ right CONSTANT)
    Q_PROPERTY(courthand::client::LineUpDraft* lineUp READ lineUp CONSTANT)
    Q_PROPERTY(courthand::client::SubstitutionDraft* substitution READ substitution CONSTANT)
    Q_PROPERTY(courthand::client::RedesignationDraft* redesignation READ redesignation CONSTANT)
    Q_PROPERTY(courthand::client::TeamListDraft* teamLists READ teamLists CONSTANT)
    Q_PROPERTY(courthand::client::SheetActs* acts READ acts CONSTANT)
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

    /// The page takes figures for a list or a sheet; Return belongs to it.
    Q_PROPERTY(bool writesNumbers READ writesNumbers NOTIFY changed)

    /// A word before the sentence of what comes next: what kind of thing is waited for.
    Q_PROPERTY(QString nextLead READ nextLead NOTIFY changed)
    /// What must happen next, what is asked while something is chosen or typed, or what is
    /// proposed.
    Q_PROPERTY(QString nextLine READ nextLine NOTIFY changed)
    Q_PROPERTY(QString nextWords READ nextWords NOTIFY changed)
    Q_PROPERTY(QString expectedAct READ expectedAct NOTIFY changed)
    /// What undo would take back, with the score before and after; empty: nothing.
    Q_PROPERTY(QString undoWords READ undoWords NOTIFY changed)
    /// What was recorded last, as far as it can be taken back here.
    Q_PROPERTY(QString lastWords READ lastWords NOTIFY changed)
    Q_PROPERTY(QString resultWords READ resultWords NOTIFY changed)
    /// Armed and open verdicts: `Notice`, oldest first.
    Q_PROPERTY(QVariantList notices READ notices NOTIFY changed)
    /// Index of the most pressing one; -1 when there is none.
    Q_PROPERTY(int worstNotice READ worstNotice NOTIFY changed)
    /// Two lines for what a person must know, most pressing first: not saved, a verdict with its
    /// remedy, what came from outside, the last entry. The second may be empty.
    Q_PROPERTY(QString noticeLine READ noticeLine NOTIFY noticed)
    Q_PROPERTY(QString noticeDetail READ noticeDetail NOTIFY noticed)
    /// The first line is no more than the last entry.
    Q_PROPERTY(bool noticeQuiet READ noticeQuiet NOTIFY noticed)
    /// What a person must know on a page that has no room for verdicts; empty: nothing.
    Q_PROPERTY(QString help READ help NOTIFY noticed)

    Q_PROPERTY(bool choosing READ choosing NOTIFY changed)
    Q_PROPERTY(bool choiceOnLeft READ choiceOnLeft NOTIFY changed)
    Q_PROPERTY(QString choiceWords READ choiceWords NOTIFY changed)
    /// Numbers that take part in what is chosen but stand on no tile: `PlayerTile`.
    Q_PROPERTY(QVariantList otherNumbers READ otherNumbers NOTIFY changed)
    Q_PROPERTY(bool proposing READ proposing NOTIFY changed)
    Q_PROPERTY(QString proposalWords READ proposalWords NOTIFY changed)
    /// In two words why it is asked.
    Q_PROPERTY(QString proposalMark READ proposalMark NOTIFY changed)
    Q_PROPERTY(QString proposalWhy READ proposalWhy NOTIFY changed)
    Q_PROPERTY(QString typed READ typed NOTIFY changed)
    Q_PROPERTY(QString typingFor READ typingFor NOTIFY changed)

    /// The desk has sent a list that is not in the record yet, for a team without one; for all
    /// such.
    Q_PROPERTY(bool deskHasList READ deskHasList NOTIFY changed)
    Q_PROPERTY(bool deskHasLists READ deskHasLists NOTIFY changed)
    /// The desk's list is another one than the record's: what is offered; empty: nothing.
    Q_PROPERTY(QString listOffer READ listOffer NOTIFY changed)
    Q_PROPERTY(QString listOnlyDesk READ listOnlyDesk NOTIFY changed)
    Q_PROPERTY(QString listOnlyRecord READ listOnlyRecord NOTIFY changed)
    Q_PROPERTY(QString listCaptain READ listCaptain NOTIFY changed)
    Q_PROPERTY(bool listForLeft READ listForLeft NOTIFY changed)

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

    /// Time since some moment, never going back.
    using Clock = std::function<std::chrono::milliseconds()>;
    /// A rally area takes no second touch for so long, unless something else was done in between:
    /// a double tap is one rally.
    static constexpr std::chrono::milliseconds rally_rest{400};

    /// `session` outlives the seat.
    explicit TableSeat(MatchSession& session, Clock clock = steady, QObject* parent = nullptr);
    /// The clock of the machine.
    [[nodiscard]] static std::chrono::milliseconds steady();

    SideView* left() { return &left_; }
    SideView* right() { return &right_; }
    LineUpDraft* lineUp() { return &line_up_; }
    SubstitutionDraft* substitution() { return &substitution_; }
    RedesignationDraft* redesignation() { return &redesignation_; }
    TeamListDraft* teamLists() { return &team_lists_; }
    SheetActs* acts() { return &acts_; }
    KeyMap* keys() { return &keys_; }
    Recorder& recorder() { return recorder_; }

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
    bool writesNumbers() const;
    QString nextLead() const;
    QString nextLine() const;
    QString nextWords() const;
    QString expectedAct() const { return wording_.act(prompt_); }
    QString undoWords() const { return undo_words_; }
    QString lastWords() const { return last_words_; }
    QString resultWords() const;
    QVariantList notices() const;
    int worstNotice() const;
    QString noticeLine() const;
    QString noticeDetail() const;
    bool noticeQuiet() const;
    QString help() const;
    bool choosing() const { return pick_.choice().made(); }
    bool choiceOnLeft() const { return isLeft(pick_.choice().team); }
    QString choiceWords() const;
    QVariantList otherNumbers() const;
    bool proposing() const { return proposal_.has_value(); }
    QString proposalWords() const;
    QString proposalMark() const;
    QString proposalWhy() const;
    QString typed() const { return pick_.typed(); }
    QString typingFor() const;
    bool deskHasList() const;
    bool deskHasLists() const;
    QString listOffer() const;
    QString listOnlyDesk() const;
    QString listOnlyRecord() const;
    QString listCaptain() const;
    bool listForLeft() const;
    QString syncWords() const { return saving_.words(); }
    SyncMark syncMark() const { return static_cast<SyncMark>(saving_.mark()); }
    QString syncHelp() const { return saving_.help(); }
    bool fenced() const { return saving_.fenced(); }
    QString wishWords() const { return saving_.wish_words(); }
    bool wishOpen() const { return saving_.wish_open(); }
    bool canAsk() const { return saving_.writing.who != Writing::Who::here && !wishOpen(); }
    QString scoreWords() const;
    QString news() const { return news_.first(); }
    QString problem() const { return recorder_.problem(); }

    /// The match has changed from outside: a ruling of the head official was recorded.
    void lookAgain() { refresh(); }
    /// Something to know that came from outside; shown until an entry is saved, then `newsSeen`.
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
    /// Records the lists of the desk for the teams that have none in the record.
    Q_INVOKABLE void takeTeamLists();
    /// The team list of that side is written at the table.
    Q_INVOKABLE void writeListOf(bool onLeft);
    Q_INVOKABLE void recordTeamLists();
    /// The desk's list takes the place of the record's from the beginning.
    Q_INVOKABLE void takeDeskList();
    /// The record's list stays; the same list of the desk is not offered again.
    Q_INVOKABLE void leaveDeskList();
    Q_INVOKABLE void recordToss(bool aOnLeft, bool aServes);
    Q_INVOKABLE void openLineUp(bool onLeft);
    Q_INVOKABLE void closeLineUp();
    Q_INVOKABLE void handInLineUp();
    /// A number, or -1 for "none".
    Q_INVOKABLE void settleBox(bool onLeft, int box, int number);
    /// The first blank box of the team the prompt asks about; none: its team has no name.
    Q_INVOKABLE courthand::client::OpenBox openBox() const;
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
    /// Does the one act that is expected, or says which sheet it needs.
    Q_INVOKABLE int doExpected();
    Q_INVOKABLE void undo();
    Q_INVOKABLE bool callTimeOut(bool onLeft);
    Q_INVOKABLE void confirmSameSix(bool onLeft);
    Q_INVOKABLE void beginSubstitution(bool onLeft, int out);
    Q_INVOKABLE void recordSubstitution();
    Q_INVOKABLE QVariantList captainOptions(bool onLeft) const;
    Q_INVOKABLE bool captainMissingOnLeft() const;
    Q_INVOKABLE void beginRedesignation(bool onLeft);
    Q_INVOKABLE void recordRedesignation();

    // ---- the rest of the sheet -----------------------------------------------------------------
    /// Where the verdict of that entry, reason and team stands in `notices`; -1: nowhere any more.
    Q_INVOKABLE int noticeAt(int entry, int reason, int team) const;
    /// The ruling on that verdict and no other. False when it no longer stands, or an older fault
    /// of its kind must be ruled first: nothing is recorded.
    Q_INVOKABLE bool rule(int entry, int reason, int team, bool accept);
    Q_INVOKABLE void flipView();

    // ---- keyboard ------------------------------------------------------------------------------
    Q_INVOKABLE void keyLibero();
    Q_INVOKABLE void keyDigit(int digit);
    /// The key for what is expected: ends a number, or does the expected act, or nothing while a
    /// question is open. Says which sheet is needed.
    Q_INVOKABLE int keyExpected();
    Q_INVOKABLE void keyErase();
    /// The libero box asked about stays empty. False when none is.
    Q_INVOKABLE bool keyNone();

  Q_SIGNALS:
    void changed();
    void noticed();
    void newsSeen(const QString& words);
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
    /// The rally area that was touched last, with nothing done since.
    struct RallyTouch {
        bool on_left = true;
        std::chrono::milliseconds at{};
    };

    [[nodiscard]] Team teamOn(bool onLeft) const;
    [[nodiscard]] bool isLeft(Team team) const;
    [[nodiscard]] const MatchState& state() const { return session_.state(); }
    /// Records the facts as one act that one undo strikes. False when one could not be saved.
    bool perform(const std::vector<Fact>& facts, const QString& text = {}) override;
    /// Shows what came of writing. False when something could not be saved.
    bool shown(const Outcome& outcome);
    /// As `perform` when the core raises nothing; otherwise proposes it with the reason.
    bool attempt(const Fact& fact) override;
    void ask(Proposal proposal) override;
    [[nodiscard]] Team team_on(bool on_left) const override { return teamOn(on_left); }
    void start_clock(int seconds, const QString& words) override {
        Q_EMIT clockStarted(seconds, words);
    }
    void propose(const Option& option);
    /// Does what picking on the court led to.
    void follow(const CourtPick::Result& result);
    void touch(Team team, Jersey jersey);
    /// The team whose list of the desk is offered.
    [[nodiscard]] std::optional<Team> offered() const;
    [[nodiscard]] QString numbers(const std::vector<Jersey>& jerseys) const;
    [[nodiscard]] QString scoreOf(const MatchState& state) const;
    void lookAtUndo();
    void refresh();
    void refreshSync();
    [[nodiscard]] Display display() const { return {session_, wording_, names_}; }
    void keepLineUpDraft();

    MatchSession& session_;
    Clock clock_;
    Wording wording_;
    Recorder recorder_{session_, wording_};
    PlayerNames names_;
    SideView left_;
    SideView right_;
    LineUpDraft line_up_;
    SubstitutionDraft substitution_;
    RedesignationDraft redesignation_;
    TeamListDraft team_lists_;
    SheetActs acts_{*this, session_, wording_};
    KeyMap keys_;
    Prompt prompt_{};
    std::vector<Verdict> standing_;
    CourtPick pick_;
    std::optional<Proposal> proposal_;
    std::optional<RallyTouch> last_rally_;
    QString undo_words_;
    QString last_words_;
    PerTeam<Roster> declined_{};
    std::optional<Team> correcting_;
    std::optional<std::pair<int, Team>> draft_for_;
    PerTeam<bool> awaiting_six_{};
    PerTeam<unsigned> ticked_{};
    bool flipped_ = false;
    QString next_match_;
    NewsLine news_;
    Saving saving_;
    QTimer sync_timer_;
};

}  // namespace courthand::client
