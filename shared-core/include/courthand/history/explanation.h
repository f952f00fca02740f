// Why a server may seem wrong. More often the record is wrong than the team: a line-up copied
// mirrored, a substitution not entered, a number misread. Each explanation is weighed by how many
// of the services that were recorded with a number it accounts for.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "courthand/match/entry.h"
#include "courthand/match/position.h"
#include "courthand/rules/profile.h"

namespace courthand {

struct Explanation {
    enum class Kind : std::uint8_t {
        lineup_mirrored,       ///< the sheet was copied the other way round
        lineup_shifted,        ///< every number one or more places on; `steps` says how many
        lineup_exchanged,      ///< two numbers of the sheet exchanged: `in` and `out`
        substitution_missing,  ///< `in` came for `out` and was not entered
        number_misread,        ///< `in` was written for `out`
        rotation_missed,       ///< the team did not rotate when it should have
        rotation_repeated,     ///< the team rotated once too often
    };
    Kind kind{};
    /// The record is to be corrected and the team is not at fault.
    bool record_wrong = false;
    std::uint8_t steps = 0;
    Jersey in{};
    Jersey out{};
    EntryNumber since = 0;        ///< first entry that the explanation concerns
    std::uint16_t explained = 0;  ///< services with a number that fit it
    std::uint16_t observed = 0;   ///< services with a number in all
    friend constexpr bool operator==(const Explanation&, const Explanation&) = default;
};

/// Explanations for the services of `team` in the set of entry `found_at`, best first; only those
/// that explain more than the record as it stands. Empty when no service contradicts the record.
[[nodiscard]] std::vector<Explanation> explanations_of_wrong_server(const Rules& rules,
                                                                    std::span<const Entry> entries,
                                                                    Team team,
                                                                    EntryNumber found_at);

}  // namespace courthand
