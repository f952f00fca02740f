// Generators of the match graph: pools, and brackets of 2 to 64 entrants. Entrants are sources in
// the order of their seeds, so that a bracket can follow pools or other brackets.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <variant>
#include <vector>

#include "courthand/tournament/graph.h"

namespace courthand::tournament {

inline constexpr std::size_t fewest_in_bracket = 2;
inline constexpr std::size_t most_in_bracket = 64;

/// A graph of teams alone, and their sources by seed.
struct Field {
    Graph graph;
    std::vector<SourceIndex> entrants;
};
[[nodiscard]] Field field_of(TeamNumber teams);

/// Seeds by slot of a bracket of `size` (a power of two): 1 8 4 5 2 7 3 6. Seeds of a first match
/// sum to `size` + 1, the two best can meet only in the final.
[[nodiscard]] std::vector<std::uint16_t> slots_of(std::size_t size);

struct BracketOptions {
    std::string prefix = "M";   ///< of the names of matches
    bool third_place = false;   ///< single elimination: the losers of the semifinals play
    bool second_final = false;  ///< double elimination: a final more if its second side wins
};

/// Letters for the names of a bracket's matches that name no others: "M", as long as no pool has
/// this letter, else the next that are free. `taken`: whether there is a match of this name.
[[nodiscard]] std::string free_prefix(const std::function<bool(const std::string&)>& taken);

/// Each of these adds a bracket to the graph, with the places it gives, or says why it cannot. Byes
/// go to the best seeds; a bye is no match.

/// The loser is out: one match fewer than entrants, and one for third place if asked for.
[[nodiscard]] Faults add_single_elimination(Graph& graph, const std::vector<SourceIndex>& entrants,
                                            const BracketOptions& options = {});
/// Out after two losses: 2n-2 matches, 2n-1 with the second final.
[[nodiscard]] Faults add_double_elimination(Graph& graph, const std::vector<SourceIndex>& entrants,
                                            const BracketOptions& options = {});
/// Those who lose in the first round play on in a bracket of their own, and so do those who lose in
/// the second in a match with a team that had a bye, unless that is the final: from four teams on
/// everyone has two matches at least.
[[nodiscard]] Faults add_consolation(Graph& graph, const std::vector<SourceIndex>& entrants,
                                     const BracketOptions& options = {});
/// Every place is played for: winners and losers of each round go on among themselves.
[[nodiscard]] Faults add_placement(Graph& graph, const std::vector<SourceIndex>& entrants,
                                   const BracketOptions& options = {});

/// How often everyone meets everyone in a pool.
enum class Legs : std::uint8_t {
    one,
    two,  ///< once as first and once as second side; the second leg begins when the first has ended
};

/// A pool in which everyone meets everyone, in the order of play of one court.
[[nodiscard]] Faults add_pool(Graph& graph, const std::string& name,
                              const std::vector<SourceIndex>& teams, const std::string& prefix,
                              Legs legs = Legs::one);

/// The places `from` to `through` of each pool as entrants of a bracket: first all winners of
/// pools, then the seconds and so on, crossed so that teams of one pool meet as late as can be
/// (1A-2B, 1B-2A).
[[nodiscard]] std::variant<std::vector<SourceIndex>, Faults> crossed(
    Graph& graph, const std::vector<PoolIndex>& pools, std::uint16_t through,
    std::uint16_t from = 1);

/// Gives matches from `first` on their workers: first a team that has a bye, then a loser that is
/// out, those of the round before first; nobody works more than once.
void assign_workers(Graph& graph, MatchIndex first);

}  // namespace courthand::tournament
