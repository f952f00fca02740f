// Puts the teams of a pool in order under a rule chain, and says step by step why.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "courthand/standings/chain.h"
#include "courthand/standings/pool.h"
#include "courthand/standings/quotient.h"

namespace courthand::standings {

/// Sums of one team over some matches.
struct Record {
    std::uint16_t played = 0;
    std::uint16_t won = 0;
    std::uint16_t lost = 0;
    std::int32_t match_points = 0;
    std::int32_t sets_won = 0;
    std::int32_t sets_lost = 0;
    std::int32_t points_won = 0;
    std::int32_t points_lost = 0;
    bool sets_known = true;    ///< false: the sets of some match are not known
    bool points_known = true;  ///< false: the points of some match are not known
    friend bool operator==(const Record&, const Record&) = default;
};

/// One comparison of teams that were level until then.
struct Comparison {
    std::size_t step = 0;            ///< index into the steps of the chain
    std::vector<TeamIndex> among;    ///< the teams compared
    std::vector<Quotient> values;    ///< one for each of them
    std::vector<TeamIndex> counted;  ///< whose mutual matches counted; empty: all matches
    bool separated = false;
};

/// Why a chain did not give the places of some teams.
enum class Open : std::uint8_t {
    chain_ended,     ///< every step left them level
    scores_missing,  ///< a step needs sets or points that are not known
    place_matters,   ///< the chain wants a play-off because a place that matters would be lost
};

/// One place, or the places of teams that stay level until somebody decides.
struct Place {
    std::uint16_t number = 0;          ///< from 1; the first of `teams.size()` places
    std::vector<TeamIndex> teams;      ///< one; more when a decision is needed
    std::vector<std::size_t> because;  ///< comparisons that led here, in order
    /// Which decision of the pool gave the place.
    std::optional<std::size_t> decision;
    /// Set when a decision is needed.
    std::optional<Open> open;
    Decider decider = Decider::lot;  ///< who decides then
    std::size_t stopped_at = 0;      ///< the step at which it stopped, unless the chain ended

    [[nodiscard]] bool needs_decision() const noexcept { return open.has_value(); }
};

struct Table {
    std::vector<Place> places;  ///< best first; every team but those withdrawn
    std::vector<Comparison> comparisons;
    std::vector<Record> records;  ///< by team, over the matches that count
    std::vector<TeamIndex> withdrawn;
    std::vector<std::size_t> unused_decisions;  ///< of teams that the chain did not leave level

    [[nodiscard]] bool decided() const noexcept;
    /// The team at a place, when it is settled.
    [[nodiscard]] std::optional<TeamIndex> team_at(std::uint16_t number) const noexcept;
};

/// The order of a pool, or what is wrong with it. Does not depend on the order of the results.
[[nodiscard]] std::variant<Table, Faults> rank(const Chain& chain, const Pool& pool);

/// The steps that led to `places[place]`, one sentence each, for people to read.
[[nodiscard]] std::vector<std::string> reasons(const Chain& chain, const Pool& pool,
                                               const Table& table, std::size_t place);

}  // namespace courthand::standings
