// The head seat on its screen, over the board of the venue.
#pragma once

#include <QQmlApplicationEngine>
#include <string>

#include "client/app/enrolled_seat.h"
#include "head_seat.h"
#include "venue/board_client.h"
#include "venue/event_client.h"

namespace courthand::client {

/// The engine, and with it the window, must go before this does.
class HeadScreen {
  public:
    HeadScreen(const EnrolledSeat& known, QQmlApplicationEngine& engine);

    /// Opens the window; a sentence when it cannot.
    [[nodiscard]] std::string open(bool dark);
    [[nodiscard]] seats::HeadSeat& seat() { return seat_; }

  private:
    venue::BoardClient board_;
    venue::EventClient event_;
    seats::HeadSeat seat_;
    QQmlApplicationEngine& engine_;
};

/// How a seat names the venue it is enrolled at.
[[nodiscard]] QString venue_name(const EnrolledSeat& seat);

}  // namespace courthand::client
