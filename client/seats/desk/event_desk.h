// The tournament's record at the desk: its pages stand on one book, and act through one preview.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QStringList>
#include <QVariantList>
#include <mutex>
#include <optional>

#include "act_preview.h"
#include "bracket_page.h"
#include "division_page.h"
#include "duty_page.h"
#include "entry_page.h"
#include "event_work.h"
#include "official_page.h"
#include "place_page.h"
#include "pool_page.h"
#include "record_page.h"
#include "result_page.h"
#include "team_people.h"
#include "venue/desk_book.h"
#include "venue/event_source.h"
#include "venue/match_names.h"
#include "venue/table_results.h"

namespace courthand::seats {

class EventDesk : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the desk seat")
    Q_PROPERTY(courthand::seats::ActPreview* preview READ preview CONSTANT)
    Q_PROPERTY(courthand::seats::PoolPage* pools READ pools CONSTANT)
    Q_PROPERTY(courthand::seats::BracketPage* bracket READ bracket CONSTANT)
    Q_PROPERTY(courthand::seats::DivisionPage* divisionPage READ divisionPage CONSTANT)
    Q_PROPERTY(courthand::seats::DutyPage* duties READ duties CONSTANT)
    Q_PROPERTY(courthand::seats::EntryPage* entries READ entries CONSTANT)
    Q_PROPERTY(courthand::seats::OfficialPage* officials READ officials CONSTANT)
    Q_PROPERTY(QObject* places READ places CONSTANT)
    Q_PROPERTY(courthand::seats::RecordPage* record READ record CONSTANT)
    Q_PROPERTY(courthand::seats::TeamPeople* people READ people CONSTANT)
    Q_PROPERTY(courthand::seats::ResultPage* results READ results CONSTANT)
    Q_PROPERTY(bool opened READ opened NOTIFY bookChanged)
    Q_PROPERTY(QStringList divisions READ divisions NOTIFY divisionsChanged)
    Q_PROPERTY(QString division READ division WRITE setDivision NOTIFY divisionsChanged)
    Q_PROPERTY(bool listsFrozen READ listsFrozen NOTIFY bookChanged)
    Q_PROPERTY(QString divisionName READ divisionName NOTIFY bookChanged)

  public:
    /// `desk` is the book of the same desk and outlives this.
    EventDesk(venue::EventSource& source, const venue::DeskBook& desk, QObject* parent = nullptr);
    ~EventDesk() override;

    [[nodiscard]] ActPreview* preview() { return &preview_; }
    [[nodiscard]] PoolPage* pools() { return &pools_; }
    [[nodiscard]] BracketPage* bracket() { return &bracket_; }
    [[nodiscard]] DivisionPage* divisionPage() { return &division_page_; }
    [[nodiscard]] DutyPage* duties() { return &duties_; }
    [[nodiscard]] EntryPage* entries() { return &entries_; }
    [[nodiscard]] OfficialPage* officials() { return &officials_; }
    [[nodiscard]] PlacePage* places() { return &places_; }
    [[nodiscard]] RecordPage* record() { return &record_; }
    [[nodiscard]] TeamPeople* people() { return &people_; }
    [[nodiscard]] ResultPage* results() { return &results_; }
    /// The tournament is open and has a division.
    [[nodiscard]] bool opened() const { return book_.state->division_count() > 0; }
    /// The list of some team is frozen.
    [[nodiscard]] bool listsFrozen() const;
    /// Their codes.
    [[nodiscard]] QStringList divisions() const;
    /// The one on the pages.
    [[nodiscard]] QString division() const { return division_; }
    void setDivision(const QString& code);
    /// What people call it: its name, or the code of one without a name; empty: there is none.
    [[nodiscard]] QString divisionName() const;

    [[nodiscard]] const venue::EventBook& book() const { return book_; }
    /// How the watch of the record stands.
    [[nodiscard]] const venue::Link& link() const { return link_; }
    /// What the record calls its matches.
    [[nodiscard]] const venue::MatchNames& names() const { return names_; }
    [[nodiscard]] const venue::TableResults& tables() const { return tables_; }
    /// What waits for the desk in the record as it is.
    [[nodiscard]] const RecordWork& record_work() const { return record_work_; }
    /// Asks whether the plan is to be published as it stands, with what has changed since.
    Q_INVOKABLE void publishPlan();
    /// The book of the desk has changed.
    void desk_changed();

  Q_SIGNALS:
    void bookChanged();
    /// The record has grown, or words beside it were erased.
    void recordChanged();
    void divisionsChanged();

  private:
    void take();
    void show();
    [[nodiscard]] event::DivisionIndex shown_index() const;

    venue::EventSource& source_;
    const venue::DeskBook& desk_;
    venue::EventBook book_;
    venue::Link link_;
    venue::TableResults tables_;
    venue::MatchNames names_;
    RecordWork record_work_;
    ActPreview preview_;
    PoolPage pools_;
    BracketPage bracket_;
    DivisionPage division_page_;
    DutyPage duties_;
    EntryPage entries_;
    OfficialPage officials_;
    PlacePage places_;
    RecordPage record_;
    TeamPeople people_;
    ResultPage results_;
    QString division_;
    QStringList known_divisions_;

    std::mutex newest_mutex_;
    std::optional<venue::EventBook> newest_;  ///< guarded by newest_mutex_
};

}  // namespace courthand::seats
