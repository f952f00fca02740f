// What all seats of a venue under load share.
#pragma once

#include <atomic>
#include <chrono>
#include <cstdint>
#include <functional>
#include <string>

#include "tests/bench/faults.h"
#include "tests/bench/match_pool.h"
#include "tests/bench/sightings.h"
#include "tests/bench/timetable.h"

namespace courthand::bench {

/// A seat that lost a stream or was turned away tries again after this.
inline constexpr std::chrono::seconds try_again_after{1};

struct LoadVenue {
    std::string address;
    std::chrono::duration<double> pace{4.0};  ///< between two entries of a table, on average
    /// Asks the desk for one more match on the court; must not block.
    std::function<void(std::uint32_t court)> plan_next;
    /// Entries made while it is false are not measured: connections and caches come first.
    std::atomic<bool> measuring{false};
    MatchPool matches;
    Sightings sightings;
    Faults faults;
    Timetable timetable;
};

}  // namespace courthand::bench
