// What the desk knows of the tournament, as the server last told it.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "courthand/match/signatures.h"
#include "venue/board.h"

namespace courthand::venue {

enum class Seat : std::uint8_t { table, desk, head };

enum class MatchStatus : std::uint8_t {
    scheduled,
    called,
    in_play,
    finished,
    signed_off,
    cancelled
};

struct PlayerListed {
    int number = 0;
    std::string name;  ///< empty where the venue works with numbers only
    bool captain = false;
    bool libero = false;
    friend bool operator==(const PlayerListed&, const PlayerListed&) = default;
};

struct TeamListed {
    Id id;
    std::string name;
    std::string club;
    Colour colour{};
    std::vector<PlayerListed> players;
    friend bool operator==(const TeamListed&, const TeamListed&) = default;
};

struct MatchPlanned {
    Id id;
    int number = 0;
    CourtNumber court = 0;
    std::string first;  ///< team named first by the desk
    std::string second;
    Colour first_colour{};
    Colour second_colour{};
    std::string profile;
    MatchStatus status = MatchStatus::scheduled;
    std::optional<Moment> planned;  ///< unset: follows the match before
    friend bool operator==(const MatchPlanned&, const MatchPlanned&) = default;
};

struct CourtListed {
    CourtNumber number = 0;
    std::string name;  ///< on the signs; empty: the number alone
    Id match_id;       ///< on the court now
    int waiting = 0;   ///< matches planned after it
    Id device_id;      ///< the table that writes, or is to write; empty: none
    friend bool operator==(const CourtListed&, const CourtListed&) = default;
};

/// Scores are those of the team the desk named first, then the other.
struct ResultListed {
    Id match_id;
    Score sets{};
    std::vector<Score> set_scores;
    bool decided = false;
    bool first_won = false;
    bool forfeited = false;
    int alerts_open = 0;
    std::string head_hash{};  ///< of the record's last entry, 32 bytes; a confirmed result names it
    SignerSet signed_by;      ///< A is the team that the desk named first
    bool protested = false;
    std::string left_to_desk{};  ///< why its signatures do not confirm it; empty: they do
    friend bool operator==(const ResultListed&, const ResultListed&) = default;
};

struct DeviceListed {
    Id id;
    std::string name;
    Seat seat = Seat::table;
    CourtNumber court = 0;
    std::optional<Moment> last_seen;
    bool revoked = false;
    friend bool operator==(const DeviceListed&, const DeviceListed&) = default;
};

struct DeskBook {
    std::vector<MatchPlanned> matches;
    std::vector<CourtListed> courts;
    std::vector<TeamListed> teams;
    std::vector<ResultListed> results;
    std::vector<DeviceListed> devices;
    Moment as_of{};
    friend bool operator==(const DeskBook&, const DeskBook&) = default;
};

/// What is wrong with one cell of a roster file.
struct RowProblem {
    int row = 0;         ///< line of the file, from 1; 0: the file as a whole
    std::string column;  ///< empty: the row as a whole
    std::string what;
    std::string cure;
    friend bool operator==(const RowProblem&, const RowProblem&) = default;
};

struct RosterReading {
    std::vector<RowProblem> problems;  ///< the first ones, as many as one answer holds
    int problem_count = 0;             ///< all of them
    std::vector<TeamListed> teams;
    bool kept = false;
    std::string failed;  ///< not empty: why no answer came; `kept` says nothing then
};

struct MatchWanted {
    Id match_id;  ///< made once by the desk, the same on each retry
    Id first_team;
    Id second_team;
    CourtNumber court = 0;
    std::string profile;
};

/// What was done, or refused, as the server keeps it for ever.
struct AuditListed {
    std::uint64_t number = 0;  ///< from 1, in the order of writing
    Moment at{};
    Id device_id;             ///< empty: it had no certificate
    std::string device_name;  ///< empty: not known
    Seat seat = Seat::table;  ///< of the device
    CourtNumber court = 0;    ///< of the device; 0: none
    std::string act;          ///< a word of the server; may be one this program does not know
    std::string subject;
    std::string detail;
    bool refused = false;
    friend bool operator==(const AuditListed&, const AuditListed&) = default;
};

struct AuditPage {
    std::vector<AuditListed> lines;  ///< newest first
    bool more = false;               ///< older ones may follow
    std::string failed;              ///< not empty: nothing came
};

struct CodeIssued {
    std::string text;  ///< in groups of four
    std::optional<Moment> expires;
    std::string failed;  ///< not empty: there is no code to be used
};

}  // namespace courthand::venue
