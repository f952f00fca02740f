// The table seat on its screen: one match after the other, and what comes in from the venue.
#pragma once

#include <QObject>
#include <QQmlApplicationEngine>
#include <QTimer>
#include <memory>
#include <string>

#include "client/tables/table_station.h"
#include "table_seat.h"

namespace courthand::client {

class TableScreen : public QObject {
    Q_OBJECT

  public:
    TableScreen(std::unique_ptr<TableStation> station, QQmlApplicationEngine& engine);
    ~TableScreen() override;

    /// Opens the match and the window; a sentence when it cannot.
    [[nodiscard]] std::string open();
    /// The match on the screen. There is one once `open` has succeeded.
    [[nodiscard]] const JournaledMatch& match() const { return *match_; }
    [[nodiscard]] TableStation& station() { return *station_; }

  private:
    [[nodiscard]] std::string choose_match();
    [[nodiscard]] std::string show(const std::string& match_id);
    void look();
    void look_at_match();
    /// The match that could follow the present one; empty when this one is to be gone on with here,
    /// or none waits.
    [[nodiscard]] std::string following();
    void go_on();
    void show_next();
    template <class Read>
    void tell_unreadable(Read read);
    /// Another device writes the match on the screen.
    [[nodiscard]] bool watches() const;
    /// The desk has taken the match on the screen off this court.
    [[nodiscard]] bool moved() const;

    std::unique_ptr<TableStation> station_;
    QQmlApplicationEngine& engine_;
    QTimer timer_;
    std::unique_ptr<JournaledMatch> match_;
    std::unique_ptr<TableSeat> seat_;
    bool practice_ = false;
    bool asked_for_next_ = false;
    std::string told_unreadable_;  ///< what was said of a journal that cannot be read
};

}  // namespace courthand::client
