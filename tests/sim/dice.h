// Seeded chance that falls the same way with every compiler and library.
#pragma once

#include <cstddef>
#include <cstdint>

namespace courthand::sim {

/// SplitMix64, a published generator: small, fast, the same everywhere.
class Dice {
  public:
    explicit Dice(std::uint64_t seed) noexcept : state_{seed} {}

    [[nodiscard]] std::uint64_t next() noexcept {
        state_ += 0x9e3779b97f4a7c15U;
        std::uint64_t z = state_;
        z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
        z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
        return z ^ (z >> 31);
    }
    /// 0 to `below` - 1; `below` at least 1.
    [[nodiscard]] std::size_t below(std::size_t below) noexcept {
        return static_cast<std::size_t>(next() % below);
    }
    /// True `per_mille` times in a thousand.
    [[nodiscard]] bool chance(unsigned per_mille) noexcept { return next() % 1000 < per_mille; }

  private:
    std::uint64_t state_;
};

}  // namespace courthand::sim
