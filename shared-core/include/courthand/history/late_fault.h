// A fault found late: where it began and what the profile takes back for it.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "courthand/match/entry.h"
#include "courthand/match/format.h"
#include "courthand/rules/profile.h"
#include "courthand/rules/verdict.h"

namespace courthand {

/// A rally won by the team at fault while it was at fault.
struct PointAtFault {
    EntryNumber entry = 0;
    std::uint16_t rally = 0;  ///< of the set, from 1
    Score score{};            ///< after the rally
    bool cancelled = false;   ///< the profile takes it back
    friend constexpr bool operator==(const PointAtFault&, const PointAtFault&) = default;
};

struct LateFault {
    Verdict verdict{};              ///< as it stands when it is found
    EntryNumber first_entry = 0;    ///< the entry from which the team was at fault
    std::uint16_t first_rally = 0;  ///< the first rally played with the fault; 0 if none was
    std::vector<PointAtFault> points;
    Remedy if_moment_shown{};    ///< the record shows when the fault began
    Remedy if_moment_unknown{};  ///< it does not: nothing is cancelled
};

/// Every verdict that stands after entry `found_at`, with its history in the set, oldest first.
/// `entries` are the effective entries of the match; entries after `found_at` are not looked at.
[[nodiscard]] std::vector<LateFault> late_faults(const Rules& rules, std::span<const Entry> entries,
                                                 EntryNumber found_at);

}  // namespace courthand
