// Facts drawn from arbitrary bytes: every kind, every field, in and out of reason.
#pragma once

#include <cstdint>
#include <span>

#include "courthand/match/fact.h"

namespace courthand::fuzz {

/// Hands out bytes one by one; zeros once they are used up.
class Bytes {
  public:
    explicit Bytes(std::span<const std::uint8_t> data) : data_{data} {}
    [[nodiscard]] bool empty() const noexcept { return next_ >= data_.size(); }
    [[nodiscard]] std::uint8_t take() noexcept {
        return empty() ? std::uint8_t{0} : data_[next_++];
    }
    [[nodiscard]] std::uint8_t below(unsigned limit) noexcept {
        return static_cast<std::uint8_t>(take() % limit);
    }

  private:
    std::span<const std::uint8_t> data_;
    std::size_t next_ = 0;
};

[[nodiscard]] Fact fact_from(Bytes& bytes);

}  // namespace courthand::fuzz
