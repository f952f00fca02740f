// A tournament of 128 teams and 600 matches in the middle of its day, as the sources of a desk seat
// tell it: 500 matches in one division, with 8 pools and a double elimination of 64 teams.
#pragma once

#include <cstddef>
#include <vector>

#include "courthand/event/fact.h"
#include "venue/board.h"
#include "venue/desk_book.h"

namespace courthand::bench {

struct LargeHall {
    std::vector<event::Said> facts;
    venue::DeskBook book;
    venue::Board board;
    std::vector<std::size_t> playing;  ///< by court: its result in `book.results`

    /// A point on one of the courts, from 0; the set is played on and on.
    void rally(std::size_t court);
};

inline constexpr std::size_t hall_courts = 32;
inline constexpr std::size_t hall_matches = 600;
/// Of the division that is shown first.
inline constexpr std::size_t shown_matches = 500;

/// The same at each call. Throws std::logic_error when it is not what it is meant to be.
[[nodiscard]] LargeHall large_hall();

}  // namespace courthand::bench
