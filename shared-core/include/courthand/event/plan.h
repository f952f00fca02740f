// Facts of the plan: who works a match, where and when it is played, and what was published.
#pragma once

#include <cstdint>
#include <string>

#include "courthand/event/values.h"

namespace courthand::event {

/// Who works a match; said again, the duty is this one. What is left out is nobody's.
struct DutyGiven {
    std::string match;
    Source workers;                    ///< the team that supplies the table
    std::string crew;                  ///< or a crew
    std::uint16_t first_referee = 0;   ///< a person; 0: none
    std::uint16_t second_referee = 0;  ///< a person; 0: none
    friend bool operator==(const DutyGiven&, const DutyGiven&) = default;
};

enum class Timing : std::uint8_t {
    fixed,    ///< begins at its time
    follows,  ///< begins when the match before it on its court is over
};

struct MatchPlaced {
    std::string match;
    std::uint16_t court = 1;
    LocalTime at;
    Timing timing = Timing::fixed;
    bool may_start_early = false;
    friend bool operator==(const MatchPlaced&, const MatchPlaced&) = default;
};

/// A match that was placed goes to another court or time.
struct MatchMoved {
    std::string match;
    std::uint16_t court = 1;
    LocalTime at;
    friend bool operator==(const MatchMoved&, const MatchMoved&) = default;
};

/// A match that was placed has neither court nor time any more.
struct MatchUnplaced {
    std::string match;
    friend bool operator==(const MatchUnplaced&, const MatchUnplaced&) = default;
};

/// From here on every change of the plan is a difference to this version.
struct PlanPublished {
    std::uint32_t version = 1;
    friend bool operator==(const PlanPublished&, const PlanPublished&) = default;
};

}  // namespace courthand::event
