// When each entry was made at its table, so that a board that shows it knows how old it is.
// Thread-safe; keeps two matches of each court, the present one and the one before.
#pragma once

#include <array>
#include <chrono>
#include <cstdint>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

namespace courthand::bench {

class Sightings {
  public:
    using Clock = std::chrono::steady_clock;

    void made(std::uint32_t court, const std::string& match_id, std::uint32_t seq,
              Clock::time_point at);
    /// Nothing for an entry that is not measured.
    [[nodiscard]] std::optional<Clock::time_point> made_at(std::uint32_t court,
                                                           const std::string& match_id,
                                                           std::uint32_t seq) const;

  private:
    struct Sheet {
        std::string match_id;
        std::vector<Clock::time_point> made;  ///< entry n at index n - 1; zero: not measured
    };
    mutable std::mutex mutex_;
    std::map<std::uint32_t, std::array<Sheet, 2>> courts_;
};

}  // namespace courthand::bench
