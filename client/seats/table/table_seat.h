// The table seat: what the scorer and the assistant scorer see, and what their touches record.
//
// It asks the core what is legal and what must happen next; it decides no rule itself. Every touch
// that changes the match goes through the session, which has it on disk before the screen says so.
//
// The seat has rooms, each with what it shows and what may be done there. Here they are put
// together; here are also the course of play, the sheets that are written before they are recorded,
// and undo, which concern all of them.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <chrono>
#include <functional>
#include <optional>
#include <vector>

#include "acting.h"
#include "desk_lists.h"
#include "display.h"
#include "key_map.h"
#include "line_up_draft.h"
#include "next_steps.h"
#include "notice_board.h"
#include "picking.h"
#include "recorder.h"
#include "redesignation_draft.h"
#include "saving_line.h"
#include "session/match_session.h"
#include "sheet_acts.h"
#include "side_view.h"
#include "signing.h"
#include "substitution_draft.h"
#include "team_list_draft.h"
#include "wording.h"

namespace courthand::client {

class TableSeat : public QObject, private Acting {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program for one match")
    // ---- rooms ----------------------------------------------------------------------------------
    Q_PROPERTY(courthand::client::SideView* left READ left CONSTANT)
    Q_PROPERTY(courthand::client::SideView* right READ right CONSTANT)
    Q_PROPERTY(courthand::client::NextSteps* next READ next CONSTANT)
    Q_PROPERTY(courthand::client::Picking* picking READ picking CONSTANT)
    Q_PROPERTY(courthand::client::NoticeBoard* board READ board CONSTANT)
    Q_PROPERTY(courthand::client::SavingLine* saving READ saving CONSTANT)
    Q_PROPERTY(courthand::client::DeskLists* deskLists READ deskLists CONSTANT)
    Q_PROPERTY(courthand::client::SheetActs* acts READ acts CONSTANT)
    Q_PROPERTY(courthand::client::Signing* signing READ signing CONSTANT)
    Q_PROPERTY(courthand::client::KeyMap* keys READ keys CONSTANT)
    // ---- what is written before it is recorded --------------------------------------------------
    Q_PROPERTY(courthand::client::LineUpDraft* lineUp READ lineUp CONSTANT)
    Q_PROPERTY(courthand::client::SubstitutionDraft* substitution READ substitution CONSTANT)
    Q_PROPERTY(courthand::client::RedesignationDraft* redesignation READ redesignation CONSTANT)
    Q_PROPERTY(courthand::client::TeamListDraft* teamLists READ teamLists CONSTANT)

    Q_PROPERTY(Page page READ page NOTIFY changed)
    Q_PROPERTY(QString court READ court CONSTANT)
    Q_PROPERTY(QString matchName READ matchName CONSTANT)
    Q_PROPERTY(QString profile READ profile CONSTANT)
    Q_PROPERTY(int setNumber READ setNumber NOTIFY changed)
    Q_PROPERTY(bool deciding READ deciding NOTIFY changed)
    Q_PROPERTY(bool rallyOpen READ rallyOpen NOTIFY changed)
    Q_PROPERTY(bool interrupted READ interrupted NOTIFY changed)
    Q_PROPERTY(bool lineUpOnLeft READ lineUpOnLeft NOTIFY changed)
    Q_PROPERTY(bool lineUpCorrection READ lineUpCorrection NOTIFY changed)
    /// The page takes figures for a list or a sheet; Return belongs to it.
    Q_PROPERTY(bool writesNumbers READ writesNumbers NOTIFY changed)
    /// What undo would take back, with the score before and after; empty: nothing.
    Q_PROPERTY(QString undoWords READ undoWords NOTIFY changed)
    Q_PROPERTY(QString resultWords READ resultWords NOTIFY changed)
    /// The score of the set and the set itself in one line, for who only watches.
    Q_PROPERTY(QString scoreWords READ scoreWords NOTIFY changed)
    /// The match that waits on this court, in words; empty when none does.
    Q_PROPERTY(QString nextMatch READ nextMatch NOTIFY nextMatchChanged)

  public:
    enum Page { RosterPage, TossPage, StartPage, LineUpPage, CourtPage, ResultPage, ElsewherePage };
    Q_ENUM(Page)

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
    NextSteps* next() { return &next_; }
    Picking* picking() { return &picking_; }
    NoticeBoard* board() { return &board_; }
    SavingLine* saving() { return &saving_; }
    DeskLists* deskLists() { return &desk_lists_; }
    SheetActs* acts() { return &acts_; }
    Signing* signing() { return &signing_; }
    KeyMap* keys() { return &keys_; }
    LineUpDraft* lineUp() { return &line_up_; }
    SubstitutionDraft* substitution() { return &substitution_; }
    RedesignationDraft* redesignation() { return &redesignation_; }
    TeamListDraft* teamLists() { return &team_lists_; }
    Recorder& recorder() { return recorder_; }

    Page page() const;
    QString court() const;
    /// What the match is called.
    QString matchName() const;
    QString profile() const;
    int setNumber() const;
    bool deciding() const;
    bool rallyOpen() const;
    bool interrupted() const;
    bool lineUpOnLeft() const { return is_left(line_up_.team()); }
    bool lineUpCorrection() const { return correcting_.has_value(); }
    bool writesNumbers() const { return page() == LineUpPage || page() == RosterPage; }
    QString undoWords() const { return undo_words_; }
    QString resultWords() const;
    QString scoreWords() const;
    QString nextMatch() const { return next_match_; }

    /// The match has changed from outside: a ruling of the head official was recorded.
    void lookAgain() { show_again(); }
    /// Something to know that came from outside; shown until an entry is saved, then `newsSeen`.
    void tell(const QString& words);
    void setNextMatch(const QString& words);
    /// The person is done with this match: the program opens the next one.
    Q_INVOKABLE void goToNextMatch() { Q_EMIT nextMatchWanted(); }

    // ---- before the match and the set -----------------------------------------------------------
    /// The team list of that side is written at the table.
    Q_INVOKABLE void writeListOf(bool onLeft) { team_lists_.write_for(team_on(onLeft)); }
    Q_INVOKABLE void recordTeamLists();
    Q_INVOKABLE void recordToss(bool aOnLeft, bool aServes);
    Q_INVOKABLE void openLineUp(bool onLeft);
    Q_INVOKABLE void closeLineUp();
    Q_INVOKABLE void handInLineUp();
    Q_INVOKABLE void startInterval();

    // ---- play -----------------------------------------------------------------------------------
    Q_INVOKABLE void touchPlace(bool onLeft, int position);
    Q_INVOKABLE void touchLibero(bool onLeft, int box);
    Q_INVOKABLE void serveHit();
    Q_INVOKABLE void rallyWon(bool onLeft);
    Q_INVOKABLE void undo();
    Q_INVOKABLE void flipView();

    // ---- sheets ---------------------------------------------------------------------------------
    /// A number, or -1 for nobody yet.
    Q_INVOKABLE void beginSubstitution(bool onLeft, int out);
    Q_INVOKABLE void recordSubstitution();
    Q_INVOKABLE void beginRedesignation(bool onLeft);
    Q_INVOKABLE void recordRedesignation();
    /// Opens the sheet of that name.
    Q_INVOKABLE void wantSheet(const QString& name) { want_sheet(name); }

    // ---- keyboard -------------------------------------------------------------------------------
    Q_INVOKABLE void keyDigit(int digit);
    /// The key that names the team of a number, the left one first.
    Q_INVOKABLE void keyTeam() { picking_.next_team(); }
    /// The key for what is expected: ends a number, or does the expected act, or nothing while a
    /// question is open.
    Q_INVOKABLE void keyExpected();
    Q_INVOKABLE void keyErase();
    /// The libero box asked about stays empty. False when none is.
    Q_INVOKABLE bool keyNone();

  Q_SIGNALS:
    void changed();
    void newsSeen(const QString& words);
    void nextMatchChanged();
    void nextMatchWanted();
    /// A short word about what was recorded; `good` is false when it needs a look.
    void said(const QString& words, bool good);
    void struck(const QString& words);
    void sheetWanted(const QString& name);
    void clockStarted(int seconds, const QString& words);
    /// The service is hit: time-out and interval are over, whatever their clock says.
    void clockStopped();

  private:
    /// The rally area that was touched last, with nothing done since.
    struct RallyTouch {
        bool on_left = true;
        std::chrono::milliseconds at{};
    };

    bool perform(const std::vector<Fact>& facts, const QString& text = {}) override;
    bool attempt(const Fact& fact) override;
    bool amend(EntryNumber target, const Fact& fact) override;
    void ask(Proposal proposal) override;
    void propose(const Option& option) override;
    [[nodiscard]] Team team_on(bool on_left) const override;
    void show_again() override;
    void say(const QString& words, bool good) override { Q_EMIT said(words, good); }
    void want_sheet(const QString& name) override { Q_EMIT sheetWanted(name); }
    void want_substitution(Team team, Jersey out) override;

    [[nodiscard]] const MatchState& state() const { return session_.state(); }
    /// Shows what came of writing. False when something could not be saved.
    bool shown(const Outcome& outcome);
    /// What is seen of the news goes, and whatever was begun on the screen with it.
    void leave_behind(bool saved);
    void begin_substitution(Team team, Jersey out);
    [[nodiscard]] QString score_of(const MatchState& state) const;
    void look_at_undo();
    void keep_line_up_draft();

    MatchSession& session_;
    Clock clock_;
    Wording wording_;
    PlayerNames names_;
    MatchLook look_{session_, wording_, names_};
    Recorder recorder_{session_, wording_};
    SideView left_;
    SideView right_;
    LineUpDraft line_up_;
    SubstitutionDraft substitution_;
    RedesignationDraft redesignation_;
    TeamListDraft team_lists_;
    KeyMap keys_;
    Picking picking_{*this, look_};
    NextSteps next_{*this, look_, picking_};
    SheetActs acts_{*this, look_};
    Signing signing_{*this, look_};
    DeskLists desk_lists_{*this, look_, recorder_};
    SavingLine saving_{session_};
    NoticeBoard board_{*this, look_, recorder_, saving_, desk_lists_};
    std::optional<RallyTouch> last_rally_;
    QString undo_words_;
    std::optional<Team> correcting_;
    std::optional<std::pair<int, Team>> draft_for_;
    PerTeam<unsigned> ticked_{};
    bool flipped_ = false;
    QString next_match_;
};

}  // namespace courthand::client
