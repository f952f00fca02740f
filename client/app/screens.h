// The seats on a screen. In a build without screens this says so and fails.
#pragma once

#include "client/app/seat_options.h"

namespace courthand::client {

/// Runs until the window is closed; `argc` and `argv` are those of main. Exit code.
[[nodiscard]] int run_screen(const SeatOptions& options, int& argc, char** argv);

}  // namespace courthand::client
