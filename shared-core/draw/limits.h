// Checks of inputs. Internal to shared-core/draw.
#pragma once

#include "courthand/draw/round_robin.h"

namespace courthand::draw {

/// Empty when a round robin of so many teams can be made.
[[nodiscard]] Faults faults_of_round_robin(std::uint16_t teams);

}  // namespace courthand::draw
