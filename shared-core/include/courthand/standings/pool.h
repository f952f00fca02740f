// What is known about a pool: its teams, the matches that have a result, and what people decided.
#pragma once

#include <array>
#include <cstdint>
#include <initializer_list>
#include <string>
#include <vector>

#include "courthand/standings/chain.h"

namespace courthand::standings {

/// Index into the teams of a pool, from 0.
using TeamIndex = std::uint16_t;

struct SetScore {
    std::uint16_t first = 0;
    std::uint16_t second = 0;
    friend constexpr bool operator==(SetScore, SetScore) = default;
};

enum class Ending : std::uint8_t { played, forfeit_by_first, forfeit_by_second, forfeit_by_both };

/// How much of a result is known; the steps of a chain that need more stop there.
enum class Detail : std::uint8_t { winner, sets, points };

/// The result of one match. Use the functions below to make one.
struct Result {
    static constexpr std::size_t most_sets = 5;

    TeamIndex first = 0;
    TeamIndex second = 0;
    /// Place of the match in time: the greater, the later. Two matches of the same two teams
    /// differ.
    std::uint32_t order = 0;
    Ending ending = Ending::played;
    Detail detail = Detail::points;
    bool first_won = false;  ///< read only when no more than the winner is known
    std::uint8_t first_sets = 0;
    std::uint8_t second_sets = 0;
    std::array<SetScore, most_sets> scores{};  ///< of the first `first_sets + second_sets` sets

    enum class Winner : std::uint8_t { none, first, second };
    [[nodiscard]] Winner winner() const noexcept;
};

/// A result with the score of every set. More sets than `Result::most_sets` are a fault of the
/// pool.
[[nodiscard]] Result result_in_points(TeamIndex first, TeamIndex second,
                                      const std::vector<SetScore>& scores, std::uint32_t order = 0);
/// A result of which only the sets are known.
[[nodiscard]] Result result_in_sets(TeamIndex first, TeamIndex second, std::uint8_t first_sets,
                                    std::uint8_t second_sets, std::uint32_t order = 0);
/// A result of which only the winner is known.
[[nodiscard]] Result result_by_winner(TeamIndex first, TeamIndex second, bool first_won,
                                      std::uint32_t order = 0);

/// An order that people gave to teams which the chain left level.
struct Decision {
    std::vector<TeamIndex> order;  ///< best first
    Decider by = Decider::lot;
    std::string note;
};

/// A team that left the event in the middle of the pool. It gets no place.
struct Withdrawal {
    TeamIndex team = 0;
    enum class Results : std::uint8_t { struck, kept } results = Results::struck;
};

struct Pool {
    static constexpr std::size_t fewest_teams = 2;
    static constexpr std::size_t most_teams = 32;
    /// A double round robin of the largest pool.
    static constexpr std::size_t most_results = most_teams * (most_teams - 1);

    std::string name;
    std::vector<std::string> teams;
    std::vector<Result> results;
    std::vector<Decision> decisions;
    std::vector<Withdrawal> withdrawals;
    /// Places that matter: the last place of each group that goes on somewhere. {2}: two go
    /// through.
    std::vector<std::uint16_t> cuts;
};

/// What is wrong with a pool under a chain; empty when it can be ranked.
[[nodiscard]] Faults faults_of(const Chain& chain, const Pool& pool);

}  // namespace courthand::standings
