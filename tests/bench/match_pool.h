// Simulated matches that are played once and recorded many times, each time under an id of its own.
#pragma once

#include <cstddef>
#include <vector>

#include "tests/bench/played_match.h"

namespace courthand::bench {

/// Rule profile of every match that is measured.
inline constexpr const char* measured_profile = "international-2025";

class MatchPool {
  public:
    /// Matches that differ; more would make no difference to a server.
    static constexpr std::size_t usual = 64;

    explicit MatchPool(std::size_t count = usual);

    /// The same number gives the same match; any number will do.
    [[nodiscard]] const PlayedMatch& match(std::size_t number) const noexcept {
        return matches_[number % matches_.size()];
    }

  private:
    std::vector<PlayedMatch> matches_;
};

}  // namespace courthand::bench
