// How long to wait before the next try: longer each time, never in step with other devices.
#pragma once

#include <algorithm>
#include <chrono>
#include <cstdint>

namespace courthand::client {

class BackOff {
  public:
    struct Bounds {
        std::chrono::milliseconds first{200};
        /// A table must be found again soon after the server is back.
        std::chrono::milliseconds longest{3000};
    };
    BackOff(Bounds bounds, std::uint64_t seed) : bounds_{bounds}, seed_{seed} {}

    /// The time to wait now; doubled for the next call. Between half and all of the step, so that
    /// a hall of tables does not come back at one moment.
    [[nodiscard]] std::chrono::milliseconds next() noexcept {
        seed_ = seed_ * 6364136223846793005U + 1442695040888963407U;
        const auto step = step_.count() == 0 ? bounds_.first : step_;
        step_ = std::min(step * 2, bounds_.longest);
        const auto half = static_cast<std::uint64_t>(step.count() / 2);
        return std::chrono::milliseconds{half + (seed_ >> 33) % (half + 1)};
    }
    void reset() noexcept { step_ = {}; }

  private:
    Bounds bounds_;
    std::uint64_t seed_;
    std::chrono::milliseconds step_{};
};

}  // namespace courthand::client
