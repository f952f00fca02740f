// A number on a jersey, short enough for a line of a test.
#pragma once

#include <cassert>
#include <cstdint>

#include "courthand/match/jersey.h"

namespace courthand::testing {

[[nodiscard]] inline Jersey no(unsigned number) {
    assert(number <= Jersey::largest);
    return Jersey{static_cast<std::uint8_t>(number)};
}

}  // namespace courthand::testing
