// A referee's ruling on a verdict that stands.
#include "rules/context.h"

namespace courthand::rules {
namespace {

/// Another verdict on the same act waits for its ruling.
[[nodiscard]] bool act_still_stands(const MatchState& state, const Standing& fault) noexcept {
    for (std::size_t i = 0; i < state.standing_count; ++i) {
        const Standing& other = state.standing[i];
        if (other.entry == fault.entry && other.team == fault.team && other.slot == fault.slot &&
            life_of(other.reason) == Life::act)
            return true;
    }
    return false;
}

/// An act whose faults are all overruled leaves the court as it is, and from now on that is how it
/// should be.
void accept_places(Context& c, const Standing& fault) noexcept {
    if (fault.slot == 0 || act_still_stands(c.state, fault)) return;
    SlotRecord& place = c.side(fault.team).slots[fault.slot - 1U];
    if (life_of(fault.reason) != Life::act || place.on_court != fault.players[0]) return;
    if (!place.replaced.worn()) place.regular = place.on_court;
}

/// Once no verdict on a stranger is left, what was won with him in this set is taken: the set is
/// clean until he plays on.
void clean_set(Context& c, Team team) noexcept {
    if (stands(c.state, Reason::player_unregistered, team)) return;
    c.side(team).clean = 0;
    if (!set_running(c.set().stage)) c.state.results[c.set().number - 1U].clean[team] = 0;
}

}  // namespace

void judge_fact(Context& c, const Ruling& fact) noexcept {
    for (std::size_t i = 0; i < c.state.standing_count; ++i) {
        const Standing fault = c.state.standing[i];
        if (fault.reason != fact.reason || fault.team != fact.team) continue;
        const bool moment_shown = fact.decision != Ruling::Decision::accept_moment_unknown;
        if (!moment_shown && !moment_may_be_unknown(fault.reason)) break;
        Verdict v = verdict_of(c.rules, c.state, fault);
        if (!moment_shown) v.remedy.cancel = 0;
        v.before = c.before[fault.team].by_position();
        remove_standing(c.state, i);
        if (fact.decision != Ruling::Decision::overrule) {
            const Stage stage = c.set().stage;
            const bool rally_ended = v.remedy.action == Action::point_and_service &&
                                     (stage == Stage::in_play || stage == Stage::whistled);
            apply_remedy(c, fault, moment_shown);
            end_covered(c, fault, v.remedy, rally_ended);
            if (v.remedy.action == Action::point_and_service) clean_set(c, fault.team);
            v.phase = Phase::accepted;
        } else {
            accept_places(c, fault);
            // A referee who lets a stranger play lets his team keep what it has won with him.
            if (fault.reason == Reason::player_unregistered) clean_set(c, fault.team);
            v.phase = Phase::overruled;
        }
        c.raised.add(v);
        return;
    }
    out_of_sequence(c, fact.team);
}

}  // namespace courthand::rules
