// What the rules prescribe for a fault, as of now, and what happens when a referee accepts it.
#include <algorithm>
#include <optional>

#include "rules/context.h"

namespace courthand::rules {
namespace {

/// What kind of answer a reason calls for before the service is hit.
enum class Answer : std::uint8_t {
    delay,     ///< put right, with the next step of the team's delay scale
    improper,  ///< refused; written down the first time, a delay afterwards
    refuse,
    correct,
    ask,
    incomplete,
    point,     ///< a point at once
};

[[nodiscard]] Answer answer_before_contact(Reason reason) noexcept {
    switch (reason) {
        case Reason::libero_no_completed_rally:
        case Reason::libero_wrong_returner:
        case Reason::libero_two_on_court:
        case Reason::libero_not_designated:
        case Reason::libero_before_check:
        case Reason::libero_before_switch:
        case Reason::libero_in_substitution:
        case Reason::libero_unable:
        case Reason::libero_during_replay:
        case Reason::libero_for_disqualified:
        case Reason::libero_not_starting:
        case Reason::libero_late_replacement:
        case Reason::sub_wrong_pair:
        case Reason::sub_reentry_used:
        case Reason::sub_wrong_position:
        case Reason::sub_not_on_roster:
        case Reason::exceptional_not_allowed:
        case Reason::lineup_missing: return Answer::delay;
        case Reason::sub_limit:
        case Reason::sub_second_request:
        case Reason::sub_no_completed_rally:
        case Reason::sub_after_rejection:
        case Reason::sub_before_set:
        case Reason::improper_request:
        case Reason::timeout_limit: return Answer::improper;
        case Reason::redesignation_not_open:
        case Reason::redesignation_of_replaced_player:
        case Reason::redesignation_of_player_on_court:
        case Reason::redesignation_of_barred_player:
        case Reason::recovery_not_open: return Answer::refuse;
        case Reason::libero_front_row:
        case Reason::designation_changed:
        case Reason::designation_mixed:
        case Reason::libero_limit:
        case Reason::redesignated_player_returns:
        case Reason::redesignated_player_other_role:
        case Reason::lineup_duplicate:
        case Reason::lineup_not_on_roster:
        case Reason::lineup_libero_as_starter:
        case Reason::captain_is_libero:
        case Reason::player_barred:
        case Reason::player_unregistered:
        case Reason::sub_required:
        case Reason::switch_due:
        case Reason::score_impossible: return Answer::correct;
        case Reason::wrong_server:
        case Reason::positional_fault:
        case Reason::libero_second_serving_position:
        case Reason::libero_may_not_serve: return Answer::point;
        case Reason::team_short: return Answer::incomplete;
        case Reason::positional_fault_of_servers:
        case Reason::libero_out_of_place:
        case Reason::libero_box_unconfirmed:
        case Reason::sub_player_on_court:
        case Reason::sub_player_not_on_court:
        case Reason::exceptional_not_needed:
        case Reason::captain_missing:
        case Reason::captain_not_on_court:
        case Reason::lineup_changed:
        case Reason::delay_scale:
        case Reason::misconduct_scale:
        case Reason::switch_not_due:
        case Reason::out_of_sequence: return Answer::ask;
    }
    return Answer::ask;
}

/// The same under a profile: some editions take an illegal substitution for an improper request.
[[nodiscard]] Answer answer_of(const Rules& rules, Reason reason) noexcept {
    const bool illegal_substitution =
        reason >= Reason::sub_wrong_pair && reason <= Reason::sub_not_on_roster;
    if (illegal_substitution && rules.illegal_request_is_delay == 0) return Answer::improper;
    return answer_before_contact(reason);
}

/// Some editions count an illegal replacement from the whistle on, not only from the service hit.
[[nodiscard]] bool counts_since_whistle(const Rules& rules, const MatchState& state,
                                        const Standing& fault) noexcept {
    const bool replacement = fault.reason <= Reason::libero_out_of_place;
    return replacement && fault.phase == Phase::open && state.set.stage == Stage::whistled &&
           rules.illegal_replacement_opens == Opens::whistle;
}

[[nodiscard]] Action delay_step(const Rules& rules, const TeamRecord& team) noexcept {
    return team.delays + 1 >= rules.delay_brings_point_from ? Action::delay_penalty
                                                            : Action::delay_warning;
}

/// The rallies whose points the profile takes back.
[[nodiscard]] RallyBits rallies_to_cancel(const Rules& rules, const MatchState& state,
                                          const Standing& fault) noexcept {
    const RallyBits points = points_at_fault(state, fault);
    return rules.cancellation == Cancellation::since_fault ? points : points.from(fault.term_from);
}

/// The rally just decided already gave the opponent its one point.
[[nodiscard]] bool opponent_has_its_point(const Standing& fault) noexcept {
    return fault.opponent_won_last != 0 && fault.in_rally == 0;
}

/// A player who is not on the list, found when the set is over: the set is lost as a whole.
[[nodiscard]] bool voids_this_set(const MatchState& state, const Standing& fault) noexcept {
    return fault.reason == Reason::player_unregistered && !set_running(state.set.stage) &&
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
        if (opponent_has_its_point(fault)) return;
        ++points(r.score, other);
        r.serves = other;
    } else if (r.action == Action::delay_penalty) {
        ++points(r.score, other);
        r.serves = other;
    }
}

/// The place (as 1 + slot) of an acting libero who may not be on court at all, or 0.
[[nodiscard]] std::uint8_t libero_to_go(const TeamSet& side, const Standing& fault) noexcept {
    const bool may_not_play = fault.reason == Reason::player_barred ||
                              fault.reason == Reason::redesignated_player_returns;
    const std::uint8_t slot = may_not_play ? slot_of(side, fault.players[0]) : std::uint8_t{0};
    return slot != 0 && side.slots[slot - 1U].replaced.worn() ? slot : std::uint8_t{0};
}

[[nodiscard]] Remedy before_contact(const Rules& rules, const MatchState& state,
                                    const Standing& fault) noexcept {
    Remedy r;
    r.team = fault.team;
    const TeamRecord& team = state.team[fault.team];
    switch (answer_of(rules, fault.reason)) {
        case Answer::delay:
            r.action = fault.reason == Reason::libero_late_replacement && fault.repeat == 0
                           ? Action::inform
                           : delay_step(rules, team);
            r.restore = r.action != Action::inform;
            break;
        case Answer::improper:
            r.action = team.improper_requests == 0 && rules.first_improper_is_free != 0
                           ? Action::record_only
                           : delay_step(rules, team);
            r.restore = !played_with(fault);
            break;
        case Answer::refuse:
            r.action = Action::refuse;
            r.restore = fault.reason != Reason::recovery_not_open;
            break;
        case Answer::correct:
            r.action = Action::correct;
            // An act that brought somebody in is taken back; what merely is so, is put right.
            r.restore = fault.slots != 0 || fault.reason == Reason::libero_front_row ||
                        libero_to_go(state.set.team[fault.team], fault) != 0;
            break;
        case Answer::incomplete: r.action = Action::incomplete; break;
        case Answer::ask:
        case Answer::point: r.action = Action::ask; break;
    }
    return r;
}

/// The player whom the libero of a place has replaced takes it again, if he is off.
void replaced_returns(TeamSet& side, std::size_t slot) noexcept {
    SlotRecord& place = side.slots[slot];
    if (!place.replaced.worn() || on_floor(side, place.replaced)) return;
    place.on_court = place.replaced;
    place.replaced = Jersey::none();
}

/// No libero is put back into the front row.
void no_libero_in_front(TeamSet& side, std::size_t slot) noexcept {
    if (front_row(side.rotation.position_of(static_cast<Slot>(slot)))) replaced_returns(side, slot);
}

/// A condition of one player is put right.
void send_off(TeamSet& side, const Standing& fault) noexcept {
    if (const std::uint8_t slot = libero_to_go(side, fault); slot != 0)
        replaced_returns(side, slot - 1U);
    else if (fault.slot != 0)
        no_libero_in_front(side, fault.slot - 1U);
}

/// Only the illegal act is undone: a substitution made since in the same place stays.
[[nodiscard]] bool still_to_undo(const TeamSet& side, const Standing& fault,
                                 std::size_t slot) noexcept {
    const bool changed = (fault.slots >> slot & 1U) != 0;
    const bool request = life_of(fault.reason) == Life::request;
    const bool substituted_since =
        !request && side.slots[slot].regular != fault.before.regular[slot];
    return changed && !substituted_since;
}

using PlacesToUndo = std::array<bool, players_on_court>;

/// A player is free for `slot` unless he stands in a place that is not put back.
[[nodiscard]] bool free_for(const TeamSet& side, const PlacesToUndo& undo, Jersey player,
                            std::size_t slot) noexcept {
    const std::uint8_t now = slot_of(side, player);
    return now == 0 || now == slot + 1 || undo[now - 1U];
}

/// Who comes back into a place: the player who stood there, or, when that was a libero who has gone
/// on to another place, the player he had replaced. Nothing when both are elsewhere by now.
[[nodiscard]] std::optional<Jersey> returner(const TeamSet& side, const Standing& fault,
                                             const PlacesToUndo& undo, std::size_t slot) noexcept {
    const Jersey stood = fault.before.on_court[slot];
    if (free_for(side, undo, stood, slot)) return stood;
    const Jersey replaced = fault.before.replaced[slot];
    if (replaced.worn() && free_for(side, undo, replaced, slot)) return replaced;
    return std::nullopt;
}

/// The places that can be put back. No place is ever emptied: where nobody can come back the act
/// stays, and with it whatever hangs on it in the same request.
[[nodiscard]] PlacesToUndo places_to_undo(const TeamSet& side, const Standing& fault) noexcept {
    PlacesToUndo undo{};
    for (std::size_t s = 0; s < players_on_court; ++s) undo[s] = still_to_undo(side, fault, s);
    for (bool settled = false; !settled;) {
        settled = true;
        for (std::size_t s = 0; s < players_on_court; ++s) {
            if (!undo[s] || returner(side, fault, undo, s)) continue;
            undo[s] = false;
            settled = false;
        }
    }
    return undo;
}

/// Takes back what substitutions had counted in a place that is put back, from the first player of
/// the request who came in there to whoever has been substituted for him since.
void uncount(Context& c, const Standing& fault, std::size_t slot) noexcept {
    TeamSet& side = c.side(fault.team);
    const TeamRecord& record = c.record(fault.team);
    Jersey left = fault.before.regular[slot];
    const auto take_back = [&](Jersey in) {
        uncount_entry(record, side, {in, left}, slot);
        left = in;
    };
    for (const Jersey in : fault.entered) {
        const PlayerSetRecord* player = find_set_player(record, side, in);
        if (player != nullptr && player->bound == slot + 1) take_back(in);
    }
    if (side.slots[slot].regular != left) take_back(side.slots[slot].regular);
}

/// Undoes the act in all its places and gives them; first they are all read, since pairs of one
/// request may hang together like a chain.
PlacesToUndo undo_act(Context& c, const Standing& fault) noexcept {
    TeamSet& side = c.side(fault.team);
    const PlacesToUndo undo = places_to_undo(side, fault);
    std::array<Jersey, players_on_court> back{};
    for (std::size_t s = 0; s < players_on_court; ++s)
        if (undo[s]) back[s] = *returner(side, fault, undo, s);
    for (std::size_t s = 0; s < players_on_court; ++s) {
        if (!undo[s]) continue;
        uncount(c, fault, s);
        const bool himself = back[s] == fault.before.on_court[s];
        SlotRecord& place = side.slots[s];
        place.on_court = back[s];
        place.regular = fault.before.regular[s];
        place.replaced = himself ? fault.before.replaced[s] : Jersey::none();
    }
    for (std::size_t s = 0; s < players_on_court; ++s)
        if (undo[s]) no_libero_in_front(side, s);
    return undo;
}

/// Pairs of an undone request that are no longer counted: those in places that stay are.
[[nodiscard]] std::uint8_t pairs_taken_back(const Standing& fault,
                                            const PlacesToUndo& undo) noexcept {
    std::uint8_t taken_back = fault.pairs;
    for (std::size_t s = 0; s < players_on_court; ++s)
        if ((fault.slots >> s & 1U) != 0 && !undo[s] && taken_back > 0) --taken_back;
    return taken_back;
}

/// An exceptional substitution that was not allowed does not keep its player out of the match.
void uncount_exception(Context& c, const Standing& fault) noexcept {
    const bool exceptional = fault.pairs == 0 && (fault.reason == Reason::libero_in_substitution ||
                                                  fault.reason == Reason::exceptional_not_allowed ||
                                                  fault.reason == Reason::sub_not_on_roster);
    PlayerRecord* out = find_player(c.record(fault.team), fault.players[1]);
    if (!exceptional) return;
    --c.side(fault.team).exceptional;
    if (out != nullptr && out->bar == Bar::injured_out) out->bar = fault.bar_before;
}

void restore(Context& c, const Standing& fault) noexcept {
    TeamSet& side = c.side(fault.team);
    if (fault.slots == 0) {
        send_off(side, fault);
        update_captain(c, fault.team);
        return;
    }
    const PlacesToUndo undo = undo_act(c, fault);
    count_down(side.substitutions, pairs_taken_back(fault, undo));
    if (std::find(undo.begin(), undo.end(), true) != undo.end()) {
        uncount_exception(c, fault);
        // A replacement that the team has made since still counts for the rally between.
        if (fault.pairs == 0 && side.last_replacement == fault.completed) {
            side.replaced_yet = fault.before.replaced_yet;
            side.last_replacement = fault.before.last_replacement;
        }
    }
    update_captain(c, fault.team);
}

/// Takes back a re-designation that was not allowed: everybody is again what he was.
void restore_designation(Context& c, const Standing& fault) noexcept {
    TeamRecord& record = c.record(fault.team);
    const DesignationBefore& before = fault.designation;
    record.designated = before.match;
    c.side(fault.team).liberos = before.set;
    for (const Jersey retired : before.retired)
        if (PlayerRecord* player = find_player(record, retired); player != nullptr)
            player->libero = LiberoRole::designated;
    if (PlayerRecord* out = find_player(record, fault.players[1]))
        out->libero_unable = before.out_unable;
    if (PlayerRecord* in = find_player(record, fault.players[0])) {
        in->libero = before.in_role;
        in->redesignated = before.in_redesignated;
    }
    --record.redesignations;
}

/// A refused request for a time-out leaves the team its count; it names no player. A request that
/// was only written down (`repeat`) leaves nothing to take back.
void restore_request(Context& c, const Standing& fault) noexcept {
    TeamSet& side = c.side(fault.team);
    if (fault.repeat != 0) return;
    const bool time_out = fault.players == Named{};
    if (!time_out) restore(c, fault);
    else if (side.time_outs > 0) --side.time_outs;
}

[[nodiscard]] bool is_request(Reason reason) noexcept {
    return (reason >= Reason::sub_limit && reason <= Reason::sub_before_set) ||
           reason == Reason::libero_in_substitution || reason == Reason::timeout_limit ||
           reason == Reason::improper_request;
}

void take_back(Context& c, const Standing& fault) noexcept {
    switch (answer_before_contact(fault.reason)) {
        case Answer::improper: restore_request(c, fault); return;
        case Answer::refuse: restore_designation(c, fault); return;
        case Answer::delay:
        case Answer::correct:
        case Answer::ask:
        case Answer::incomplete:
        case Answer::point: restore(c, fault); return;
    }
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

void apply_point(Context& c, const Standing& fault, const Remedy& remedy) noexcept {
    SetState& set = c.set();
    if (set.stage == Stage::set_over || set.stage == Stage::match_over) reopen_set(c);
    const bool in_rally = set.stage == Stage::in_play || set.stage == Stage::whistled;
    take_points_back(c, fault, remedy.cancel);
    if (remedy.restore) restore(c, fault);
    if (in_rally) {
        ++set.rallies;
        complete_rally(set);
        if (fault.team == Team::B) set.won_by_a.add(set.rallies);
        set.stage = Stage::dead_ball;
    }
    if (opponent_has_its_point(fault)) finish_set_if_won(c);
    else award_point(c, opponent(fault.team));
}

}  // namespace

bool played_with(const Standing& fault) noexcept {
    return fault.in_rally != 0 || fault.played.any();
}

RallyBits points_at_fault(const MatchState& state, const Standing& fault) noexcept {
    const SetState& set = state.set;
    const RallyBits won = fault.team == Team::A ? fault.played.in_common(set.won_by_a)
                                                : fault.played.without(set.won_by_a);
    return won.without(set.taken_back);
}

bool costs_the_rally(Reason reason) noexcept {
    switch (answer_before_contact(reason)) {
        case Answer::point: return true;
        case Answer::delay:
            return reason != Reason::libero_late_replacement && reason != Reason::lineup_missing;
        case Answer::correct:
            return reason == Reason::libero_front_row || reason == Reason::player_barred ||
                   reason == Reason::player_unregistered ||
                   reason == Reason::redesignated_player_returns ||
                   reason == Reason::redesignated_player_other_role ||
                   reason == Reason::lineup_duplicate || reason == Reason::lineup_not_on_roster;
        case Answer::improper: return reason == Reason::sub_limit;
        case Answer::refuse:
        case Answer::ask:
        case Answer::incomplete: return false;
    }
    return false;
}

Remedy remedy_of(const Rules& rules, const MatchState& state, const Standing& fault) noexcept {
    Remedy r;
    // A wrong service has happened, also when its rally was then replayed.
    const bool counts = played_with(fault) || counts_since_whistle(rules, state, fault) ||
                        life_of(fault.reason) == Life::service;
    const bool costly = costs_the_rally(fault.reason) && counts;
    if (costly) {
        r.action = Action::point_and_service;
        r.team = opponent(fault.team);
        r.cancel = rallies_to_cancel(rules, state, fault).count();
        const Life life = life_of(fault.reason);
        r.restore = life == Life::act || life == Life::condition;
    } else {
        r = before_contact(rules, state, fault);
    }
    add_consequences(rules, state, fault, r);
    return r;
}

bool moment_may_be_unknown(Reason reason) noexcept { return life_of(reason) == Life::service; }

void apply_remedy(Context& c, const Standing& fault, bool moment_shown) noexcept {
    Remedy remedy = remedy_of(c.rules, c.state, fault);
    if (!moment_shown) remedy.cancel = 0;
    // A match that was given up has no points left to give.
    if (c.state.forfeited != 0) return;
    const bool unregistered = fault.reason == Reason::player_unregistered;
    if (unregistered) void_finished_sets(c, fault.team);
    // A set that is lost as a whole, or a match that is decided by one, has no point to give.
    const bool lost_already = unregistered && !set_running(c.set().stage);
    TeamRecord& record = c.record(fault.team);
    switch (remedy.action) {
        case Action::point_and_service:
            if (!lost_already) apply_point(c, fault, remedy);
            return;
        case Action::delay_warning:
        case Action::delay_penalty: ++record.delays; break;
        case Action::record_only: ++record.improper_requests; break;
        case Action::incomplete:
            judge_fact(c, Incomplete{fault.team, Incomplete::Scope::set});
            return;
        case Action::refuse:
        case Action::correct:
        case Action::inform:
        case Action::ask:
        case Action::undo:
        case Action::none: break;
    }
    if (remedy.restore) take_back(c, fault);
    // A request answered with a delay sanction bars the team from asking again before a rally.
    const bool sanctioned = remedy.action == Action::delay_warning ||
                            remedy.action == Action::delay_penalty;
    const bool still_asked = fault.completed == c.set().completed;
    if (sanctioned && still_asked && is_request(fault.reason)) c.side(fault.team).rejected = 1;
    if (remedy.action == Action::delay_penalty) give_penalty(c, fault.team);
}

}  // namespace courthand::rules
