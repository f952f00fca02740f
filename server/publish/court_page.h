// The first page, what is on each court now, and the day of one court.
#pragma once

#include <vector>

#include "server/publish/hall_view.h"
#include "server/publish/page.h"

namespace courthand::server::publish {

/// The piece that says what is on this court now; stands on every page that tells of it.
[[nodiscard]] Fragment court_fragment(const CourtNow& now);

[[nodiscard]] Page courts_page(const HallView& hall);
/// Matches placed on the court, in the order in which they are played.
[[nodiscard]] std::vector<event::MatchRef> matches_on(const HallView& hall, std::uint16_t court);
/// One for each court of the event.
[[nodiscard]] std::vector<Page> court_pages(const HallView& hall);

}  // namespace courthand::server::publish
