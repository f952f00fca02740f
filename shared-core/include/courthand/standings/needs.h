// What each team of an unfinished pool still needs to go through: the results that put it through
// or out, found by playing all courses of the open matches, or some of them where there are too
// many.
#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "courthand/standings/rank.h"

namespace courthand::standings {

/// A match of the pool that has no result yet.
struct OpenMatch {
    TeamIndex first = 0;
    TeamIndex second = 0;
    std::uint32_t order = 0;  ///< as `Result::order`
};

/// How long a match is. `sets`: 1, 3 or 5 at most, and it ends once it is won; or 1 to 5 of a fixed
/// number, `all_played` whatever the score, so that an even number may end level.
struct MatchLength {
    std::uint8_t sets = 3;
    bool all_played = false;
};

/// One result that a condition asks for: a winner, and the sets where they matter; or none.
struct Requirement {
    std::size_t match = 0;  ///< index into the open matches
    Result::Winner winner = Result::Winner::none;
    /// Sets of the loser; `any_sets` when they do not matter, and of a match that ends level.
    std::uint8_t loser_sets = any_sets;
    static constexpr std::uint8_t any_sets = 255;
    friend bool operator==(const Requirement&, const Requirement&) = default;
};

/// Results that together are enough, whatever else happens.
using Condition = std::vector<Requirement>;

enum class Fate : std::uint8_t { through, out, undecided };

struct TeamNeeds {
    TeamIndex team = 0;
    Fate fate = Fate::undecided;
    /// Courses of the open matches that put it through, out, or leave it to scores (of sets or
    /// points) that were not part of the courses, or to a decision.
    std::uint64_t through = 0;
    std::uint64_t out = 0;
    std::uint64_t hangs = 0;
    std::vector<Condition> enough;   ///< the shortest conditions that put it through
    std::vector<Condition> too_bad;  ///< the shortest conditions that put it out
};

struct Needs {
    /// Open matches up to which every course is played.
    static constexpr std::size_t most_open_exact = 12;
    /// Open matches at most: the largest single round robin.
    static constexpr std::size_t most_open = Pool::most_teams * (Pool::most_teams - 1) / 2;
    /// Courses with set scores up to which all are played; above, courses name winners only. Of
    /// matches that may end level there are 3^12 of these at most.
    static constexpr std::uint64_t most_courses = std::uint64_t{1} << 16U;
    static constexpr std::uint64_t samples = 20'000;
    static constexpr std::size_t longest_condition = 3;
    static constexpr std::size_t most_conditions = 32;  ///< for each team and fate

    bool exact = true;      ///< false: courses were drawn, shares are estimates
    bool with_sets = true;  ///< false: courses name winners only
    std::uint64_t courses = 0;
    /// Of an estimated share of courses: with 95 % confidence it is off by no more than this
    /// (Hoeffding's bound). 0 when exact.
    double error = 0;
    std::vector<TeamNeeds> teams;  ///< those not withdrawn, by index
};

/// `cut`: the last place that goes through. `length`: of each open match. `seed`: of the courses
/// that are drawn when there are more open matches than `most_open_exact`; each score in sets is
/// then equally likely.
[[nodiscard]] std::variant<Needs, Faults> needs_of(const Chain& chain, const Pool& pool,
                                                   const std::vector<OpenMatch>& open,
                                                   std::uint16_t cut, MatchLength length,
                                                   std::uint64_t seed);

/// "Mill Lane beats Quayside 2-0 and Saltmarsh draws with Gulls 1-1".
[[nodiscard]] std::string in_words(const Condition& condition, const Pool& pool,
                                   const std::vector<OpenMatch>& open, MatchLength length);

}  // namespace courthand::standings
