// The head official's board as text: for machines without a display, and for logs.
#pragma once

#include "client/app/seat_options.h"

namespace courthand::client {

/// Prints the board whenever it changes, at most once a second, until asked to stop. Exit code.
[[nodiscard]] int run_text_board(const SeatOptions& options);

}  // namespace courthand::client
