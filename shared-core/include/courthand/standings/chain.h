// A rule chain: the published steps by which the teams of a pool are put in order. Chains are data
// (TOML, each step with its source); one engine (`rank`) reads them all.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "courthand/tournament/fault.h"

namespace courthand::standings {

using tournament::Fault;
using tournament::Faults;

/// What a step compares. More is better but for points against and matches lost to all others.
enum class Criterion : std::uint8_t {
    matches_won,
    match_points,    ///< as the chain's table values a result
    set_quotient,    ///< won / lost
    set_percentage,  ///< won / played
    set_difference,
    point_quotient,    ///< scored / conceded
    point_percentage,  ///< scored / played
    point_difference,
    points_against,   ///< fewer is better
    last_match,       ///< the winner of the last match between two teams
    beat_all_others,  ///< won every match against each of the teams still level
    lost_to_all_others,
};

/// Over which matches a step counts.
enum class Scope : std::uint8_t {
    all,     ///< all matches of the pool
    mutual,  ///< only those between the teams that are level
};

/// For how many teams that are level a step is meant.
enum class Tied : std::uint8_t { any, two, three_or_more };

/// How the teams that are still level go on once some of them are placed.
enum class AfterSplit : std::uint8_t {
    restart,  ///< from the first step, mutual matches being those between them
    go_on,    ///< at the next step
};

/// Whose matches are mutual when some of the teams that were level have been placed.
enum class MutualAmong : std::uint8_t {
    still_tied,
    first_tied,  ///< those that were level when the chain came to its first mutual step
};

/// Who decides when the chain does not.
enum class Decider : std::uint8_t { lot, play_off, director };

struct Step {
    Criterion criterion = Criterion::matches_won;
    Scope scope = Scope::all;
    Tied tied = Tied::any;
    /// A place that matters is not given by this step: a play-off decides it instead.
    bool play_off_if_cut = false;
    std::string source;
};

/// What a side earns for ending a match with so many sets.
struct Worth {
    std::uint8_t won = 0;
    std::uint8_t lost = 0;
    std::int8_t points = 0;
    std::string source;
};

struct Chain {
    /// More steps than any published chain has.
    static constexpr std::size_t most_steps = 24;

    std::string id;
    std::string title;
    std::string source;   ///< where the chain was published
    std::string edition;  ///< year or season of that publication
    std::string reading;  ///< how the published words were understood where they leave it open
    AfterSplit after_split = AfterSplit::restart;
    MutualAmong mutual_among = MutualAmong::still_tied;
    Decider last_resort = Decider::lot;
    std::vector<Worth> worth;  ///< empty when no step counts match points
    std::int8_t forfeit_points = 0;
    std::vector<Step> steps;
};

/// Reads a chain; or everything that is wrong with it, by line. A chain with no step for two teams,
/// or for three or more, would never separate them and is refused.
[[nodiscard]] std::variant<Chain, Faults> read_chain(std::string_view text);

/// Ids of the built-in chains.
[[nodiscard]] std::vector<std::string> chain_ids();
/// Text of a built-in chain file; empty for an unknown id.
[[nodiscard]] std::string_view chain_text(std::string_view id);
/// A built-in chain, or null for an unknown id.
[[nodiscard]] const Chain* find_chain(std::string_view id);

[[nodiscard]] std::string_view name_of(Criterion criterion) noexcept;   ///< "set-quotient"
[[nodiscard]] std::string_view in_words(Criterion criterion) noexcept;  ///< "set quotient"
[[nodiscard]] std::string_view in_words(Decider decider) noexcept;

}  // namespace courthand::standings
