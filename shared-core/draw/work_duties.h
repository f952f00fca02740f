// Who works which match. Internal to shared-core/draw.
#pragma once

#include <vector>

#include "courthand/draw/round_robin.h"

namespace courthand::draw {

/// Gives each match of `order` a team that does not play in its slot and works no other match of
/// it, so that as many matches as possible are worked and duties differ as little as can be. Fills
/// `from_elsewhere` and `note`.
void assign_workers(OrderOfPlay& order, std::uint16_t teams);

/// Says in `note` how many matches no team of the pool can work, if any.
void note_elsewhere(OrderOfPlay& order);

}  // namespace courthand::draw
