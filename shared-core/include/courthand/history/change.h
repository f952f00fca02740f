// What a correction of the record changes in the verdicts.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "courthand/match/entry.h"
#include "courthand/rules/profile.h"
#include "courthand/rules/verdict.h"

namespace courthand {

struct VerdictChange {
    enum class Kind : std::uint8_t { appeared, vanished, changed };
    Kind kind{};
    Verdict before{};  ///< meaningless when it appeared
    Verdict after{};   ///< meaningless when it vanished
};

/// Verdicts are the same one when entry, reason and team agree; they are compared as they were
/// raised. In the order of entries.
[[nodiscard]] std::vector<VerdictChange> verdict_changes(const Rules& rules,
                                                         std::span<const Record> before,
                                                         std::span<const Record> after);

}  // namespace courthand
