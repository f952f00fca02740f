// The head official's seat: the board of the venue, the alerts, and one of them opened.
//
// Lives on the thread of the screen. The source may call from any thread; what it tells is taken
// over here, one board at a time, the newest only.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QTimer>
#include <chrono>
#include <functional>
#include <mutex>
#include <optional>

#include "alert_list.h"
#include "alert_page.h"
#include "court_list.h"
#include "libero_table.h"
#include "standings_page.h"
#include "venue/board_source.h"

namespace courthand::seats {

/// Steady time of this device; tests move it by hand.
using SteadyNow = std::function<std::chrono::milliseconds()>;
[[nodiscard]] std::chrono::milliseconds steady_now();

class HeadSeat : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the program")
    Q_PROPERTY(courthand::seats::CourtList* courts READ courts CONSTANT)
    Q_PROPERTY(courthand::seats::AlertList* alerts READ alerts CONSTANT)
    Q_PROPERTY(courthand::seats::LiberoTable* liberos READ liberos CONSTANT)
    Q_PROPERTY(courthand::seats::StandingsPage* standings READ standings CONSTANT)
    Q_PROPERTY(courthand::seats::AlertPage* page READ page CONSTANT)
    Q_PROPERTY(QString venueName READ venueName CONSTANT)
    Q_PROPERTY(QString clock READ clock NOTIFY ticked)
    Q_PROPERTY(int linkMark READ linkMark NOTIFY linkChanged)
    Q_PROPERTY(QString linkWord READ linkWord NOTIFY linkChanged)

  public:
    HeadSeat(venue::BoardSource& source, venue::EventSource& event, QString venue_name,
             SteadyNow now = steady_now, QObject* parent = nullptr);
    ~HeadSeat() override;

    [[nodiscard]] CourtList* courts() { return &courts_; }
    [[nodiscard]] AlertList* alerts() { return &alerts_; }
    [[nodiscard]] LiberoTable* liberos() { return &liberos_; }
    [[nodiscard]] StandingsPage* standings() { return &standings_; }
    [[nodiscard]] AlertPage* page() { return &page_; }
    [[nodiscard]] QString venueName() const { return venue_name_; }
    /// The venue's time as hours and minutes; empty before the first board.
    [[nodiscard]] QString clock() const;
    [[nodiscard]] int linkMark() const;
    [[nodiscard]] QString linkWord() const;

    /// A finger or a key came down on the list: its order stands still for a moment.
    Q_INVOKABLE void touched();
    Q_INVOKABLE void openAlert(const QString& alert_id);
    /// Opens the worst alert of a court; does nothing when it has none.
    Q_INVOKABLE void openCourt(int court);
    /// Answers the wish of a device to go on with a match, straight from the list.
    Q_INVOKABLE void answerTakeOver(const QString& alert_id, bool consent);
    /// The row of a court in the cards, -1 when there is none.
    Q_INVOKABLE int rowOfCourt(int court) const;

    /// Called once a second by a timer of its own; tests call it by hand.
    void tick();

  Q_SIGNALS:
    void ticked();
    void linkChanged();

  private:
    void take_board();
    void take_link(const venue::Link& link);
    [[nodiscard]] venue::Moment server_now() const;

    venue::BoardSource& source_;
    QString venue_name_;
    SteadyNow now_;
    CourtList courts_;
    AlertList alerts_;
    LiberoTable liberos_;
    StandingsPage standings_;
    AlertPage page_;
    QTimer timer_;
    venue::Board board_;
    venue::Link link_;
    std::chrono::milliseconds board_at_{};  ///< steady time when the board was taken
    std::chrono::milliseconds live_until_{};

    std::mutex newest_mutex_;
    std::optional<venue::Board> newest_;  ///< guarded by newest_mutex_
};

}  // namespace courthand::seats
