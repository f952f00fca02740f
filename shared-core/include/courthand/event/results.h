// Facts about the outcome of matches, about lateness, and what people decide.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "courthand/event/values.h"
#include "courthand/standings/chain.h"

namespace courthand::event {

/// The table keeps the record of the match under this id.
struct RecordOpened {
    std::string match;
    RecordId record;
    friend bool operator==(const RecordOpened&, const RecordOpened&) = default;
};

enum class ResultFrom : std::uint8_t {
    table,          ///< the record of a table, whose head hash is named
    paper,          ///< typed from a paper sheet
    signed_record,  ///< as `table`, and its signatures confirm it (match/signatures.h): no person
                    ///< at the desk did
};

/// Its record is kept at a table, and the result names its head.
[[nodiscard]] constexpr bool is_from_record(ResultFrom from) noexcept {
    return from != ResultFrom::paper;
}

struct ResultConfirmed {
    std::string match;
    ResultFrom from = ResultFrom::table;
    std::vector<SetScore> sets;
    RecordId record;  ///< of a table
    HeadHash head;    ///< of a table: of that record as it was confirmed
    friend bool operator==(const ResultConfirmed&, const ResultConfirmed&) = default;
};

/// The result counts no more until it is confirmed again.
struct ResultReopened {
    std::string match;
    friend bool operator==(const ResultReopened&, const ResultReopened&) = default;
};

enum class Award : std::uint8_t {
    default_,        ///< the team does not appear
    forfeit,         ///< the team refuses to play
    team_short,      ///< the team has become incomplete in the match
    double_default,  ///< neither team appears
};

/// A match that is lost without being played to its end.
struct MatchAwarded {
    std::string match;
    Award how = Award::default_;
    std::string team;            ///< who loses it; of a double default, nobody is named
    std::vector<SetScore> sets;  ///< of `team_short`: as they stood, the last one unfinished
    friend bool operator==(const MatchAwarded&, const MatchAwarded&) = default;
};

enum class LateParty : std::uint8_t { team, crew };
enum class ClockAct : std::uint8_t { started, paused, stopped };

/// The clock of a late team, or of a team that is late to work a match. Started again after a pause
/// it goes on.
struct LateClock {
    std::string match;
    std::string team;
    LateParty party = LateParty::team;
    ClockAct act = ClockAct::started;
    LocalTime at;
    friend bool operator==(const LateClock&, const LateClock&) = default;
};

/// The order that a person gave to teams which the chain left level.
struct DecisionMade {
    std::string division;
    std::string pool;
    standings::Decider by = standings::Decider::lot;
    std::vector<std::string> teams;  ///< best first
    friend bool operator==(const DecisionMade&, const DecisionMade&) = default;
};

/// Points with which the other team begins a later match of this one.
struct PenaltyCarried {
    std::string team;
    std::uint8_t points = 1;
    std::string match;
    friend bool operator==(const PenaltyCarried&, const PenaltyCarried&) = default;
};

}  // namespace courthand::event
