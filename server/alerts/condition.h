// Something that holds now and may call for an alert: taken afresh from a match or from the watch
// over the courts, without memory. What becomes of it over time is the alert book's business.
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "courthand/match/entry.h"
#include "courthand/match/position.h"
#include "courthand/match/team.h"
#include "server/alerts/catalogue.h"
#include "server/domain/ids.h"

namespace courthand::server::alerts {

/// The server's clock, for people and for what is kept. It may be set back or forth.
using Instant = std::chrono::system_clock::time_point;
/// Time that only goes forward: every waiting is counted on it.
using Steady = std::chrono::steady_clock::time_point;

/// One moment on both.
struct Now {
    Instant wall{};
    Steady steady{};
};
[[nodiscard]] inline Now system_now() {
    return {std::chrono::system_clock::now(), std::chrono::steady_clock::now()};
}

/// Made from match, entry and code, so that the same cause has the same id after a restart.
using AlertId = std::string;

/// How many replacements of a team the evidence shows.
inline constexpr std::size_t evidence_replacements = 6;

/// One libero replacement of the team, for the evidence.
struct ReplacementMade {
    EntryNumber entry = 0;
    Jersey in{};
    Jersey out{};
    Score score{};
    std::uint16_t rally = 0;
    friend bool operator==(const ReplacementMade&, const ReplacementMade&) = default;
};

struct Evidence {
    std::optional<Six> before;
    std::optional<Six> after;
    std::vector<EntryNumber> entries;
    std::vector<std::string> raw;  ///< their bytes as journaled, in the same order
    std::vector<ReplacementMade> last_replacements;  ///< oldest first
    std::string remedy;                              ///< in words, as of now; empty: none
    std::optional<Score> score_if_ruled;
    std::optional<Team> serves_if_ruled;
    std::uint16_t since_rally = 0;
    friend bool operator==(const Evidence&, const Evidence&) = default;
};

/// What the record says about a latched fault.
enum class Outcome : std::uint8_t { stands, accepted, overruled };

struct Condition {
    AlertId id;
    Kind kind{};
    std::string code;  ///< word of the reason, or of the kind where no rule names it
    Severity severity{};
    std::uint32_t court = 0;
    MatchId match;
    std::uint32_t match_number = 0;  ///< in the plan; 0: it has none
    std::string match_name;          ///< in the record of the tournament; empty: it has none
    std::uint8_t set = 0;
    Score score{};
    std::optional<Team> team;
    std::string team_name;
    std::string text;
    std::string reference;
    Evidence evidence;
    Outcome outcome = Outcome::stands;
    /// True when no waiting is needed: play has gone on with it.
    bool pressing = false;
    /// How long it must hold, where that is not for the catalogue to say.
    std::optional<std::chrono::seconds> raise_after;
    DeviceId asking;  ///< who asks to take the match over; nil: nobody
    friend bool operator==(const Condition&, const Condition&) = default;
};

}  // namespace courthand::server::alerts
