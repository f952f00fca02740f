#include "courthand/event/lateness.h"

#include <algorithm>

namespace courthand::event {

LatePenalty late_penalty(const Division& division, const RunningClock& clock, LocalTime now) {
    const DivisionOpened& rules = division.rules;
    LatePenalty penalty;
    penalty.minutes = clock.minutes;
    if (clock.since.given() && now > clock.since)
        penalty.minutes += now.minutes - clock.since.minutes;
    const bool crew = clock.party == LateParty::crew;
    const int a_minute = crew ? rules.crew_late_points : rules.late_points;
    // Points end with the set they are given in: a late crew costs one set at most.
    const int most = division.format.points;
    penalty.points = static_cast<std::uint16_t>(
        std::min<std::int64_t>(std::int64_t{penalty.minutes} * a_minute, most));
    if (crew) return penalty;
    const auto reached = [&](std::uint16_t limit) {
        return limit != 0 && penalty.minutes >= limit;
    };
    penalty.first_set_lost = reached(rules.late_set_minutes);
    penalty.match_lost = reached(rules.late_match_minutes);
    return penalty;
}

}  // namespace courthand::event
