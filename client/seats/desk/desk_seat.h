// The tournament desk's seat: matches, courts, teams and devices, and what waits for the desk.
//
// Lives on the thread of the screen; the sources may call from any thread.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QString>
#include <QStringList>
#include <QTimer>
#include <mutex>
#include <optional>
#include <string>

#include "audit_list.h"
#include "code_offer.h"
#include "event_desk.h"
#include "export_page.h"
#include "fork_page.h"
#include "match_rows.h"
#include "roster_import.h"
#include "row_list.h"
#include "venue/board_source.h"
#include "venue/desk_source.h"
#include "venue/event_exporter.h"
#include "venue/event_source.h"

namespace courthand::seats {

/// What a desk is called: in the head of its screen, and in what it records.
struct DeskNames {
    QString venue;
    std::string author;  ///< function of the person who acts here; never a name
};

class DeskSeat : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the program")
    Q_PROPERTY(courthand::seats::RowList* work READ work CONSTANT)
    Q_PROPERTY(courthand::seats::RowList* matches READ matches CONSTANT)
    Q_PROPERTY(courthand::seats::RowList* courts READ courts CONSTANT)
    Q_PROPERTY(courthand::seats::RowList* teams READ teams CONSTANT)
    Q_PROPERTY(courthand::seats::RowList* devices READ devices CONSTANT)
    Q_PROPERTY(courthand::seats::RosterImport* rosters READ rosters CONSTANT)
    Q_PROPERTY(courthand::seats::CodeOffer* code READ code CONSTANT)
    Q_PROPERTY(courthand::seats::AuditList* audit READ audit CONSTANT)
    Q_PROPERTY(QObject* fork READ fork CONSTANT)
    Q_PROPERTY(courthand::seats::EventDesk* tournament READ tournament CONSTANT)
    Q_PROPERTY(courthand::seats::ExportPage* exporting READ exporting CONSTANT)
    Q_PROPERTY(QStringList profiles READ profiles CONSTANT)
    Q_PROPERTY(QString usualProfile READ usualProfile CONSTANT)
    Q_PROPERTY(QString venueName READ venueName NOTIFY venueNameChanged)
    Q_PROPERTY(QString clock READ clock NOTIFY bookChanged)
    Q_PROPERTY(int linkMark READ linkMark NOTIFY linkChanged)
    Q_PROPERTY(QString linkWord READ linkWord NOTIFY linkChanged)
    Q_PROPERTY(bool busy READ busy NOTIFY requestChanged)
    Q_PROPERTY(QString problem READ problem NOTIFY requestChanged)

  public:
    DeskSeat(venue::DeskSource& desk, venue::BoardSource& board, venue::EventSource& event,
             venue::EventExporter& exporter, DeskNames names, QObject* parent = nullptr);
    ~DeskSeat() override;

    [[nodiscard]] RowList* work() { return &work_; }
    [[nodiscard]] RowList* matches() { return &matches_; }
    [[nodiscard]] RowList* courts() { return &courts_; }
    [[nodiscard]] RowList* teams() { return &teams_; }
    [[nodiscard]] RowList* devices() { return &devices_; }
    [[nodiscard]] RosterImport* rosters() { return &rosters_; }
    [[nodiscard]] CodeOffer* code() { return &code_; }
    [[nodiscard]] AuditList* audit() { return &audit_; }
    [[nodiscard]] QObject* fork() { return &fork_; }
    /// The tournament's record: pools, bracket, results, teams.
    [[nodiscard]] EventDesk* tournament() { return &tournament_; }
    /// The whole event as files.
    [[nodiscard]] ExportPage* exporting() { return &export_; }
    [[nodiscard]] QStringList profiles() const;
    /// Chosen for a new match until the desk chooses another.
    [[nodiscard]] QString usualProfile() const;
    /// As the record calls the tournament; before it is open, as the program was told.
    [[nodiscard]] QString venueName() const;
    [[nodiscard]] QString clock() const;
    [[nodiscard]] int linkMark() const;
    [[nodiscard]] QString linkWord() const;
    [[nodiscard]] bool busy() const { return busy_; }
    [[nodiscard]] QString problem() const { return problem_; }

    /// Court 0: assigned later. What was chosen stays on the screen when it fails.
    Q_INVOKABLE void createMatch(const QString& first, const QString& second, int court,
                                 const QString& profile);
    Q_INVOKABLE void assignCourt(const QString& match_id, int court);
    Q_INVOKABLE void revokeDevice(const QString& device_id, const QString& reason);
    /// Lets the device that asks go on with the match, or not.
    Q_INVOKABLE void answerTakeOver(const QString& match_id, const QString& device_id,
                                    bool consent);
    /// Reads both records of that alert's match.
    Q_INVOKABLE void lookAtFork(const QString& alert_id);
    Q_INVOKABLE void forgetProblem();

  Q_SIGNALS:
    void bookChanged();
    void venueNameChanged();
    void linkChanged();
    void requestChanged();
    /// A request was carried out; the words say what.
    void told(const QString& words);
    /// A request without a sheet of its own was refused; the words say why.
    void refused(const QString& words);

  private:
    /// Something has come from a source.
    void hear();
    /// Shows what has come since; false when nothing has.
    bool take();
    /// What tells of matches by their names in the record.
    void show_named();
    [[nodiscard]] bool begin();
    [[nodiscard]] venue::Answer answer(const QString& words);
    void refuse(const QString& problem);

    venue::DeskSource& desk_;
    venue::BoardSource& board_source_;
    QString venue_name_;
    RowList work_;
    RowList matches_;
    RowList courts_;
    RowList teams_;
    RowList devices_;
    RosterImport rosters_;
    CodeOffer code_;
    ForkPage fork_;
    venue::DeskBook book_;
    MatchRows match_rows_;
    EventDesk tournament_;
    AuditList audit_;
    ExportPage export_;
    venue::Board board_;
    venue::Link link_;
    venue::Id wanted_match_;  ///< the same on each retry of one wish
    bool busy_ = false;
    QString problem_;
    QTimer pause_;  ///< runs while news waits for others

    std::mutex newest_mutex_;
    std::optional<venue::DeskBook> newest_book_;  ///< guarded by newest_mutex_
    std::optional<venue::Board> newest_board_;    ///< guarded by newest_mutex_
};

}  // namespace courthand::seats
