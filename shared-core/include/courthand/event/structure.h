// Facts that make the match graph: seeds, pools, brackets and matches added by hand.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "courthand/event/values.h"

namespace courthand::event {

/// Teams by seed, best first, from seed `first` on. A list longer than a line goes on in another.
struct SeedsGiven {
    std::string division;
    std::uint16_t first = 1;
    std::vector<std::string> teams;
    friend bool operator==(const SeedsGiven&, const SeedsGiven&) = default;
};

enum class DrawMethod : std::uint8_t {
    serpentine,  ///< by seed like a snake
    rows,        ///< as the snake, each row but the first drawn by lot
    by_hand,     ///< empty pools, into which teams are moved
};

/// The pools of a division. The same seeds and seed number give the same pools again.
struct DrawMade {
    std::string division;
    DrawMethod method = DrawMethod::serpentine;
    std::uint8_t pools = 1;
    std::uint64_t seed_number = 0;   ///< of the generator, for `rows`
    std::string prefix;              ///< before the pool's name in the names of its matches
    std::vector<std::uint8_t> cuts;  ///< places of each pool that matter: {2}: two go through
    FormatChoice format;             ///< of the matches of pools
    bool second_leg = false;         ///< everyone meets everyone twice, once on either side
    friend bool operator==(const DrawMade&, const DrawMade&) = default;
};

/// A team changes to another pool, or comes to its first.
struct TeamMoved {
    std::string team;
    std::string pool;
    std::string with;  ///< the team that goes the other way; empty: none
    friend bool operator==(const TeamMoved&, const TeamMoved&) = default;
};

/// Kinds of brackets: `single` and `double_` elimination; `consolation`: who loses the first match
/// plays on; `placement`: every place is played for.
enum class BracketKind : std::uint8_t { single, double_, consolation, placement };

/// Entrants are the listed ones; or places of pools, crossed; or the teams by seed.
struct BracketMade {
    std::string division;
    BracketKind kind = BracketKind::single;
    std::string prefix;              ///< of the names of its matches
    std::uint16_t size = 0;          ///< entrants
    std::uint8_t from_place = 0;     ///< of each pool; 0: not from pools
    std::uint8_t to_place = 0;       ///< of each pool
    std::vector<std::string> pools;  ///< empty: all pools of the division
    std::vector<Source> entrants;
    bool third_place = false;      ///< single elimination: the losers of the semifinals play
    bool second_final = false;     ///< double elimination: one more if its second side wins
    std::uint16_t best_place = 1;  ///< the best final place that is played for
    FormatChoice format;
    friend bool operator==(const BracketMade&, const BracketMade&) = default;
};

/// A match that no pool and no bracket makes.
struct MatchAdded {
    std::string match;
    std::string division;
    Source first;
    Source second;
    FormatChoice format;
    std::string profile{};  ///< id of its own rule profile; empty: that of the division
    friend bool operator==(const MatchAdded&, const MatchAdded&) = default;
};

/// Other sides for a match outside the pools that has no result yet.
struct SidesGiven {
    std::string match;
    Source first;
    Source second;
    friend bool operator==(const SidesGiven&, const SidesGiven&) = default;
};

}  // namespace courthand::event
