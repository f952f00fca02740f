// What a fact could not bring about: which fact, what, why, and how to put it right.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

#include "courthand/event/fact.h"
#include "courthand/tournament/fault.h"

namespace courthand::event {

/// Kinds of findings, each with its word for scripts and tests.
enum class Problem : std::uint8_t {
    unknown_division,
    unknown_team,
    unknown_pool,
    unknown_match,
    unknown_court,
    unknown_person,
    unknown_crew,
    unknown_profile,
    unknown_chain,
    unknown_fact,
    unknown_place,
    name_taken,       ///< a team, division or match of this name is there already
    opened_twice,     ///< the tournament is open already
    dates_reversed,   ///< an end before its beginning
    withdrawn,        ///< the team has left
    number_twice,     ///< a list names somebody twice
    other_division,   ///< a team of another division
    draw_missing,     ///< the division has no pools
    draw_there,       ///< the division has pools already
    draw_impossible,  ///< so many teams in so many pools
    pool_played,      ///< the pool has results
    bracket_impossible,
    sides_impossible,  ///< a match that waits for its own result, or a team against itself
    sides_unknown,     ///< a result for a match whose sides are not settled
    not_played,        ///< a result for a match that is not played: a bye, a final not needed
    result_there,      ///< the match has a result already
    result_missing,    ///< there is no result to reopen
    score_impossible,  ///< no match under its format ends so
    head_missing,      ///< a result from a table without the head of its record
    not_a_side,        ///< the team does not play this match
    not_placed,        ///< a match that has no place is moved
    version_back,      ///< a version that is not above the last one
    clock_wrong,       ///< a clock stopped that does not run, started while it runs, or set back
    too_many,          ///< a bound of limits.h
    // Of an act alone (act.h).
    format_impossible,  ///< no set of it can be played, or no pool of it put in order
    reason_missing,     ///< a frozen list changes, and no words say why
    zone_late,          ///< a time zone for times that were said without one
};

inline constexpr std::array<std::string_view, 37> problem_words{
    "unknown-division", "unknown-team",       "unknown-pool",      "unknown-match",
    "unknown-court",    "unknown-person",     "unknown-crew",      "unknown-profile",
    "unknown-chain",    "unknown-fact",       "unknown-place",     "name-taken",
    "opened-twice",     "dates-reversed",     "withdrawn",         "number-twice",
    "other-division",   "draw-missing",       "draw-there",        "draw-impossible",
    "pool-played",      "bracket-impossible", "sides-impossible",  "sides-unknown",
    "not-played",       "result-there",       "result-missing",    "score-impossible",
    "head-missing",     "not-a-side",         "not-placed",        "version-back",
    "clock-wrong",      "too-many",           "format-impossible", "reason-missing",
    "zone-late"};

[[nodiscard]] constexpr std::string_view word_of(Problem problem) noexcept {
    return problem_words[static_cast<std::size_t>(problem)];
}

/// Whether an act of which this is found is not kept. A fact that merely has no effect is.
[[nodiscard]] constexpr bool forbids(Problem problem) noexcept {
    return problem == Problem::format_impossible || problem == Problem::reason_missing ||
           problem == Problem::zone_late;
}

struct Finding {
    FactNumber fact = 0;  ///< that had no effect
    Problem problem{};
    tournament::Fault fault;  ///< where, what and why, and the cure
    friend bool operator==(const Finding&, const Finding&) = default;
};

}  // namespace courthand::event
