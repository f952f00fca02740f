// Random courses of a match: mostly plausible, sometimes absurd. Seeded, so that a failure can be
// played again.
#pragma once

#include <cstdint>
#include <random>
#include <vector>

#include "courthand/match/entry.h"
#include "courthand/match/state.h"
#include "courthand/rules/profile.h"

namespace courthand::testing {

/// Rosters, toss, first set and its line-ups, checked: everything before the first whistle.
/// A: 1-6, liberos 21 and 22, bench 11-14, captain 3. B: 31-36, libero 41, bench 42-45, captain 33.
[[nodiscard]] std::vector<Entry> opening();

/// Facts drawn one after another with the state they lead to.
class RandomPlay {
  public:
    RandomPlay(const Rules& rules, std::uint64_t seed);

    /// The next fact for the state reached so far; it is also carried out.
    const Entry& next();
    [[nodiscard]] const MatchState& state() const noexcept { return state_; }
    [[nodiscard]] const std::vector<Entry>& entries() const noexcept { return entries_; }

  private:
    [[nodiscard]] Fact draw();
    [[nodiscard]] Fact course();
    [[nodiscard]] Fact act(Team team);
    [[nodiscard]] Fact paper(Team team);
    [[nodiscard]] Jersey someone(Team team);
    [[nodiscard]] Jersey on_floor(Team team);
    [[nodiscard]] bool chance(unsigned percent) { return random_() % 100 < percent; }
    [[nodiscard]] std::uint32_t below(std::uint32_t limit) {
        return static_cast<std::uint32_t>(random_() % limit);
    }

    const Rules& rules_;
    std::mt19937_64 random_;
    MatchState state_{};
    std::vector<Entry> entries_;
};

}  // namespace courthand::testing
