// The clauses of a format of play, "best-of 3 points 25 deciding 15 lead 2", as every script says
// them.
#pragma once

#include <array>
#include <cstdint>
#include <string_view>

#include "courthand/match/format.h"
#include "script/fact_reader.h"
#include "script/line_reader.h"

namespace courthand::script {

/// One clause: a word, a number and the field it fills.
struct FormatClause {
    std::string_view word;
    std::string_view what;
    unsigned low;
    unsigned high;
    std::uint8_t MatchFormat::*field;
};

/// Lead that wins a set.
inline constexpr unsigned most_lead = 20;

inline constexpr std::array<FormatClause, 7> format_clauses{{
    {"points", "the points of a set", 1, most_points, &MatchFormat::points},
    {"deciding", "the points of the deciding set", 1, most_points, &MatchFormat::deciding_points},
    {"lead", "the lead that wins a set", 1, most_lead, &MatchFormat::lead},
    {"cap", "the score that ends a set", 0, most_points, &MatchFormat::cap},
    {"deciding-cap", "the score that ends the deciding set", 0, most_points,
     &MatchFormat::deciding_cap},
    {"start", "the score a set begins with", 0, most_points, &MatchFormat::start_score},
    {"switch", "the score at which courts change", 0, most_points, &MatchFormat::switch_at},
}};

/// The number of a clause whose word was read. Courts change half-way of the deciding set, 8 of 15
/// and 13 of 25, unless a later clause says otherwise.
void read_clause(LineReader& line, const FormatClause& clause, MatchFormat& format);

/// The number behind "best-of", or behind "sets" when all of them are played.
void read_sets(LineReader& line, MatchFormat& format, bool all_played);

}  // namespace courthand::script
