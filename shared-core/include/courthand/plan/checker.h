// The one judge of plans: what a plan breaks, and what it costs. Solver and hand moves ask it
// alike.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "courthand/plan/plan.h"

namespace courthand::plan {

/// What must not be.
struct Violation {
    enum class Kind : std::uint8_t {
        not_placed,
        closed,       ///< the court is not open for all of the match
        court_taken,  ///< by `other`
        at_once,      ///< `party` is at `other` at the same time
        short_rest,   ///< `party` rests `minutes` too little between `other` and this match
        in_a_row,     ///< `party` plays `minutes` matches more in a row than it may
        a_day,        ///< `party` plays `minutes` matches more on the day than it may
        too_early,    ///< `minutes` before it may begin
        too_late,     ///< ends `minutes` after it must
        late_finish,  ///< ends `minutes` after the division must
        order,    ///< begins `minutes` before those it waits for, `other` last, are over and rested
        feature,  ///< the court lacks what the match needs
        kept,     ///< the court is kept for others
        pinned,   ///< is not where it must stay
        shown_twice,  ///< begins at a time that the clock shows twice
    };
    Kind kind = Kind::not_placed;
    MatchIndex match = 0;
    std::optional<MatchIndex> other{};
    std::optional<PartyIndex> party{};
    std::int32_t minutes = 0;
    friend bool operator==(const Violation&, const Violation&) = default;
};

/// In units of each wish; see `Wish`.
using WishCosts = std::array<std::int64_t, wish_count>;

struct Report {
    std::vector<Violation> violations;  ///< by match, each pair once, named at the later match
    WishCosts costs{};                  ///< of the matches that have a place
    std::int64_t busy = 0;              ///< minutes that teams play and work in all
    Minute worst_rest = never;          ///< the shortest break of a team between two matches
    std::int64_t total = 0;             ///< costs by the weights of the task

    [[nodiscard]] bool fine() const noexcept { return violations.empty(); }
    [[nodiscard]] std::int64_t of(Wish wish) const { return costs[static_cast<std::size_t>(wish)]; }
    friend bool operator==(const Report&, const Report&) = default;
};

/// The task must be without faults; the plan has a place or none for each of its matches.
[[nodiscard]] Report check(const PlanTask& task, const Plan& plan);

/// "M4 begins at 10:05 while Saltmarsh, who plays M2 until 10:00, must rest until 10:20".
[[nodiscard]] std::string in_words(const PlanTask& task, const Plan& plan,
                                   const Violation& violation);
/// "teams wait 340 minutes".
[[nodiscard]] std::string in_words(Wish wish, std::int64_t amount);

}  // namespace courthand::plan
