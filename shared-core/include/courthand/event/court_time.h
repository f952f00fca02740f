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

/// How long a match of this format holds its court at least, where nothing else tells: a minute for
/// each point of the fewest sets that can end it. Sets to 25 take 22 to 26 minutes in print
/// (forecast/pace.h); that intervals and longer matches are left out: our own choice, so that what
/// is told on account of it is no false alarm.
[[nodiscard]] constexpr std::int32_t usual_minutes(const MatchFormat& format) noexcept {
    const std::uint8_t sets = format.all_sets_played != 0 ? format.sets : format.sets_to_win();
    std::int32_t minutes = 0;
    for (std::uint8_t set = 1; set <= sets; ++set) minutes += format.points_of(set);
    return minutes;
}

/// Of every match that has a time, in the order of divisions and matches. A match lasts as long as
/// its division plans it (`DivisionOpened::match_minutes`). Where that is not told it lasts until
/// the next match of its court begins or, where none follows that day, `usual_minutes`.
[[nodiscard]] std::vector<CourtTime> court_times(const TournamentState& state);

/// Whether one begins before the other is over.
[[nodiscard]] constexpr bool meet(const CourtTime& a, const CourtTime& b) noexcept {
    return a.from < b.until && b.from < a.until;
}

}  // namespace courthand::event
