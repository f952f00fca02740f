// Durations in bounded memory, however many there are: counted in steps of 1.6 % or less.
#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace courthand::bench {

/// Not thread-safe.
class Distribution {
  public:
    Distribution();

    /// Counts one; what is below a microsecond counts as 0, what is above 38 hours as that.
    void add(std::chrono::steady_clock::duration duration);
    void add(const Distribution& other);

    [[nodiscard]] std::uint64_t count() const noexcept { return count_; }
    /// Microseconds that `share` (0 to 1) of all do not exceed; 0 when there are none.
    [[nodiscard]] double quantile_us(double share) const;
    /// The longest, in microseconds, exactly.
    [[nodiscard]] double longest_us() const noexcept { return static_cast<double>(longest_us_); }

  private:
    std::vector<std::uint64_t> steps_;
    std::uint64_t count_ = 0;
    std::uint64_t longest_us_ = 0;
};

}  // namespace courthand::bench
