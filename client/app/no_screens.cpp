#include <fmt/format.h>

#include <cstdio>

#include "client/app/screens.h"

namespace courthand::client {

int run_screen(const SeatOptions& options, int&, char**) {
    fmt::print(stderr,
               "This courthand was built without screens, so it has no {} seat. Build it "
               "with COURTHAND_SCREENS=ON, or see the board with --seat head --text.\n",
               word(options.seat));
    return exit_failed;
}

}  // namespace courthand::client
