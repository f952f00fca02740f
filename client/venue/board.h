// What the head official sees of the venue: courts, open alerts and the liberos of each match.
//
// Plain values as the server last told them. Nothing here is computed from the rules, and every
// count is as recorded at the tables. Courts stand in the order of the hall.
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "courthand/match/entry.h"
#include "courthand/match/format.h"
#include "courthand/match/position.h"
#include "courthand/match/team.h"
#include "courthand/rules/reason.h"

namespace courthand::venue {

/// A moment of the server, for people only: ages and "last seen". Milliseconds since 1970, UTC.
using Moment = std::chrono::milliseconds;

/// A court by the number on its signs, from 1; 0 names none.
using CourtNumber = std::uint32_t;

/// An id in its text form, "0192f0a1-…"; empty names none.
using Id = std::string;

/// A shirt colour as the desk entered it, 0xRRGGBB.
struct Colour {
    std::uint32_t rgb = 0xC8C8C8;
    friend bool operator==(Colour, Colour) = default;
};

/// Six hexadecimal digits; anything else is grey.
[[nodiscard]] Colour colour_of_hex(const std::string& digits);

enum class CourtStage : std::uint8_t {
    free,          ///< no match on the court
    before_match,  ///< a match is there, nothing but its opening is recorded
    line_ups,      ///< before a set: sheets or their check are awaited
    in_play,
    set_over,
    match_over,
};

/// What a player is to the libero function for the match.
struct Designation {
    enum class State : std::uint8_t { active, redesignated, replaced, unable };
    Jersey jersey{};
    State state = State::active;
    bool barred = false;
    std::string barred_words;  ///< why, in the server's words
    friend bool operator==(const Designation&, const Designation&) = default;
};

/// A libero on court and whom he stands in for; none when the record does not tell.
struct LiberoOnCourt {
    Jersey libero{};
    Jersey replaces{};
    friend bool operator==(const LiberoOnCourt&, const LiberoOnCourt&) = default;
};

struct TeamOnBoard {
    std::string name;
    Colour colour{};
    int sets = 0;
    bool line_up_in = false;
    bool line_up_checked = false;
    int boxes_open = 0;  ///< libero boxes that nobody has settled
    std::vector<LiberoOnCourt> liberos_on;
    std::vector<Designation> designations;
    std::vector<Jersey> barred;
    Six six{};  ///< by position; empty before the line-up
    friend bool operator==(const TeamOnBoard&, const TeamOnBoard&) = default;
};

struct CourtOnBoard {
    CourtNumber court = 0;
    Id match_id;             ///< empty while free
    int match_number = 0;    ///< in the plan; 0 when it has none
    std::string match_name;  ///< in the record of the tournament; empty: it has none
    CourtStage stage = CourtStage::free;
    int set = 0;  ///< 0 before the first set
    Score score{};
    std::vector<Score> finished_sets;
    PerTeam<TeamOnBoard> teams{};
    std::optional<Team> serving;
    std::optional<Team> left;  ///< as seen from the scorer's table
    std::optional<Team> winner;
    std::optional<Moment> last_seen;  ///< unset: no device of this court was ever seen
    bool staffed = false;             ///< a table device is connected at this moment
    std::optional<int> battery_percent;
    std::uint64_t state_hash = 0;  ///< hash of the folded state; 0 before the first entry
    friend bool operator==(const CourtOnBoard&, const CourtOnBoard&) = default;

    /// The team has the next service of this set: of a set that is over nobody has.
    [[nodiscard]] bool serves(Team team) const noexcept;
};

enum class AlertLife : std::uint8_t { open, claimed, shelved, ruled, cleared };

/// One entry of the record that an alert rests on; without content when it could not be read.
struct EntryConcerned {
    EntryNumber number = 0;
    std::optional<Record> content;
    friend bool operator==(const EntryConcerned&, const EntryConcerned&) = default;
};

/// A libero replacement of the past.
struct ReplacementMade {
    EntryNumber number = 0;
    Jersey in{};
    Jersey out{};
    Score score{};
    int rally = 0;
    friend bool operator==(const ReplacementMade&, const ReplacementMade&) = default;
};

/// What stands behind an alert. Every part may be absent: an operating condition has no six.
struct AlertEvidence {
    std::optional<Six> before;
    std::optional<Six> after;
    std::vector<EntryConcerned> entries;
    std::vector<ReplacementMade> replacements;  ///< oldest first
    std::string remedy;                         ///< in the server's words
    std::optional<Score> score_if_ruled;
    std::optional<Team> serves_if_ruled;
    int since_rally = 0;  ///< first rally at fault; 0 where it does not apply
    friend bool operator==(const AlertEvidence&, const AlertEvidence&) = default;
};

struct Alert {
    std::string id;
    std::string code;  ///< a stable word: reason of the rules, or operating condition
    Severity severity = Severity::low;
    CourtNumber court = 0;
    Id match_id;
    int match_number = 0;    ///< in the plan; 0 when it has none, or concerns no match
    std::string match_name;  ///< in the record of the tournament; empty: it has none
    int set = 0;
    Score score{};
    std::optional<Team> team;
    std::string team_name;
    std::string sentence;  ///< one sentence in the server's words
    std::string rule;
    Moment since{};
    AlertLife life = AlertLife::open;
    std::string claimed_by;
    bool seen = false;  ///< somebody has said so; some alerts end by it
    std::optional<Moment> shelved_until;
    std::string note;
    Id asking_device;  ///< who asks to go on with the match in the place of a dead device
    AlertEvidence evidence;
    friend bool operator==(const Alert&, const Alert&) = default;

    [[nodiscard]] bool ended() const noexcept {
        return life == AlertLife::ruled || life == AlertLife::cleared;
    }
};

struct Board {
    std::vector<CourtOnBoard> courts;
    std::vector<Alert> alerts;  ///< not ended, in no order
    Moment as_of{};             ///< the server's clock when this was told
    friend bool operator==(const Board&, const Board&) = default;

    [[nodiscard]] const CourtOnBoard* court(CourtNumber number) const noexcept;
    [[nodiscard]] const Alert* alert(const std::string& id) const noexcept;
    /// It is of a match that is not on its court (any more): mostly of the one before.
    [[nodiscard]] bool left_behind(const Alert& alert) const noexcept;
};

}  // namespace courthand::venue
