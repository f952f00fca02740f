// The generator of every draw: the same seed gives the same draw on every machine.
#pragma once

#include <cstdint>
#include <utility>
#include <vector>

namespace courthand::draw {

/// SplitMix64 (Steele, Lea, Flood: Fast splittable pseudorandom number generators, 2014).
class Random {
  public:
    explicit constexpr Random(std::uint64_t seed) noexcept : state_{seed} {}

    constexpr std::uint64_t next() noexcept {
        state_ += 0x9e3779b97f4a7c15U;
        std::uint64_t z = state_;
        z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
        z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
        return z ^ (z >> 31U);
    }

    /// A number below `limit` (> 0), all equally likely: numbers of the last, incomplete run of
    /// `limit` are thrown again.
    constexpr std::uint64_t below(std::uint64_t limit) noexcept {
        const std::uint64_t rejected = (0 - limit) % limit;
        std::uint64_t drawn = next();
        while (drawn < rejected) drawn = next();
        return drawn % limit;
    }

  private:
    std::uint64_t state_;
};

/// Fisher-Yates in Durstenfeld's form, from the last place down.
template <class Item>
void shuffle(std::vector<Item>& items, Random& random) {
    for (std::size_t i = items.size(); i > 1; --i)
        std::swap(items[i - 1], items[static_cast<std::size_t>(random.below(i))]);
}

}  // namespace courthand::draw
