// A referee's ruling on a verdict that stands, and what it brings about.
#include "rules/context.h"

namespace courthand::rules {
namespace {

/// A verdict on who has come in; also one on a person who may not, when he came in by an act. What
/// is only said to the captain undoes nothing.
[[nodiscard]] bool about_an_act(const Standing& fault) noexcept {
    const Life life = describe(fault.reason).life;
    if (life == Life::notice && fault.repeat == 0) return false;
    return life == Life::act || (life != Life::request && fault.undo.changes.slots != 0);
}

/// Another verdict on the same act, or one on a later act in its place, waits for its ruling.
[[nodiscard]] bool place_in_question(const MatchState& state, const Standing& fault) noexcept {
    return any_fault(state, [&fault](const Standing& other) {
        return other.entry >= fault.entry && other.team == fault.team && other.slot == fault.slot &&
               about_an_act(other);
    });
}

/// A substitute whom a referee lets play has come in: no other time in this set is open.
void count_let_in(Context& c, const Standing& fault) noexcept {
    TeamSet& side = c.side(fault.team);
    for (const SlotRecord& slot : side.slots)
        if (slot.starter == fault.players[0]) return;  // a starter keeps the right to return
    PlayerSetRecord* in = find_set_player(c.record(fault.team), side, fault.players[0]);
    if (in != nullptr) count_up(in->entered);
}

/// An act whose faults are all overruled leaves the court as it is, and from now on that is how it
/// should be.
void accept_places(Context& c, const Standing& fault) noexcept {
    if (fault.slot == 0 || place_in_question(c.state, fault)) return;
    SlotRecord& place = c.side(fault.team).slots[fault.slot - 1U];
    if (!about_an_act(fault) || place.on_court != fault.players[0]) return;
    if (place.replaced.worn()) return;
    place.regular = place.on_court;
    if (fault.undo.changes.pairs != 0) count_let_in(c, fault);
}

/// Once no verdict on a stranger is left, what was won with him in this set is taken: the set is
/// clean until he plays on.
void clean_set(Context& c, Team team) noexcept {
    const auto stranger = [team](const Standing& fault) {
        return fault.team == team && reaches_back(fault);
    };
    if (any_fault(c.state, stranger)) return;
    c.side(team).clean = 0;
    if (!set_running(c.set().stage)) c.state.results[c.set().number - 1U].clean[team] = 0;
}

void take_points_back(Context& c, const Standing& fault, std::uint8_t cancel) noexcept {
    SetState& set = c.set();
    count_down(points(set.score, fault.team), cancel);
    if (cancel > 0) set.taken_back.add_all(rallies_to_cancel(c.rules, c.state, fault));
    // The rally just decided is turned round: its side-out and rotation did not happen.
    const bool turned_round = fault.won_receiving != 0 && cancel > 0;
    if (turned_round && set.serving == fault.team) {
        c.side(fault.team).rotation.back();
        set.serving = opponent(fault.team);
    }
}

[[nodiscard]] bool in_rally(Stage stage) noexcept {
    return stage == Stage::in_play || stage == Stage::whistled;
}

void give_point(Context& c, const Standing& fault, const Remedy& remedy) noexcept {
    SetState& set = c.set();
    const bool no_point =
        opponent_has_its_point(c.rules, fault) || opponent_won_the_set(c.state, fault);
    if (set.stage == Stage::set_over || set.stage == Stage::match_over) reopen_set(c);
    const bool ends_rally = in_rally(set.stage);
    take_points_back(c, fault, remedy.cancel);
    if (remedy.restore) take_back(c, fault);
    if (ends_rally) {
        ++set.rallies;
        complete_rally(set);
        if (fault.team == Team::B) set.won_by_a.add(set.rallies);
        set.taken_back.add(set.rallies);  // its point is the ruling's: no other fault takes it back
        set.stage = Stage::dead_ball;
    }
    if (no_point)
        finish_set_if_won(c);
    else
        award_point(c, opponent(fault.team));
}

void sanction(Context& c, const Standing& fault, const Remedy& remedy) noexcept {
    count_up(c.record(fault.team).delays);
    if (remedy.restore) take_back(c, fault);
    // A request answered with a delay bars the team from asking again before a rally.
    const bool still_asked = fault.completed == c.set().completed;
    if (still_asked && describe(fault.reason).group == Group::requests)
        c.side(fault.team).rejected = 1;
    if (remedy.action == Action::delay_penalty) give_penalty(c, fault.team);
}

/// Does what the remedy says.
void carry_out(Context& c, const Standing& fault, const Remedy& remedy) noexcept {
    // A match that was given up has no points left to give.
    if (c.state.forfeited != 0) return;
    if (reaches_back(fault)) void_finished_sets(c, fault.team);
    // A set that is lost as a whole, or a match that is decided by one, has no point to give.
    const bool lost_already = reaches_back(fault) && !set_running(c.set().stage);
    switch (remedy.action) {
        case Action::point_and_service:
            if (!lost_already) give_point(c, fault, remedy);
            return;
        case Action::delay_warning:
        case Action::delay_penalty:
            sanction(c, fault, remedy);
            return;
        case Action::incomplete:
            judge_fact(c, Incomplete{fault.team, Incomplete::Scope::set});
            return;
        case Action::record_only:
            count_up(c.record(fault.team).improper_requests);
            break;
        case Action::refuse:
        case Action::correct:
        case Action::inform:
        case Action::ask:
        case Action::undo:
        case Action::none:
            break;
    }
    if (remedy.restore) take_back(c, fault);
}

void accept(Context& c, const Standing& fault, const Remedy& remedy) noexcept {
    const bool point = remedy.action == Action::point_and_service;
    const bool rally_ended = point && in_rally(c.set().stage);
    const bool point_given = point && !opponent_has_its_point(c.rules, fault);
    carry_out(c, fault, remedy);
    end_covered(c, fault, remedy, rally_ended, point_given);
    if (rally_ended) end_rally_of_faults(c, opponent(fault.team), Point::of_ruling);
    if (point) clean_set(c, fault.team);
}

void overrule(Context& c, const Standing& fault) noexcept {
    accept_places(c, fault);
    // A referee who lets a stranger play lets his team keep what it has won with him.
    if (reaches_back(fault)) clean_set(c, fault.team);
}

/// The number of the oldest fault that the ruling names, or as many as stand.
[[nodiscard]] std::size_t ruled(const MatchState& state, const Ruling& ruling) noexcept {
    std::size_t i = 0;
    for (const Standing& fault : state.faults()) {
        if (fault.reason == ruling.reason && fault.team == ruling.team) break;
        ++i;
    }
    return i;
}

}  // namespace

void judge_fact(Context& c, const Ruling& fact) noexcept {
    const std::size_t i = ruled(c.state, fact);
    const bool moment_shown = fact.decision != Ruling::Decision::accept_moment_unknown;
    // Only of a service may the record leave open since when it was wrong.
    if (i == c.state.standing_count ||
        (!moment_shown && describe(fact.reason).life != Life::service)) {
        out_of_sequence(c, fact.team);
        return;
    }
    const Standing fault = c.state.standing[i];
    Verdict v = verdict_of(c.rules, c.state, fault);
    if (!moment_shown) v.remedy.cancel = 0;
    v.before = by_position(c.before[fault.team], c.before[fault.team].rotation);
    const bool accepted = fact.decision != Ruling::Decision::overrule;
    v.phase = accepted ? Phase::accepted : Phase::overruled;
    remove_standing(c.state, i);
    if (accepted)
        accept(c, fault, v.remedy);
    else
        overrule(c, fault);
    c.raised.add(v);
}

}  // namespace courthand::rules
