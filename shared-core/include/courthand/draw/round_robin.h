// Round robins: who meets whom in which round, and in which order on one court or more, with the
// team that works each match.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "courthand/tournament/fault.h"

namespace courthand::draw {

using tournament::Faults;

inline constexpr std::uint16_t fewest_in_round_robin = 2;
inline constexpr std::uint16_t most_in_round_robin = 16;

/// Teams of a round robin by number, from 1.
struct Pairing {
    std::uint16_t first = 0;
    std::uint16_t second = 0;
    friend bool operator==(Pairing, Pairing) = default;
};

struct Round {
    std::vector<Pairing> matches;
    std::optional<std::uint16_t> idle;  ///< the team without a match, for an odd number of teams
    friend bool operator==(const Round&, const Round&) = default;
};

/// The circle method: team 1 stays, the others rotate. Every pair meets once, each round is a
/// matching: n-1 rounds for an even number of teams, n for an odd one.
[[nodiscard]] std::variant<std::vector<Round>, Faults> circle(std::uint16_t teams);

/// A match of an order of play.
struct Fixture {
    std::uint16_t slot = 0;   ///< from 0; matches of one slot are played at the same time
    std::uint16_t court = 0;  ///< from 0
    Pairing teams;
    std::optional<std::uint16_t> worker;  ///< nothing: workers must come from elsewhere
    friend bool operator==(const Fixture&, const Fixture&) = default;
};

struct OrderOfPlay {
    std::vector<Fixture> fixtures;  ///< by slot, then court
    std::uint16_t slots = 0;
    std::uint16_t from_elsewhere = 0;  ///< matches that no team of the pool can work
    std::string note;                  ///< says so in words; empty when the pool works all
};

/// The order of play of a pool on `courts` courts, in as few slots as there can be. On one court
/// the published orders for three, four and five teams; from five teams on nobody plays twice
/// running there. Duties differ by one at most where every match is worked from the pool.
[[nodiscard]] std::variant<OrderOfPlay, Faults> order_of_play(std::uint16_t teams,
                                                              std::uint16_t courts);

/// The order, and behind its last slot the same once more with the sides of each match turned: a
/// double round robin. Between the two matches of a pair lie as many slots for every pair. Who
/// works a match works its second leg too. A team that played in the last slot may play in the
/// next.
[[nodiscard]] OrderOfPlay with_second_leg(OrderOfPlay order);

/// What an order of play asks of its teams.
struct Demands {
    std::uint16_t most_in_a_row = 0;  ///< slots one after the other in which a team plays
    std::uint16_t fewest_duties = 0;
    std::uint16_t most_duties = 0;
};
[[nodiscard]] Demands demands_of(const OrderOfPlay& order, std::uint16_t teams);

/// What a pool of so many teams holds, counted in its order of play on one court: "a pool of 4: 6
/// matches, each pair once; at most 2 in a row for a team; duties of each: 1 or 2". Then what it
/// lacks there, and on a second court where that saves time. Nothing of teams that have no order.
[[nodiscard]] std::vector<std::string> order_in_words(std::uint16_t teams, bool second_leg);

}  // namespace courthand::draw
