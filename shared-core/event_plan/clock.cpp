#include "courthand/event_plan/event_plan.h"

namespace courthand::event_plan {

plan::Minute minute_of(const EventTask& task, event::LocalTime time) {
    const std::int32_t shown = time.minutes - task.origin.minutes;
    const auto& clock = task.task.clock;
    for (std::size_t i = 0; i < clock.size(); ++i) {
        const plan::Minute minute = clock[i].from + shown - clock[i].shown;
        const bool last = i + 1 == clock.size();
        if (last || minute < clock[i + 1].from) return minute;
        // A time that the clock leaves out is the moment at which it jumps.
        if (shown < clock[i + 1].shown) return clock[i + 1].from;
    }
    return shown;
}

event::LocalTime time_of(const EventTask& task, plan::Minute minute) {
    std::int32_t shown = minute;
    for (const plan::ClockPiece& piece : task.task.clock)
        if (piece.from <= minute) shown = piece.shown + minute - piece.from;
    return {task.origin.minutes + shown};
}

}  // namespace courthand::event_plan
