// Every competition is one graph of matches. A side of a match is a source: a team, the n-th of a
// pool, the winner or loser of a match, the better or worse of two sources, or a bye. Pools and
// brackets are generators of this graph (brackets.h); advancing, reopening and scheduling walk it.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "courthand/tournament/fault.h"

namespace courthand::tournament {

/// Teams by number, from 1: their seeds, or the order of entry.
using TeamNumber = std::uint16_t;
using MatchIndex = std::uint16_t;   ///< into `Graph::matches`
using PoolIndex = std::uint16_t;    ///< into `Graph::pools`
using SourceIndex = std::uint32_t;  ///< into `Graph::sources`

/// Where a side of a match comes from.
struct Source {
    enum class Kind : std::uint8_t { team, place, winner, loser, better, worse, bye };
    Kind kind = Kind::bye;
    std::uint32_t of = 0;      ///< team number, pool, match, or the first of two sources
    std::uint32_t second = 0;  ///< the place from 1, or the second of two sources
    friend bool operator==(const Source&, const Source&) = default;
};

/// To which part of a competition a match belongs.
enum class Stage : std::uint8_t { pool, main, losers, consolation, placement, third_place, final };

struct Match {
    std::string name;  ///< "M7"; unique in the graph
    Stage stage = Stage::main;
    std::uint16_t round = 1;  ///< of its stage, from 1
    std::array<SourceIndex, 2> sides{};
    std::optional<PoolIndex> pool;
    /// Who works the match; nothing: workers must come from elsewhere.
    std::optional<SourceIndex> workers;
    /// The match is played only if the second side of that match won. When it is not played, its
    /// first side counts as its winner.
    std::optional<MatchIndex> only_if_second_won;
    friend bool operator==(const Match&, const Match&) = default;
};

struct PoolNode {
    std::string name;
    std::vector<SourceIndex> teams;
    std::vector<MatchIndex> matches;
    friend bool operator==(const PoolNode&, const PoolNode&) = default;
};

/// Who ends in the places `first` to `last`; the same range stands once for each team in it.
struct FinalPlace {
    std::uint16_t first = 0;
    std::uint16_t last = 0;
    SourceIndex source = 0;
    friend bool operator==(const FinalPlace&, const FinalPlace&) = default;
};

struct Graph {
    static constexpr std::size_t most_teams = 256;
    static constexpr std::size_t most_matches = 4096;
    static constexpr std::size_t most_sources = 6 * most_matches;

    TeamNumber teams = 0;
    std::vector<Source> sources;
    std::vector<PoolNode> pools;
    std::vector<Match> matches;
    std::vector<FinalPlace> places;

    /// The index of a source, which is added when it is not there.
    SourceIndex add(const Source& source);

    friend bool operator==(const Graph&, const Graph&) = default;
};

/// "winner of M7", "2nd of pool A".
[[nodiscard]] std::string in_words(const Graph& graph, SourceIndex source);

/// What is wrong with a graph: indices that lead nowhere, circles, a team, place, winner or loser
/// with two ways on at once, two matches of one name.
[[nodiscard]] Faults faults_of(const Graph& graph);

enum class Winner : std::uint8_t { unknown, first, second };

/// The confirmed results: nothing advances but from these.
struct Outcomes {
    std::vector<Winner> matches;  ///< by match; missing ones are unknown
    /// By pool, the team at each place as far as it is settled (0: not).
    std::vector<std::vector<TeamNumber>> pools;
    /// By team number less one: lower is better. Settles better and worse of two sources; equal or
    /// missing values leave them open.
    std::vector<std::uint32_t> rating;
};

/// What a source stands for under the outcomes.
struct Settled {
    enum class State : std::uint8_t { team, bye, open } state = State::open;
    TeamNumber team = 0;
    std::string why;  ///< why it is open: "M3 has no confirmed result"

    [[nodiscard]] bool known() const noexcept { return state != State::open; }
};

/// All sources of the graph, by index. The graph must be free of faults.
[[nodiscard]] std::vector<Settled> settle(const Graph& graph, const Outcomes& outcomes);

/// Results that cannot be: of a match whose sides are not known, of one against a bye, of one that
/// is not played.
[[nodiscard]] Faults faults_of(const Graph& graph, const Outcomes& outcomes);

/// Everything that depends on the result of a match, directly or through others.
struct Effects {
    std::vector<MatchIndex> matches;  ///< with a side that depends on it
    std::vector<MatchIndex> duties;   ///< matches whose workers depend on it
    std::vector<PoolIndex> pools;     ///< whose order or teams depend on it
    std::vector<std::size_t> places;  ///< indices into `Graph::places`
};
[[nodiscard]] Effects effects_of(const Graph& graph, MatchIndex match);

}  // namespace courthand::tournament
