// Seeded chance that falls the same way with every compiler and library.
#pragma once

#include <cstddef>
#include <cstdint>

#include "courthand/draw/random.h"

namespace courthand::sim {

/// The generator of the draws, asked as one asks dice.
class Dice {
  public:
    explicit Dice(std::uint64_t seed) noexcept : random_{seed} {}

    [[nodiscard]] std::uint64_t next() noexcept { return random_.next(); }
    /// 0 to `below` - 1; `below` at least 1.
    [[nodiscard]] std::size_t below(std::size_t below) noexcept {
        return static_cast<std::size_t>(random_.below(below));
    }
    /// True `per_mille` times in a thousand.
    [[nodiscard]] bool chance(unsigned per_mille) noexcept { return next() % 1000 < per_mille; }

  private:
    draw::Random random_;
};

}  // namespace courthand::sim
