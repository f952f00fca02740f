// How the pools stand, and the matches after them.
#pragma once

#include "server/publish/hall_view.h"
#include "server/publish/page.h"

namespace courthand::server::publish {

[[nodiscard]] Page pools_page(const HallView& hall);
/// By division and round, with the final places as far as they are settled.
[[nodiscard]] Page brackets_page(const HallView& hall);

}  // namespace courthand::server::publish
