// A pool as the Python models write it, one line a thing. Internal to the probe.
#pragma once

#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

#include "courthand/standings/needs.h"

namespace courthand::event_probe {

/// What stands between a line POOL and the line END after it.
struct Question {
    const standings::Chain* chain = nullptr;
    standings::Pool pool;
    std::vector<standings::OpenMatch> open;  ///< of `needs`
    std::uint16_t cut = 1;                   ///< of `needs`
    standings::MatchLength length;           ///< of `needs`
    std::uint64_t seed = 1;                  ///< of `needs`
};

/// The next question, or nothing at the end; a line that cannot be read ends the program.
///
///     POOL CHAIN TEAMS CUT…       a chain by its id, or by the path of a file that begins with /
///     M A B ORDER points 25-20 …  a result with all its points
///     M A B ORDER sets 3 1        or with sets alone
///     M A B ORDER winner 1        or with its winner alone: 1 or 2
///     M A B ORDER first 0-25 …    lost without play by the first, the second or both
///     W TEAM struck|kept          withdrawn
///     D TEAM TEAM …               an order given by lot
///     O A B ORDER                 a match that is open
///     N CUT best-of|all SETS SEED what each team needs
///     END
[[nodiscard]] std::optional<Question> next_question(std::istream& in);

}  // namespace courthand::event_probe
