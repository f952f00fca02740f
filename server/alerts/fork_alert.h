// Which branch an alert of a forked record is about.
#pragma once

#include <cstdint>
#include <optional>

#include "server/alerts/condition.h"

namespace courthand::server::alerts {

struct BranchOfMatch {
    MatchId match;
    std::uint32_t branch = 0;  ///< its number at the match, from 1
    friend bool operator==(const BranchOfMatch&, const BranchOfMatch&) = default;
};

/// Read from the id that `fork_condition` made, so that it is known of an ended alert too; nothing
/// when the id is of another kind of alert.
[[nodiscard]] std::optional<BranchOfMatch> branch_of(const AlertId& id);

}  // namespace courthand::server::alerts
