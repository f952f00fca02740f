// Facts that open a tournament: the event itself, its divisions and its courts.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "courthand/event/values.h"

namespace courthand::event {

struct TournamentOpened {
    std::string name;
    Date first_day;
    Date last_day;
    std::string time_zone;  ///< name in the IANA time zone database, "Europe/London"
    friend bool operator==(const TournamentOpened&, const TournamentOpened&) = default;
};

/// Who confirms that a result of a table counts. The desk always may.
enum class Confirmer : std::uint8_t {
    desk,
    signatures,  ///< of both captains and the first referee at the table
};

/// Said again for another one; until it is said it is the desk.
struct ConfirmerNamed {
    Confirmer by = Confirmer::desk;
    friend bool operator==(const ConfirmerNamed&, const ConfirmerNamed&) = default;
};

/// What becomes of the results of a team that leaves in the middle of a pool.
enum class WithdrawnResults : std::uint8_t { struck, kept };

/// Teams that play for the same places under the same rules. A limit of 0 is none.
struct DivisionOpened {
    std::string division;  ///< its code, "U16"
    std::string name;
    std::string profile;              ///< id of the rule profile
    std::string chain;                ///< id of the chain by which pools are put in order
    FormatChoice format;              ///< otherwise that of the profile
    std::uint16_t match_minutes = 0;  ///< that a match is planned to hold its court; 0: not told
    std::uint16_t rest_minutes = 0;   ///< of a team, from the planned end to its next match
    std::uint8_t most_in_a_row = 0;   ///< matches of a team one after the other
    std::uint8_t most_a_day = 0;      ///< matches of a team
    // A late team: points for each minute, then the first set, then the match.
    std::uint8_t late_points = 0;
    std::uint16_t late_set_minutes = 0;
    std::uint16_t late_match_minutes = 0;
    std::uint8_t crew_late_points = 0;  ///< a minute of a late crew, carried to its next match
    WithdrawnResults withdrawn = WithdrawnResults::struck;
    friend bool operator==(const DivisionOpened&, const DivisionOpened&) = default;
};

/// A court and the hours of one day; said again for another day.
struct CourtOpened {
    std::uint16_t court = 1;
    std::string name;
    LocalTime opens;
    LocalTime closes;
    std::vector<std::string> features;
    friend bool operator==(const CourtOpened&, const CourtOpened&) = default;
};

}  // namespace courthand::event
