// Pools: teams dealt out by seed like a snake, moved by hand, with what a draw breaks told.
#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "courthand/tournament/fault.h"

namespace courthand::draw {

using tournament::Fault;
using tournament::Faults;

inline constexpr std::size_t fewest_in_pool = 3;
inline constexpr std::size_t most_in_pool = 8;
inline constexpr std::size_t most_pools = 26;  ///< as many as there are letters

/// A team as the draw sees it.
struct Entry {
    std::string name;
    std::string club;       ///< empty: none
    std::string last_pool;  ///< pool of the last event; empty: none
};

/// Seeds from 1; the index into the entries is the seed less one.
using Seed = std::uint16_t;

/// The seeds of each pool, best first.
using Pools = std::vector<std::vector<Seed>>;

[[nodiscard]] std::string pool_name(std::size_t pool);  ///< "A", "B", ...

/// Deals seeds out like a snake: 12 teams in 3 pools give A 1 6 7 12, B 2 5 8 11, C 3 4 9 10.
[[nodiscard]] std::variant<Pools, Faults> serpentine(std::size_t teams, std::size_t pools);

/// As the snake, but each row of it (the teams that come to the pools in one pass) is drawn by lot,
/// save the first row. The same seed of the generator gives the same draw.
[[nodiscard]] std::variant<Pools, Faults> drawn_in_rows(std::size_t teams, std::size_t pools,
                                                        std::uint64_t generator_seed);

/// The seeds of a bracket: the first `kept` stay, the others are drawn by lot. The same seed of the
/// generator gives the same draw.
[[nodiscard]] std::vector<Seed> drawn_by_lot(std::size_t teams, std::size_t kept,
                                             std::uint64_t generator_seed);

/// What is wrong with a draw, though it can be played.
struct Breach {
    enum class Kind : std::uint8_t {
        pool_size,       ///< fewer than three teams or more than eight
        uneven_pools,    ///< two pools differ by more than one team
        same_club,       ///< two teams of a club in one pool
        same_last_pool,  ///< two teams met in a pool of the last event
        seed_distance,   ///< a team is further from its place in the snake than allowed
    };
    Kind kind = Kind::same_club;
    std::size_t pool = 0;
    std::vector<Seed> teams;   ///< those concerned
    std::size_t distance = 0;  ///< of `seed_distance`, in places
    friend bool operator==(const Breach&, const Breach&) = default;
};

struct DrawLimits {
    /// Places a team may stand from its place in the snake; one league allows three.
    std::size_t most_seed_distance = 3;
};

[[nodiscard]] std::vector<Breach> breaches_of(const Pools& pools, const std::vector<Entry>& entries,
                                              const DrawLimits& limits);

/// "pool A: Gulls 1 and Gulls 2 are of one club, Gulls".
[[nodiscard]] std::string in_words(const Breach& breach, const std::vector<Entry>& entries);

/// What no draw of these entries into so many pools can avoid, because there are more teams of a
/// club, or of a pool of the last event, than pools: "3 teams are of one club, Gulls, and there are
/// 2 pools: two of them meet in any draw".
[[nodiscard]] std::vector<std::string> breaches_of_every_draw(const std::vector<Entry>& entries,
                                                              std::size_t pools);

/// A draw after a change by hand.
struct Change {
    Pools pools;
    std::vector<Breach> broken;  ///< breaches that were not there before
    std::vector<Breach> mended;  ///< breaches that are gone
};

/// Moves a team to another pool.
[[nodiscard]] std::variant<Change, Faults> move_team(const Pools& pools,
                                                     const std::vector<Entry>& entries,
                                                     const DrawLimits& limits, Seed team,
                                                     std::size_t to_pool);
/// Lets two teams of different pools change places.
[[nodiscard]] std::variant<Change, Faults> swap_teams(const Pools& pools,
                                                      const std::vector<Entry>& entries,
                                                      const DrawLimits& limits, Seed a, Seed b);

}  // namespace courthand::draw
