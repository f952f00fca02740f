// What the rules prescribe for a fault, as of now.
#include "rules/context.h"

namespace courthand::rules {
namespace {

/// Some editions take an illegal substitution for an improper request.
[[nodiscard]] Answer answer_of(const Rules& rules, Reason reason) noexcept {
    const Answer answer = describe(reason).answer;
    if (answer != Answer::delay_or_improper) return answer;
    return rules.illegal_request_is_delay != 0 ? Answer::delay : Answer::improper;
}

/// Some editions count an illegal replacement from the whistle on, not only from the service hit.
[[nodiscard]] bool counts_since_whistle(const Rules& rules, const MatchState& state,
                                        const Standing& fault) noexcept {
    const Counts counts = describe(fault.reason).counts;
    const bool replacement = counts == Counts::as_replacement || counts == Counts::as_front_row;
    return replacement && fault.phase == Phase::open && state.set.stage == Stage::whistled &&
           rules.illegal_replacement_opens == Opens::whistle;
}

[[nodiscard]] Action delay_step(const Rules& rules, const TeamRecord& team) noexcept {
    return team.delays + 1 >= rules.delay_brings_point_from ? Action::delay_penalty
                                                            : Action::delay_warning;
}

/// Rallies that the team won at fault and whose points it still has.
[[nodiscard]] RallyBits points_at_fault(const MatchState& state, const Standing& fault) noexcept {
    const SetState& set = state.set;
    const RallyBits won = fault.team == Team::A ? fault.played.in_common(set.won_by_a)
                                                : fault.played.without(set.won_by_a);
    return won.without(set.taken_back);
}

/// A player who is not on the list, found when the set is over: the set is lost as a whole.
[[nodiscard]] bool voids_this_set(const MatchState& state, const Standing& fault) noexcept {
    return reaches_back(fault) && !set_running(state.set.stage) &&
           state.results[state.set.number - 1U].clean[fault.team] != 0;
}

void add_consequences(const Rules& rules, const MatchState& state, const Standing& fault,
                      Remedy& r) noexcept {
    r.score = state.set.score;
    r.serves = state.set.serving;
    const Team other = opponent(fault.team);
    if (state.forfeited != 0) return;
    if (voids_this_set(state, fault)) {
        r.score = clean_score(rules, state, fault.team, state.set.number);
    } else if (r.action == Action::point_and_service) {
        count_down(points(r.score, fault.team), r.cancel);
        if (opponent_has_its_point(rules, fault) || opponent_won_the_set(state, fault)) return;
        ++points(r.score, other);
        r.serves = other;
    } else if (r.action == Action::delay_penalty) {
        ++points(r.score, other);
        r.serves = other;
    }
}

[[nodiscard]] Remedy before_contact(const Rules& rules, const MatchState& state,
                                    const Standing& fault) noexcept {
    const ReasonRow& row = describe(fault.reason);
    const TeamRecord& team = state.team[fault.team];
    Remedy r;
    r.team = fault.team;
    switch (answer_of(rules, fault.reason)) {
        case Answer::delay_when_again:
            r.action = fault.repeat == 0 ? Action::inform : delay_step(rules, team);
            r.restore = fault.repeat != 0;
            break;
        case Answer::delay:
        case Answer::delay_or_improper:
            r.action = delay_step(rules, team);
            r.restore = true;
            break;
        case Answer::improper:
            r.action = team.improper_requests == 0 && rules.first_improper_is_free != 0
                           ? Action::record_only
                           : delay_step(rules, team);
            r.restore = !played_with(fault);
            break;
        case Answer::refuse:
            r.action = Action::refuse;
            r.restore = row.group == Group::designations;
            break;
        case Answer::correct:
            r.action = Action::correct;
            // An act that brought somebody in is taken back; what merely is so, is put right.
            r.restore = fault.undo.changes.slots != 0 || row.lasts == Lasts::in_front_row ||
                        libero_to_go(state.set.team[fault.team], fault) != 0;
            break;
        case Answer::incomplete:
            r.action = Action::incomplete;
            break;
        case Answer::ask:
        case Answer::point:
            r.action = Action::ask;
            break;
    }
    return r;
}

[[nodiscard]] Remedy after_contact(const Rules& rules, const MatchState& state,
                                   const Standing& fault) noexcept {
    const Life life = describe(fault.reason).life;
    Remedy r;
    r.action = Action::point_and_service;
    r.team = opponent(fault.team);
    r.cancel = rallies_to_cancel(rules, state, fault).count();
    r.restore = life == Life::act || life == Life::condition;
    return r;
}

}  // namespace

bool played_with(const Standing& fault) noexcept {
    return fault.in_rally != 0 || fault.played.any();
}

RallyBits rallies_to_cancel(const Rules& rules, const MatchState& state,
                            const Standing& fault) noexcept {
    const RallyBits points = points_at_fault(state, fault);
    return rules.cancellation == Cancellation::since_fault ? points : points.from(fault.term_from);
}

bool opponent_won_the_set(const MatchState& state, const Standing& fault) noexcept {
    return !set_running(state.set.stage) &&
           state.results[state.set.number - 1U].winner == opponent(fault.team);
}

bool opponent_has_its_point(const Rules& rules, const Standing& fault) noexcept {
    if (fault.opponent_won_last == 0 || fault.in_rally != 0) return false;
    // A fault of service costs its rally, which is one point, each by its own text ("When the
    // opponent has won the rally already" in RULES.md). Of an illegal substitution the opponent
    // keeps what it won, and has a point besides.
    return fault.point_given != 0 || describe(fault.reason).life == Life::service ||
           rules.lost_rally_is_the_point == LostRally::of_any_fault;
}

Remedy remedy_of(const Rules& rules, const MatchState& state, const Standing& fault) noexcept {
    // A wrong service has happened, also when its rally was then replayed.
    const bool counts = played_with(fault) || counts_since_whistle(rules, state, fault) ||
                        describe(fault.reason).life == Life::service;
    Remedy r = costs_the_rally(fault) && counts ? after_contact(rules, state, fault)
                                                : before_contact(rules, state, fault);
    add_consequences(rules, state, fault, r);
    return r;
}

}  // namespace courthand::rules
