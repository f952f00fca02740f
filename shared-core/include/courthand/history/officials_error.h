// Officials' own error about the serving order: back to the moment of the wrong word.
#pragma once

#include <span>
#include <variant>
#include <vector>

#include "courthand/match/entry.h"
#include "courthand/rules/profile.h"

namespace courthand {

/// The profile does not let officials go back any more.
struct TooLate {
    EntryNumber service = 0;  ///< the service of the other team after which the points stand
};

/// The corrections that bring the record back to where it stood after entry `since`: services,
/// rallies, replays, replacements and substitutions after it are struck; sanctions, requests,
/// injuries and words stay. `wronged` is the team that was told the wrong server.
/// Under a profile with `fault.officials-error-until` "opponents-next-service" it is too late once
/// the other team has served again.
[[nodiscard]] std::variant<std::vector<Strike>, TooLate> back_to_wrong_word(
    const Rules& rules, std::span<const Record> records, EntryNumber since, Team wronged);

}  // namespace courthand
