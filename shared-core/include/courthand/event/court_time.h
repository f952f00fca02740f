// When matches hold their courts by the plan.
#pragma once

#include <cstdint>
#include <vector>

#include "courthand/event/state.h"

namespace courthand::event {

/// When a match holds its court: from `from` until before `until`.
struct CourtTime {
    std::uint16_t court = 0;
    LocalTime from;
    LocalTime until;
    MatchRef match;
    friend bool operator==(const CourtTime&, const CourtTime&) = default;
};

/// Of every match that has a time, in the order of divisions and matches. A match lasts as long as
/// its division plans it (`DivisionOpened::match_minutes`). Where that is not told it lasts until
/// the next match of its court begins or, where none follows that day, one minute: it began, and
/// nothing tells more.
[[nodiscard]] std::vector<CourtTime> court_times(const TournamentState& state);

/// Whether one begins before the other is over.
[[nodiscard]] constexpr bool meet(const CourtTime& a, const CourtTime& b) noexcept {
    return a.from < b.until && b.from < a.until;
}

}  // namespace courthand::event
