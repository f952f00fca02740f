// The two doors of the rules core, both pure.
//
// `judge` says what a fact makes of a state and what the rules think of it; it never refuses a
// fact. `legal_actions` says what could be done without raising anything. A caller that replays
// many entries moves one state in place with `apply`, which is the same function as `judge`.
//
// When a verdict arises:
// * An act that is legal raises nothing, even when something must still follow it: a rotation that
//   takes a libero to position IV, or a captain who goes off, is only prompted for (`next_step`).
// * What a team does against the rules (a replacement, a substitution) is armed at once and opens
//   when the service is hit; it clears when the team puts the same two players back before that.
// * What merely is so (libero in the front row, no captain, a player who must leave, an empty
//   place, a blank box, a missed change of courts) is raised at the whistle (armed) or, without a
//   recorded whistle, when the service is hit (open).
// * Requests (time-out, second request, limit …) open at once; notices go with the next rally.
// * A rally recorded without a service takes the expected server to have served.
#pragma once

#include <span>
#include <vector>

#include "courthand/match/entry.h"
#include "courthand/match/state.h"
#include "courthand/rules/profile.h"
#include "courthand/rules/prompt.h"
#include "courthand/rules/verdict.h"

namespace courthand {

struct Judged {
    MatchState state;
    VerdictList verdicts;  ///< raised, opened, cleared or ruled by this entry, in that order
};

[[nodiscard]] Judged judge(const Rules& rules, const MatchState& state, const Entry& entry);

/// As `judge`, in place. Allocates nothing. `raised` is emptied first.
void apply(const Rules& rules, MatchState& state, const Entry& entry, VerdictList& raised) noexcept;

/// Folds facts onto a state. fold(all) == fold(rest, fold(prefix)) for every cut.
[[nodiscard]] MatchState fold(const Rules& rules, std::span<const Entry> entries,
                              const MatchState& from = {});

/// Armed and open verdicts of a state with their remedy as of now, oldest first.
[[nodiscard]] VerdictList standing(const Rules& rules, const MatchState& state) noexcept;

/// One thing a team could do and, where it would be illegal, the first reason against it.
struct Option {
    Fact fact{};
    bool legal = true;
    Reason reason{};  ///< only meaningful when not legal
};

/// What the rules would hold against `fact`, were it recorded now: armed and open verdicts, in the
/// order in which they arise. Empty: it is legal.
[[nodiscard]] VerdictList objections_to(const Rules& rules, const MatchState& state,
                                        const Fact& fact) noexcept;

/// `fact` as an option: legal when there is no objection to it, else with the first one.
[[nodiscard]] Option option_for(const Rules& rules, const MatchState& state,
                                const Fact& fact) noexcept;

/// Every libero replacement, substitution, game captain and re-designation a team could make now,
/// legal or not. `legal` holds exactly when `judge` raises nothing for the fact.
struct LegalActions {
    std::vector<Option> replacements;
    std::vector<Option> substitutions;  ///< single pairs
    std::vector<Option> captains;
    std::vector<Option> redesignations;
};
[[nodiscard]] LegalActions legal_actions(const Rules& rules, const MatchState& state, Team team);

}  // namespace courthand
