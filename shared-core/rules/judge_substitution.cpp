// Substitutions, exceptional substitutions and time-outs.
#include "rules/context.h"

namespace courthand::rules {
namespace {

[[nodiscard]] const PlayerSetRecord* set_player(const MatchState& state, Team team,
                                                Jersey jersey) noexcept {
    const PlayerRecord* player = find(state.team[team], jersey);
    return player == nullptr
               ? nullptr
               : &state.set.team[team]
                      .players[static_cast<std::size_t>(player - state.team[team].players.data())];
}

constexpr Objection no_objection{};
[[nodiscard]] constexpr Objection because(Reason reason) noexcept {
    return {true, reason};
}

/// One starter, one substitute: out once, back once, only for each other.
[[nodiscard]] Objection objection_to_locked_pair(const MatchState& state, Team team, Pair pair,
                                                 const SlotRecord& slot) noexcept {
    const PlayerSetRecord& in = *set_player(state, team, pair.in);
    if (pair.in == slot.starter) {
        if (in.entered > 0) return because(Reason::sub_reentry_used);
        return pair.out == slot.substitute ? no_objection : because(Reason::sub_wrong_pair);
    }
    if (in.bound != 0 && in.entered == 0) return because(Reason::sub_wrong_pair);
    if (in.entered > 0) return because(Reason::sub_reentry_used);
    if (pair.out != slot.starter) return because(Reason::sub_wrong_pair);
    const PlayerSetRecord* out = set_player(state, team, pair.out);
    if (out != nullptr && out->left > 0) return because(Reason::sub_reentry_used);
    return no_objection;
}

[[nodiscard]] Objection objection_to_position(const MatchState& state, Team team, Pair pair,
                                              std::uint8_t slot) noexcept {
    const PlayerSetRecord& in = *set_player(state, team, pair.in);
    if (in.bound != 0 && in.bound != slot) return because(Reason::sub_wrong_position);
    return no_objection;
}

/// Someone who must leave the court: the request for him is always allowed.
[[nodiscard]] bool forced(const MatchState& state, Team team, Jersey out) noexcept {
    return barred(state.team[team], out, state.set.number) ||
           (out.worn() && state.set.team[team].injured == out);
}

[[nodiscard]] bool all_forced(const MatchState& state, const Substitution& fact) noexcept {
    for (std::size_t i = 0; i < fact.count; ++i)
        if (!forced(state, fact.team, fact.pairs[i].out)) return false;
    return fact.count > 0;
}

[[nodiscard]] Objection objection_to_request(const Context& c, const Substitution& fact) noexcept {
    const SetState& set = c.set();
    const TeamSet& side = c.side(fact.team);
    if (set.stage == Stage::in_play || set.stage == Stage::whistled)
        return because(Reason::improper_request);
    if (side.lineup_in == 0) return because(Reason::sub_before_set);
    if (set.rallies == 0 && set.completed == 0 && c.rules.sub_before_first_serve == 0)
        return because(Reason::sub_before_set);
    if (all_forced(c.state, fact)) return no_objection;
    if (side.request_made != 0) return because(Reason::sub_second_request);
    if (set.replaying != 0 && c.rules.requests_after_replay == 0)
        return because(Reason::sub_no_completed_rally);
    if (side.rejected != 0 && c.rules.rejection_bars_requests != 0)
        return because(Reason::sub_after_rejection);
    return no_objection;
}

void count_entry(Context& c, Team team, Pair pair, std::uint8_t slot) noexcept {
    // Nobody comes in legally who is not on the list; a stranger may well go off.
    PlayerSetRecord& in = *find_set_player(c.record(team), c.side(team), pair.in);
    count_up(in.entered);
    in.bound = slot;
    if (PlayerSetRecord* out = find_set_player(c.record(team), c.side(team), pair.out))
        count_up(out->left);
    SlotRecord& place = c.side(team).slots[slot - 1U];
    if (!place.substitute.worn() && pair.in != place.starter) place.substitute = pair.in;
}

/// The captain's place, the count and the court, whatever the rules say of the pair.
void carry_out(Context& c, Team team, Pair pair, std::uint8_t slot, bool legal) noexcept {
    TeamSet& side = c.side(team);
    SlotRecord& place = side.slots[slot - 1U];
    place.on_court = pair.in;
    place.replaced = Jersey::none();
    count_up(side.substitutions);
    if (legal) {
        place.regular = pair.in;
        count_entry(c, team, pair, slot);
    }
    update_captain(c, team);
}

/// A pair that puts back what an armed illegal substitution had changed is no substitution.
[[nodiscard]] bool puts_right(Context& c, Team team, Pair pair, std::uint8_t slot) noexcept {
    for (std::size_t i = 0; i < c.state.standing_count; ++i) {
        const Standing& fault = c.state.standing[i];
        if (fault.team != team || fault.phase != Phase::armed || fault.slot != slot) continue;
        if (fault.players[0] != pair.out) continue;
        if (fault.undo.floor.slots[slot - 1U].on_court != pair.in) continue;
        if (!put_back(c.side(team), fault)) continue;
        update_captain(c, team);
        end_undone(c, team, slot, i);
        return true;
    }
    return false;
}

/// Carries out the pairs that only put an armed fault right, and gives back the others: what is
/// put right in time is no request.
[[nodiscard]] Substitution without_corrections(Context& c, const Substitution& given) noexcept {
    Substitution rest{given.team, 0, {}};
    for (std::size_t i = 0; i < given.count && i < most_pairs; ++i) {
        const Pair pair = given.pairs[i];
        const std::uint8_t slot = slot_of(c.side(given.team), pair.out);
        if (slot == 0 || !puts_right(c, given.team, pair, slot)) rest.pairs[rest.count++] = pair;
    }
    return rest;
}

[[nodiscard]] bool possible(const TeamSet& side, Pair pair) noexcept {
    return slot_of(side, pair.out) != 0 && !on_floor(side, pair.in);
}

/// What became of a pair: nobody came in, he did, or he did legally and was counted.
enum class PairDone : std::uint8_t { not_possible, came_in, counted };

[[nodiscard]] PairDone judge_pair(Context& c, Team team, Pair pair) noexcept {
    const TeamSet& side = c.side(team);
    const std::uint8_t slot = slot_of(side, pair.out);
    const Objection objection = objection_to_pair(c.rules, c.state, team, pair);
    const bool happens = possible(side, pair);
    if (objection.any) {
        const Changes act = happens ? Changes{bit_of(slot), 1, 0} : Changes{};
        raise(c, {objection.reason, team, {pair.in, pair.out}, slot, act});
    }
    if (!happens) return PairDone::not_possible;
    carry_out(c, team, pair, slot, !objection.any);
    return objection.any ? PairDone::came_in : PairDone::counted;
}

/// Whom a request has brought in.
struct Entries {
    Six players{};
    std::uint8_t counted = 0;  ///< bit i set: legally
};

[[nodiscard]] Entries judge_pairs(Context& c, const Substitution& fact) noexcept {
    Entries entered;
    for (std::uint8_t i = 0; i < fact.count; ++i) {
        const PairDone done = judge_pair(c, fact.team, fact.pairs[i]);
        if (done != PairDone::not_possible) entered.players[i] = fact.pairs[i].in;
        if (done == PairDone::counted)
            entered.counted = static_cast<std::uint8_t>(entered.counted | 1U << i);
    }
    return entered;
}

/// Keeps with the verdict on a request whom it has brought in, to take it back. The fact says only
/// who was asked for: who came in, and counted, is known once its pairs have been carried out,
/// which is after the verdict on the request was raised with its image of the team.
void remember_entries(Context& c, Team team, const Entries& entered) noexcept {
    for (Standing& fault : c.state.faults()) {
        if (fault.entry != c.entry || fault.team != team) continue;
        if (describe(fault.reason).life != Life::request) continue;
        fault.undo.entered = entered.players;
        fault.undo.counted = entered.counted;
    }
}

/// A request that may not be made is one verdict, whatever number of pairs it holds; taking it back
/// takes all of them back.
void raise_request(Context& c, const Substitution& fact, Reason reason) noexcept {
    const TeamSet& side = c.side(fact.team);
    const Pair first = fact.pairs[0];
    Changes act;
    TeamSet then = side;  // a pair may wait for the one before it
    for (std::size_t i = 0; i < fact.count; ++i) {
        if (!possible(then, fact.pairs[i])) continue;
        const std::uint8_t slot = slot_of(then, fact.pairs[i].out);
        then.slots[slot - 1U].on_court = fact.pairs[i].in;
        ++act.pairs;
        act.slots = static_cast<std::uint8_t>(act.slots | bit_of(slot));
    }
    raise(c, {reason, fact.team, {first.in, first.out}, slot_of(side, first.out), act});
}

[[nodiscard]] Objection objection_to_exception(const Context& c,
                                               const ExceptionalSubstitution& fact) noexcept {
    const TeamSet& side = c.side(fact.team);
    const TeamRecord& record = c.record(fact.team);
    const bool sanction = fact.cause == Cause::expulsion || fact.cause == Cause::disqualification;
    if (!on_floor(side, fact.out)) return because(Reason::sub_player_not_on_court);
    if (on_floor(side, fact.in)) return because(Reason::sub_player_on_court);
    if (find(record, fact.in) == nullptr) return because(Reason::sub_not_on_roster);
    if (acts_as_libero(side, fact.out)) return because(Reason::libero_in_substitution);
    if (acts_as_libero(side, fact.in) && c.rules.libero_may_enter_exceptionally == 0)
        return because(Reason::libero_in_substitution);
    if (barred(record, fact.in, c.set().number)) return because(Reason::exceptional_not_allowed);
    if (sanction && c.rules.exceptional_for_sanction == 0)
        return because(Reason::exceptional_not_allowed);
    for (const SlotRecord& slot : side.slots)
        if (slot.replaced == fact.in) return because(Reason::exceptional_not_allowed);
    if (regular_substitute_exists(c.rules, c.state, fact.team, fact.out))
        return because(Reason::exceptional_not_needed);
    return no_objection;
}

[[nodiscard]] Objection objection_to_time_out(const Context& c, Team team) noexcept {
    const SetState& set = c.set();
    const TeamSet& side = c.side(team);
    if (set.stage == Stage::in_play || set.stage == Stage::whistled)
        return because(Reason::improper_request);
    if (side.time_outs >= c.rules.time_outs) return because(Reason::timeout_limit);
    if (side.rejected != 0 && c.rules.rejection_bars_requests != 0)
        return because(Reason::sub_after_rejection);
    return no_objection;
}

}  // namespace

Objection objection_to_pair(const Rules& rules, const MatchState& state, Team team,
                            Pair pair) noexcept {
    const TeamSet& side = state.set.team[team];
    const TeamRecord& record = state.team[team];
    const std::uint8_t slot = slot_of(side, pair.out);
    if (slot == 0) return because(Reason::sub_player_not_on_court);
    if (on_floor(side, pair.in)) return because(Reason::sub_player_on_court);
    const SlotRecord& place = side.slots[slot - 1U];
    if (place.replaced.worn() || acts_as_libero(side, pair.in) || acts_as_libero(side, pair.out))
        return because(Reason::libero_in_substitution);
    const PlayerRecord* in = find(record, pair.in);
    if (in == nullptr) return because(Reason::sub_not_on_roster);
    if (barred(record, pair.in, state.set.number)) return because(Reason::player_barred);
    if (in->libero == LiberoRole::replaced) return because(Reason::redesignated_player_returns);
    // A player who is off for the libero holds his own place and no other.
    for (const SlotRecord& other : side.slots)
        if (other.replaced == pair.in) return because(Reason::sub_wrong_pair);
    if (side.substitutions >= rules.substitutions) return because(Reason::sub_limit);
    return rules.scheme == SubstitutionScheme::pair
               ? objection_to_locked_pair(state, team, pair, place)
               : objection_to_position(state, team, pair, slot);
}

bool regular_substitute_exists(const Rules& rules, const MatchState& state, Team team,
                               Jersey out) noexcept {
    const TeamRecord& record = state.team[team];
    for (std::size_t i = 0; i < record.count; ++i)
        if (!objection_to_pair(rules, state, team, {record.players[i].jersey, out}).any)
            return true;
    return false;
}

bool exceptional_substitute_exists(const Rules& rules, const MatchState& state, Team team,
                                   Jersey out) noexcept {
    const TeamSet& side = state.set.team[team];
    const TeamRecord& record = state.team[team];
    for (std::size_t i = 0; i < record.count; ++i) {
        const Jersey in = record.players[i].jersey;
        bool held = false;
        for (const SlotRecord& slot : side.slots) held = held || slot.replaced == in;
        const bool libero = acts_as_libero(side, in) && rules.libero_may_enter_exceptionally == 0;
        if (in != out && !held && !libero && !on_floor(side, in) &&
            !barred(record, in, state.set.number))
            return true;
    }
    return false;
}

void judge_fact(Context& c, const Substitution& given) noexcept {
    if (!playable(c.set())) {
        out_of_sequence(c, given.team);
        return;
    }
    const Substitution fact = without_corrections(c, given);
    if (fact.count == 0 && given.count > 0) return;
    const Objection request = objection_to_request(c, fact);
    // During a rally there is no interruption that the request could belong to.
    const bool in_interruption = c.set().stage != Stage::in_play && !all_forced(c.state, fact);
    if (request.any) raise_request(c, fact, request.reason);
    const Entries entered = judge_pairs(c, fact);
    if (request.any) remember_entries(c, fact.team, entered);
    if (in_interruption) c.side(fact.team).request_made = 1;
}

void judge_fact(Context& c, const ExceptionalSubstitution& fact) noexcept {
    TeamSet& side = c.side(fact.team);
    if (c.set().interrupted != 0) {
        out_of_sequence(c, fact.team);
        return;
    }
    const std::uint8_t slot = slot_of(side, fact.out);
    const Objection objection = objection_to_exception(c, fact);
    if (objection.any)
        raise(
            c,
            {objection.reason, fact.team, {fact.in, fact.out}, slot, Changes{bit_of(slot), 0, 1}});
    if (slot == 0 || on_floor(side, fact.in)) return;
    SlotRecord& place = side.slots[slot - 1U];
    place.on_court = fact.in;
    place.replaced = Jersey::none();
    // What a referee may take back gives nobody a right to the place.
    // Nothing of it is a regular substitution: it binds nobody to the place either.
    if (!objection.any || describe(objection.reason).life == Life::notice) place.regular = fact.in;
    PlayerRecord* out = find_player(c.record(fact.team), fact.out);
    if (out != nullptr && out->bar != Bar::disqualified) out->bar = Bar::injured_out;
    count_up(side.exceptional);
    update_captain(c, fact.team);
}

void judge_fact(Context& c, const TimeOut& fact) noexcept {
    TeamSet& side = c.side(fact.team);
    if (!playable(c.set())) {
        out_of_sequence(c, fact.team);
        return;
    }
    const Objection objection = objection_to_time_out(c, fact.team);
    if (objection.any)
        raise(c, {objection.reason, fact.team});
    else if (c.rules.second_request_after_time_out != 0)
        c.side(Team::A).request_made = c.side(Team::B).request_made = 0;
    count_up(side.time_outs);
}

}  // namespace courthand::rules
