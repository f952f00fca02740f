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

/// Who stands in which slot, kept before every entry. Turned into positions only where a verdict
/// asks for them: most entries raise none.
struct Floor {
    std::array<Jersey, players_on_court> by_slot{};
    Rotation rotation{};

    [[nodiscard]] static Floor of(const TeamSet& team) noexcept {
        Floor f;
        for (std::size_t s = 0; s < players_on_court; ++s) f.by_slot[s] = team.slots[s].on_court;
        f.rotation = team.rotation;
        return f;
    }
    [[nodiscard]] Six by_position() const noexcept {
        Six six{};
        for (const Position p : all_positions) six[index(p)] = by_slot[index(rotation.slot_at(p))];
        return six;
    }
};

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

/// How a reason lives once it is raised; one row a reason in standing.cpp.
enum class Life : std::uint8_t {
    /// Something a team did. Armed until the service hit; goes away if the places are put right.
    act,
    /// Something that is so: looked at when the service is authorised and when it is hit.
    condition,
    /// Something asked for or declared that a referee has to answer at once.
    request,
    /// A service hit by the wrong person: there from the hit on.
    service,
    /// Something on a line-up sheet; goes away with a corrected sheet.
    sheet,
    /// Said once; gone when the next rally is decided.
    notice,
};
[[nodiscard]] Life life_of(Reason reason) noexcept;

/// The players a verdict names: who came in, served or is meant; who went out.
using Named = std::array<Jersey, 2>;

/// A fault to be raised.
struct Fault {
    Reason reason{};
    Team team{};
    Named players{};
    std::uint8_t slot = 0;  ///< 1 + slot, 0 for none
    Places before{};        ///< places to go back to
    std::uint8_t repeat = 0;
    std::uint8_t pairs = 0;  ///< substitutions counted for it
    std::uint8_t slots = 0;  ///< bit s set: it changes slot s
    DesignationBefore designation{};
    Bar bar_before{};   ///< of the player whom an exceptional substitution takes out
};

// standing.cpp: faults that stand and their life.
void raise(Context& c, const Fault& fault) noexcept;
/// Raises `reason` for a team unless it already stands.
void raise_once(Context& c, const Fault& fault) noexcept;
/// A fact that cannot follow what stands in the record.
void out_of_sequence(Context& c, Team team) noexcept;
[[nodiscard]] bool stands(const MatchState& state, Reason reason, Team team) noexcept;
void open_at_whistle(Context& c) noexcept;
void open_at_contact(Context& c) noexcept;
/// Ends conditions that no longer hold: those no service was hit with, and those that cost
/// nothing but to be put right.
void settle_conditions(Context& c) noexcept;
/// A new set ends what stood from the last one, but for an unregistered player: that reaches back.
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
/// Ends the armed faults of a team in a slot, from number `i` on: their acts are now undone.
void end_undone(Context& c, Team team, std::uint8_t slot, std::size_t i) noexcept;
void remove_standing(MatchState& state, std::size_t i) noexcept;
/// Once a verdict was accepted: ends the others of the same act, and those whose rallies it covers.
/// `rally_ended`: the ruling ended a rally in play.
void end_covered(Context& c, const Standing& accepted, const Remedy& remedy,
                 bool rally_ended) noexcept;
[[nodiscard]] Verdict verdict_of(const Rules& rules, const MatchState& state,
                                 const Standing& fault) noexcept;

// remedy.cpp: what the rules prescribe for a standing fault as of now.
[[nodiscard]] Remedy remedy_of(const Rules& rules, const MatchState& state,
                               const Standing& fault) noexcept;
/// True once a service has been hit with the fault, in this rally or an earlier one.
[[nodiscard]] bool played_with(const Standing& fault) noexcept;
/// Rallies that the team won at fault and whose points it still has.
[[nodiscard]] RallyBits points_at_fault(const MatchState& state, const Standing& fault) noexcept;
/// Faults that cost the rally once the service has been hit with them.
[[nodiscard]] bool costs_the_rally(Reason reason) noexcept;
/// `moment_shown`: the record shows since when; otherwise nothing is cancelled.
void apply_remedy(Context& c, const Standing& fault, bool moment_shown) noexcept;
/// Faults of the service itself, for which the moment may be impossible to show.
[[nodiscard]] bool moment_may_be_unknown(Reason reason) noexcept;

// places.cpp: who stands where.
[[nodiscard]] Places places_of(const TeamSet& team) noexcept;
/// The six of a sheet stand in their places, as if none had ever left.
void place_starters(const TeamRecord& record, TeamSet& side, const Six& order) noexcept;
/// Puts a slot back as it was; false, and nothing changes, when that player now stands elsewhere.
bool restore_slot(TeamSet& team, const Places& before, std::size_t slot) noexcept;
/// Slot in which a number stands, or none (as 1 + slot, 0).
[[nodiscard]] std::uint8_t slot_of(const TeamSet& team, Jersey jersey) noexcept;
/// Takes back what a counted substitution in a slot did to its two players.
void uncount_entry(const TeamRecord& record, TeamSet& side, Pair pair, std::size_t slot) noexcept;
[[nodiscard]] bool on_floor(const TeamSet& team, Jersey jersey) noexcept;
[[nodiscard]] bool in_front_row(const TeamSet& team, Jersey jersey) noexcept;
[[nodiscard]] PlayerRecord* find_player(TeamRecord& team, Jersey jersey) noexcept;
[[nodiscard]] PlayerSetRecord* find_set_player(const TeamRecord& team, TeamSet& side,
                                               Jersey jersey) noexcept;
/// Barred from the set now played.
[[nodiscard]] bool barred(const PlayerRecord& player, std::uint8_t set) noexcept;
[[nodiscard]] bool barred(const TeamRecord& team, Jersey jersey, std::uint8_t set) noexcept;
/// A libero of the set who may act as one now: still designated, able, not barred.
[[nodiscard]] bool usable_libero(const MatchState& state, Team team, Jersey jersey) noexcept;
/// A blank libero box of this set has to be settled by a person. Once the liberos of the match are
/// fixed, later sheets need not name them.
[[nodiscard]] bool boxes_matter(const Rules& rules, const MatchState& state, Team team) noexcept;
/// A libero who may not be captain under the rules.
[[nodiscard]] bool libero_barred_as_captain(const Rules& rules, const TeamSet& side,
                                            Jersey jersey) noexcept;
/// Keeps the game captain right after any change of who is on court.
void update_captain(Context& c, Team team) noexcept;

// judge_rally.cpp: points, service and the end of sets.
void award_point(Context& c, Team team) noexcept;
void give_penalty(Context& c, Team at_fault) noexcept;
void contact(Context& c, const Serve& serve) noexcept;
/// Counts a completed rally: it ends what was asked for before and during it, and a libero who
/// became unable in it is no longer excepted from the rally between two replacements.
void complete_rally(SetState& set) noexcept;
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

}  // namespace courthand::rules
