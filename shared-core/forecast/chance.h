// Seeded chance for many samples at once, even by construction.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace courthand::forecast {

/// Each stream gives every sample another of `samples` equal parts of all that can happen, in an
/// order of its own: what one stream alone decides is spread as evenly as a table.
class Chance {
  public:
    /// `samples`: a power of two.
    Chance(std::uint64_t seed, std::uint32_t samples);

    /// How one stream deals its parts. Odd factors and shifts to the right can be undone within so
    /// many bits, so no part falls twice; with fewer rounds streams know of each other
    /// (TwoStreamsTogetherFillThePlaneEvenly).
    static constexpr std::size_t rounds = 4;
    struct Order {
        std::array<std::uint32_t, rounds> factors{};
        std::array<std::uint32_t, rounds> shifts{};
    };
    [[nodiscard]] Order order(std::uint64_t stream) const noexcept;
    /// Which part falls to a sample, from 0.
    [[nodiscard]] std::uint32_t part(const Order& order, std::uint32_t sample) const noexcept;
    /// The standard normal value, and the exponential one of mean 1, in the middle of a part.
    [[nodiscard]] double normal(std::uint32_t part) const { return normals_[part]; }
    [[nodiscard]] double exponential(std::uint32_t part) const { return exponentials_[part]; }

  private:
    std::uint64_t seed_;
    std::uint32_t last_;      ///< the last part
    std::uint32_t half_way_;  ///< half of the bits of a part
    std::vector<double> normals_;
    std::vector<double> exponentials_;
};

/// The value below which a standard normal one falls with this chance.
[[nodiscard]] double normal_quantile(double chance);
/// The same of a gamma variable of scale 1; `shape` above 0, `chance` between 0 and 1.
[[nodiscard]] double gamma_quantile(double shape, double chance);

}  // namespace courthand::forecast
