// What every part of the judge works on: the rules, the state being moved and the verdicts raised.
// Internal to shared-core/rules.
#pragma once

#include <algorithm>
#include <array>

#include "courthand/match/entry.h"
#include "courthand/match/state.h"
#include "courthand/rules/profile.h"
#include "courthand/rules/verdict.h"

namespace courthand::rules {

/// Lends the state to one call of `apply`.
struct Context {
    const Rules& rules;
    MatchState& state;
    EntryNumber entry;
    VerdictList& raised;
    PerTeam<Floor> before;  ///< both floors before the entry, as evidence

    [[nodiscard]] SetState& set() const noexcept { return state.set; }
    [[nodiscard]] TeamSet& side(Team team) const noexcept { return state.set.team[team]; }
    [[nodiscard]] TeamRecord& record(Team team) const noexcept { return state.team[team]; }
    [[nodiscard]] bool ball_dead() const noexcept { return state.set.stage == Stage::dead_ball; }
};

/// Counts of a record stop at their greatest value instead of starting again from nothing.
inline void count_up(std::uint8_t& count) noexcept {
    if (count < UINT8_MAX) ++count;
}

inline void count_down(std::uint8_t& count, std::uint8_t by) noexcept {
    count = static_cast<std::uint8_t>(count - std::min(count, by));
}

[[nodiscard]] inline std::uint8_t& points(Score& score, Team team) noexcept {
    return team == Team::A ? score.a : score.b;
}
[[nodiscard]] inline std::uint8_t points(const Score& score, Team team) noexcept {
    return team == Team::A ? score.a : score.b;
}

/// The players a verdict names: who came in, served or is meant; who went out.
using Named = std::array<Jersey, 2>;

/// A fault to be raised. How its team stood before it, `raise` sees for itself.
struct Fault {
    Reason reason{};
    Team team{};
    Named players{};
    std::uint8_t slot = 0;  ///< 1 + slot, 0 for none
    Changes changes{};      ///< what the act goes on to do
    std::uint8_t repeat = 0;
};

// standing.cpp: faults that stand and their life.
void raise(Context& c, const Fault& fault) noexcept;
/// Some fault that stands is such a one.
template <class Such>
[[nodiscard]] bool any_fault(const MatchState& state, Such such) noexcept {
    const auto faults = state.faults();
    return std::any_of(faults.begin(), faults.end(), such);
}
/// Raises `fault` unless its reason already stands for its team.
void raise_once(Context& c, const Fault& fault) noexcept;
[[nodiscard]] bool stands(const MatchState& state, Reason reason, Team team) noexcept;
/// Opens what counts from the whistle on.
void open_at_whistle(Context& c) noexcept;
/// Opens all that is armed.
void open_at_contact(Context& c) noexcept;
/// Ends what no service was hit with, or costs nothing but to be put right, and is so no longer.
void settle(Context& c) noexcept;
/// A new set ends what stood from the last one, but for what reaches back into finished sets.
void end_old_sets(Context& c) noexcept;
/// Ends what is armed: with the set there is no service left that it could count at.
void end_armed(Context& c) noexcept;
/// Ends all that stands: the match is played anew.
void end_all(Context& c) noexcept;
/// Ends what was only to be said once.
void end_notices(Context& c) noexcept;
/// Ends the calls on a team's positions in this rally: it ends as the referee called it.
void end_calls_on(Context& c, Team team) noexcept;
/// Ends armed sheet faults of a team, before its new sheet is judged.
void end_sheet_faults(Context& c, Team team) noexcept;
/// Ends what stands of a team for this reason: what it is about has been said anew.
void end_said_anew(Context& c, Team team, Reason reason) noexcept;
/// Ends the armed faults of a team in a slot, from number `i` on: their acts are now undone.
void end_undone(Context& c, Team team, std::uint8_t slot, std::size_t i) noexcept;
/// Takes number `i` from the list, whatever becomes of it.
void remove_standing(MatchState& state, std::size_t i) noexcept;
/// Once a verdict was accepted: ends the others of the same act, and those whose rallies it covers.
/// `rally_ended`: the ruling ended a rally in play. `point_given`: it gave the opponent a point,
/// and did not find one in a rally that the opponent had won.
void end_covered(Context& c, const Standing& accepted, const Remedy& remedy, bool rally_ended,
                 bool point_given) noexcept;
[[nodiscard]] Verdict verdict_of(const Rules& rules, const MatchState& state,
                                 const Standing& fault) noexcept;

/// Who hits a service.
struct Server {
    Team team{};
    Jersey jersey{};
};

// lasting.cpp: whether a fault goes on.
/// Before a service: what the verdict tells of is still so.
[[nodiscard]] bool still_so(const MatchState& state, const Standing& fault) noexcept;
/// The team plays with the fault in the rally that `server` begins now.
[[nodiscard]] bool played_now(const MatchState& state, const Standing& fault,
                              Server server) noexcept;
[[nodiscard]] bool box_blank(const TeamSet& side) noexcept;

// judge_conditions.cpp
/// Raises what merely is so and must not be when a service is authorised or hit.
void look_at_conditions(Context& c) noexcept;

// undo.cpp: what an act has done, and how it is taken back.
/// The image kept with a fault that is raised now.
[[nodiscard]] Undo undo_of(const MatchState& state, const Fault& fault) noexcept;
/// The team itself puts the place of an armed fault back; false, and nothing changes, when its
/// player now stands elsewhere.
[[nodiscard]] bool put_back(TeamSet& side, const Standing& fault) noexcept;
/// The clock of libero replacements as it was before the fault.
void put_clock_back(TeamSet& side, const Undo& undo) noexcept;
/// A referee has it taken back: what the act did, whatever has been done since stays.
void take_back(Context& c, const Standing& fault) noexcept;
/// The place (as 1 + slot) of an acting libero who may not be on court at all, or 0.
[[nodiscard]] std::uint8_t libero_to_go(const TeamSet& side, const Standing& fault) noexcept;

// remedy.cpp: what the rules prescribe for a standing fault as of now.
[[nodiscard]] Remedy remedy_of(const Rules& rules, const MatchState& state,
                               const Standing& fault) noexcept;
/// True once a service has been hit with the fault, in this rally or an earlier one.
[[nodiscard]] bool played_with(const Standing& fault) noexcept;
/// The rallies whose points the profile takes back.
[[nodiscard]] RallyBits rallies_to_cancel(const Rules& rules, const MatchState& state,
                                          const Standing& fault) noexcept;
/// A libero may serve from this slot (1 + slot): where the profile lets liberos serve at all, from
/// the one place of the set from which one has served.
[[nodiscard]] inline bool libero_may_serve_from(const Rules& rules, const TeamSet& side,
                                                std::uint8_t slot) noexcept {
    return rules.libero_serving_positions != 0 &&
           (side.serving_slot == 0 || side.serving_slot == slot);
}
/// The set is over and went to the opponent: it has no further point to give.
[[nodiscard]] bool opponent_won_the_set(const MatchState& state, const Standing& fault) noexcept;
/// The rally last decided with the fault already gave the opponent the point that the fault gives.
[[nodiscard]] bool opponent_has_its_point(const Rules& rules, const Standing& fault) noexcept;
/// Faults that cost the rally once the service has been hit with them.
[[nodiscard]] inline bool costs_the_rally(const Standing& fault) noexcept {
    return describe(fault.reason).costs != Costs::nothing;
}
/// A player on no list taints also what his team won in sets that are finished.
[[nodiscard]] inline bool reaches_back(const Standing& fault) noexcept {
    return describe(fault.reason).costs == Costs::sets;
}

// places.cpp: who stands where.
[[nodiscard]] Six by_position(const Floor& floor, Rotation rotation) noexcept;
/// The six of a sheet stand in their places, as if none had ever left.
void place_starters(const TeamRecord& record, TeamSet& side, const Six& order) noexcept;
/// Slot in which a number stands, or none (as 1 + slot, 0).
[[nodiscard]] std::uint8_t slot_of(const TeamSet& team, Jersey jersey) noexcept;
/// The bit of a slot (as 1 + slot) in `Changes::slots`.
[[nodiscard]] constexpr std::uint8_t bit_of(std::uint8_t slot) noexcept {
    return slot == 0 ? std::uint8_t{0} : static_cast<std::uint8_t>(1U << (slot - 1U));
}
[[nodiscard]] bool on_floor(const TeamSet& team, Jersey jersey) noexcept;
[[nodiscard]] bool in_front_row(const TeamSet& team, Jersey jersey) noexcept;
[[nodiscard]] PlayerRecord* find_player(TeamRecord& team, Jersey jersey) noexcept;
[[nodiscard]] PlayerSetRecord* find_set_player(const TeamRecord& team, TeamSet& side,
                                               Jersey jersey) noexcept;
/// Barred from the set.
[[nodiscard]] bool barred(const TeamRecord& team, Jersey jersey, std::uint8_t set) noexcept;
/// A libero of the set who may act as one now: still designated, able, not barred.
[[nodiscard]] bool usable_libero(const MatchState& state, Team team, Jersey jersey) noexcept;
/// Whom the re-designation of `out` puts out of the role: himself and any other who is unable.
[[nodiscard]] bool goes_out(const PlayerRecord& player, Jersey out) noexcept;
/// A blank libero box of this set has to be settled by a person. Once the liberos of the match are
/// fixed, later sheets need not name them.
[[nodiscard]] bool boxes_matter(const Rules& rules, const MatchState& state, Team team) noexcept;
/// A libero who may not be captain under the rules.
[[nodiscard]] bool libero_barred_as_captain(const Rules& rules, const TeamSet& side,
                                            Jersey jersey) noexcept;
/// Keeps the game captain right after any change of who is on court.
void update_captain(Context& c, Team team) noexcept;

// judge_course.cpp
/// A fact that cannot follow what stands in the record.
void out_of_sequence(Context& c, Team team) noexcept;

// judge_rally.cpp: points, service and the end of sets.
void award_point(Context& c, Team team) noexcept;
void give_penalty(Context& c, Team at_fault) noexcept;
void contact(Context& c, const Serve& serve) noexcept;
/// Counts a completed rally: it ends what was asked for before and during it, and a libero who
/// became unable in it is no longer excepted from the rally between two replacements.
void complete_rally(SetState& set) noexcept;
/// What gave the last point.
enum class Point : std::uint8_t { of_rally, of_ruling };
/// The rally that has just been counted ends for every fault that it was played with.
void end_rally_of_faults(Context& c, Team winner, Point point) noexcept;
void finish_set_if_won(Context& c) noexcept;
void finish_set(Context& c, Team winner) noexcept;
void reopen_set(Context& c) noexcept;
/// Takes from a team what it won in finished sets with a player who is not on its list.
void void_finished_sets(Context& c, Team team) noexcept;
/// The score of a tainted finished set without what `team` won in it since then.
[[nodiscard]] Score clean_score(const Rules& rules, const MatchState& state, Team team,
                                std::uint8_t number) noexcept;
[[nodiscard]] bool finished_sets_tainted(const MatchState& state, Team team) noexcept;
void finish_match(Context& c, Team winner) noexcept;
[[nodiscard]] bool switch_due(const MatchState& state) noexcept;
[[nodiscard]] bool set_running(Stage stage) noexcept;
/// A set is on and play is not interrupted.
[[nodiscard]] bool playable(const SetState& set) noexcept;
/// The rally in play does not count and is played again.
void stop_rally(Context& c) noexcept;

// judge_substitution.cpp
/// The first reason against one regular pair, or nothing.
struct Objection {
    bool any = false;
    Reason reason{};
};
[[nodiscard]] Objection objection_to_pair(const Rules& rules, const MatchState& state, Team team,
                                          Pair pair) noexcept;
/// True when some player of the list could replace `out` by a regular substitution.
[[nodiscard]] bool regular_substitute_exists(const Rules& rules, const MatchState& state, Team team,
                                             Jersey out) noexcept;
[[nodiscard]] bool exceptional_substitute_exists(const Rules& rules, const MatchState& state,
                                                 Team team, Jersey out) noexcept;

// One function a kind of fact.
void judge_fact(Context& c, const MatchOpened& fact) noexcept;
void judge_fact(Context& c, const Roster& fact) noexcept;
void judge_fact(Context& c, const Toss& fact) noexcept;
void judge_fact(Context& c, const SetStarted& fact) noexcept;
void judge_fact(Context& c, const LineUp& fact) noexcept;
void judge_fact(Context& c, const LiberoBoxSettled& fact) noexcept;
void judge_fact(Context& c, const LineUpChecked& fact) noexcept;
void judge_fact(Context& c, const Whistle& fact) noexcept;
void judge_fact(Context& c, const Serve& fact) noexcept;
void judge_fact(Context& c, const RallyWon& fact) noexcept;
void judge_fact(Context& c, const Replay& fact) noexcept;
void judge_fact(Context& c, const PositionalFault& fact) noexcept;
void judge_fact(Context& c, const LiberoReplacement& fact) noexcept;
void judge_fact(Context& c, const Substitution& fact) noexcept;
void judge_fact(Context& c, const ExceptionalSubstitution& fact) noexcept;
void judge_fact(Context& c, const TimeOut& fact) noexcept;
void judge_fact(Context& c, const GameCaptain& fact) noexcept;
void judge_fact(Context& c, const LiberoUnable& fact) noexcept;
void judge_fact(Context& c, const Redesignation& fact) noexcept;
void judge_fact(Context& c, const Misconduct& fact) noexcept;
void judge_fact(Context& c, const Delay& fact) noexcept;
void judge_fact(Context& c, const ImproperRequest& fact) noexcept;
void judge_fact(Context& c, const Injury& fact) noexcept;
void judge_fact(Context& c, const Recovery& fact) noexcept;
void judge_fact(Context& c, const CourtSwitch& fact) noexcept;
void judge_fact(Context& c, const Interval& fact) noexcept;
void judge_fact(Context& c, const Interrupted& fact) noexcept;
void judge_fact(Context& c, const Resumed& fact) noexcept;
void judge_fact(Context& c, const Ruling& fact) noexcept;
void judge_fact(Context& c, const Incomplete& fact) noexcept;
void judge_fact(Context& c, const Default& fact) noexcept;
void judge_fact(Context& c, const Protest& fact) noexcept;
void judge_fact(Context& c, const ScoreCorrection& fact) noexcept;
void judge_fact(Context& c, const Note& fact) noexcept;
void judge_fact(Context& c, const Signature& fact) noexcept;

}  // namespace courthand::rules
