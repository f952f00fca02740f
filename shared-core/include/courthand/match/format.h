// How a match is won: sets, points, lead, cap and where the deciding set changes courts.
#pragma once

#include <cstdint>

namespace courthand {

/// All counts are points or sets; a cap of 0 means no cap.
struct MatchFormat {
    /// The most sets a match may have; results are kept for each of them.
    static constexpr std::uint8_t most_sets = 5;

    std::uint8_t sets = 5;             ///< sets at most: 1, 3 or 5 when `all_sets_played` is 0
    std::uint8_t all_sets_played = 0;  ///< 1: a fixed number of sets, played whatever the score
    std::uint8_t points = 25;
    std::uint8_t deciding_points = 15;
    std::uint8_t lead = 2;
    std::uint8_t cap = 0;  ///< a set ends at this score whatever the lead
    std::uint8_t deciding_cap = 0;
    std::uint8_t start_score = 0;  ///< both teams begin each set with it
    std::uint8_t switch_at = 8;    ///< courts change in the deciding set when a team reaches it

    [[nodiscard]] constexpr std::uint8_t sets_to_win() const noexcept {
        return static_cast<std::uint8_t>(sets / 2 + 1);
    }
    [[nodiscard]] constexpr bool deciding(std::uint8_t set_number) const noexcept {
        return all_sets_played == 0 && set_number == sets;
    }
    [[nodiscard]] constexpr std::uint8_t points_of(std::uint8_t set_number) const noexcept {
        return deciding(set_number) ? deciding_points : points;
    }
    [[nodiscard]] constexpr std::uint8_t cap_of(std::uint8_t set_number) const noexcept {
        return deciding(set_number) ? deciding_cap : cap;
    }
    friend constexpr bool operator==(const MatchFormat&, const MatchFormat&) = default;
};

/// The score of one set.
struct Score {
    std::uint8_t a = 0;
    std::uint8_t b = 0;
    friend constexpr bool operator==(Score, Score) = default;
};

}  // namespace courthand
