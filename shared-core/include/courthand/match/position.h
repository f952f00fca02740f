// Positions on court and places in the serving order.
//
// A *position* is where a player stands now: I (right back, serves) to VI, anticlockwise seen from
// above the team's own back line. A *slot* is a place in the serving order of the line-up sheet; it
// never changes in a set. After r rotations the player of slot s stands in position s - r.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

#include "courthand/match/jersey.h"

namespace courthand {

inline constexpr std::size_t players_on_court = 6;

enum class Position : std::uint8_t { I, II, III, IV, V, VI };
enum class Slot : std::uint8_t { I, II, III, IV, V, VI };

inline constexpr std::array<Position, players_on_court> all_positions{
    Position::I, Position::II, Position::III, Position::IV, Position::V, Position::VI};
inline constexpr std::array<Slot, players_on_court> all_slots{Slot::I,  Slot::II, Slot::III,
                                                              Slot::IV, Slot::V,  Slot::VI};

[[nodiscard]] constexpr std::size_t index(Position p) noexcept {
    return static_cast<std::size_t>(p);
}
[[nodiscard]] constexpr std::size_t index(Slot s) noexcept {
    return static_cast<std::size_t>(s);
}

[[nodiscard]] constexpr bool front_row(Position p) noexcept {
    return p == Position::II || p == Position::III || p == Position::IV;
}

/// Numbers by position: index 0 is position I. Empty places hold `Jersey::none()`.
using Six = std::array<Jersey, players_on_court>;

/// How often a team has rotated since the start of the set, modulo six.
struct Rotation {
    std::uint8_t steps = 0;

    constexpr void forward() noexcept {
        steps = static_cast<std::uint8_t>(steps + 1 == players_on_court ? 0 : steps + 1);
    }
    constexpr void back() noexcept {
        steps = static_cast<std::uint8_t>(steps == 0 ? players_on_court - 1 : steps - 1);
    }
    [[nodiscard]] constexpr Slot slot_at(Position p) const noexcept {
        return static_cast<Slot>(below_six(index(p) + steps));
    }
    [[nodiscard]] constexpr Position position_of(Slot s) const noexcept {
        return static_cast<Position>(below_six(index(s) + players_on_court - steps));
    }
    friend constexpr bool operator==(Rotation, Rotation) = default;

  private:
    /// `n` modulo six for n below twelve; this is asked for every place of every entry.
    [[nodiscard]] static constexpr std::size_t below_six(std::size_t n) noexcept {
        return n < players_on_court ? n : n - players_on_court;
    }
};

}  // namespace courthand
