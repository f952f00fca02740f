// What could be done against a slip: changes of the day that make starts less late, with what each
// costs.
#pragma once

#include <cstddef>
#include <variant>
#include <vector>

#include "courthand/forecast/what_if.h"

namespace courthand::forecast {

struct Repair {
    DayChange change;
    double saved = 0;        ///< minutes that starts are less late, all matches that wait together
    double lost = 0;         ///< minutes that others than the changed matches begin later
    double end_moves = 0;    ///< minutes by which the P80 of the end of the day moves
    std::size_t people = 0;  ///< teams and crews to tell
};

struct RepairWish {
    MatchIndex late = 0;  ///< the match that slips
    /// To which formats matches may be shortened; empty: not at all. The director's to say.
    std::vector<MatchFormat> shorter;
    /// How many minutes telling one team or crew weighs; judgement.
    double minutes_each_person = 3;
    Sampling sampling{1, 256};
};

inline constexpr std::size_t repairs_told = 3;
/// Changes that are tried: with 256 samples of a large hall, a second's work.
inline constexpr std::size_t most_repairs_tried = 96;

/// The best repairs, best first: most minutes saved less what telling people weighs. Those that
/// save no more than that weighs are left out. Tried are, for the late match and those before it on
/// its court that have not begun: each other court behind what begins there before its planned
/// time, the place of the match that comes next there, and each shorter format; when that is more
/// than `most_repairs_tried`, those that promise most by the forecast without them.
[[nodiscard]] std::variant<std::vector<Repair>, Faults> repairs(Forecaster& forecaster,
                                                                const Day& day,
                                                                const RepairWish& wish);

}  // namespace courthand::forecast
