// The small cup with lengths, rests and courts, to be planned.
#pragma once

#include <string>

#include "courthand/event_plan/event_plan.h"
#include "tests/unit/event/event_of.h"

namespace courthand::event_plan::testing {

using event::testing::state_of;

inline constexpr const char* two_courts =
    "court 1 opens 2026-11-28T09:00 closes 2026-11-28T20:00\n"
    "court 2 opens 2026-11-28T09:00 closes 2026-11-28T20:00\n";

inline std::string cup(const std::string& rest, const std::string& limits = " lasts 50 rest 20") {
    std::string script = event::testing::small_cup();
    const std::string chain = "chain international-2017";
    script.insert(script.find(chain) + chain.size(), limits);
    return script + rest;
}

inline plan::MatchIndex index_of(const EventTask& task, const std::string& name) {
    for (std::size_t m = 0; m < task.task.matches.size(); ++m)
        if (task.task.matches[m].name == name) return static_cast<plan::MatchIndex>(m);
    ADD_FAILURE() << "no match " << name;
    return 0;
}

}  // namespace courthand::event_plan::testing
