// A simulated table: given the state of a match, what happens next.
//
// Plays like two ordinary teams: liberos go in and out, now and then a substitution or a time-out,
// rarely a fault. Everything but the dice is read from the state, so a player can go on with any
// match, also one that another began. The same seed and states give the same match.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "courthand/match/fact.h"
#include "courthand/match/state.h"
#include "courthand/rules/judge.h"
#include "courthand/rules/profile.h"
#include "courthand/sim/dice.h"

namespace courthand::sim {

/// How often things happen, in a thousand occasions.
struct Habits {
    unsigned replacement = 450;  ///< per dead ball, when one is legal
    unsigned substitution = 12;  ///< per dead ball
    unsigned time_out = 8;       ///< per dead ball and team
    unsigned redesignation = 2;  ///< per dead ball
    unsigned illegal = 4;        ///< an illegal replacement or substitution, per dead ball
    unsigned wrong_server = 2;   ///< per service
    unsigned replay = 8;         ///< per rally
    unsigned undo = 6;           ///< per step, the table takes its last entry back
    unsigned ruling = 350;       ///< per step, while a verdict is open
    unsigned misconduct = 2;     ///< per dead ball
    unsigned whistle = 0;        ///< per service, the whistle is written down too
};

/// One step of a table: a fact, or the last one taken back.
struct Step {
    std::optional<Fact> fact;  ///< none: strike the last
    std::string words;         ///< beside the fact; mostly empty
};

class MatchPlayer {
  public:
    MatchPlayer(std::uint64_t seed, Habits habits) : dice_{seed}, habits_{habits} {}
    explicit MatchPlayer(std::uint64_t seed) : MatchPlayer{seed, Habits{}} {}

    /// The next step, or nothing when the match is over. The match must be opened.
    [[nodiscard]] std::optional<Step> next(const Rules& rules, const MatchState& state);

  private:
    [[nodiscard]] Fact prepare(const Rules& rules, const MatchState& state, const Prompt& prompt);
    [[nodiscard]] Fact mend(const Rules& rules, const MatchState& state, const Prompt& prompt);
    [[nodiscard]] std::optional<Fact> ruling(const Rules& rules, const MatchState& state);
    [[nodiscard]] std::optional<Fact> interruption(const Rules& rules, const MatchState& state);
    [[nodiscard]] std::optional<Fact> replacement(const Rules& rules, const MatchState& state);
    [[nodiscard]] std::optional<Fact> substitution(const Rules& rules, const MatchState& state);
    [[nodiscard]] std::optional<Fact> redesignation(const Rules& rules, const MatchState& state);
    [[nodiscard]] std::optional<Fact> illegal_act(const Rules& rules, const MatchState& state);
    [[nodiscard]] Fact service(const MatchState& state);
    [[nodiscard]] Fact rally(const MatchState& state);
    [[nodiscard]] Team either();

    Dice dice_;
    Habits habits_;
    bool may_undo_ = false;          ///< never twice in a row
    bool acted_ = false;             ///< the last step was an act between two rallies
    std::uint32_t interrupted_ = 0;  ///< acts in this dead ball, bounded
};

/// A team list of invented numbers with two liberos last; the first is captain.
[[nodiscard]] Roster invented_roster(Team team, Dice& dice);
/// A line-up sheet a coach might write: nobody barred, designated liberos kept.
[[nodiscard]] LineUp invented_line_up(const Rules& rules, const MatchState& state, Team team,
                                      Dice& dice);

}  // namespace courthand::sim
