// Faults that stand: how they are raised, armed, opened and ended.
#include "rules/context.h"

namespace courthand::rules {

Life life_of(Reason reason) noexcept {
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
        case Reason::sub_wrong_pair:
        case Reason::sub_reentry_used:
        case Reason::sub_wrong_position:
        case Reason::sub_not_on_roster:
        case Reason::sub_limit:
        case Reason::exceptional_not_allowed:
        case Reason::redesignated_player_other_role: return Life::act;
        case Reason::libero_front_row:
        case Reason::player_barred:
        case Reason::player_unregistered:
        case Reason::redesignated_player_returns:
        case Reason::captain_missing:
        case Reason::team_short:
        case Reason::lineup_missing:
        case Reason::libero_box_unconfirmed:
        case Reason::sub_required:
        case Reason::switch_due: return Life::condition;
        case Reason::libero_second_serving_position:
        case Reason::libero_may_not_serve:
        case Reason::wrong_server:
        case Reason::positional_fault: return Life::service;
        case Reason::sub_second_request:
        case Reason::sub_no_completed_rally:
        case Reason::sub_after_rejection:
        case Reason::sub_before_set:
        case Reason::improper_request:
        case Reason::timeout_limit:
        case Reason::redesignation_not_open:
        case Reason::redesignation_of_replaced_player:
        case Reason::redesignation_of_player_on_court:
        case Reason::redesignation_of_barred_player:
        case Reason::recovery_not_open: return Life::request;
        case Reason::designation_changed:
        case Reason::designation_mixed:
        case Reason::libero_limit:
        case Reason::lineup_duplicate:
        case Reason::lineup_not_on_roster:
        case Reason::lineup_libero_as_starter:
        case Reason::captain_is_libero: return Life::sheet;
        case Reason::positional_fault_of_servers:
        case Reason::libero_late_replacement:
        case Reason::libero_out_of_place:
        case Reason::sub_player_on_court:
        case Reason::sub_player_not_on_court:
        case Reason::exceptional_not_needed:
        case Reason::captain_not_on_court:
        case Reason::lineup_changed:
        case Reason::delay_scale:
        case Reason::misconduct_scale:
        case Reason::switch_not_due:
        case Reason::score_impossible:
        case Reason::out_of_sequence: return Life::notice;
    }
    return Life::notice;
}

namespace {

[[nodiscard]] Opens opens_of(const Rules& rules, Reason reason) noexcept {
    if (reason == Reason::libero_front_row) return rules.front_row_opens;
    const Life life = life_of(reason);
    if (life == Life::request || life == Life::notice) return Opens::at_once;
    const bool replacement = reason <= Reason::libero_out_of_place;
    return replacement ? rules.illegal_replacement_opens : Opens::service_contact;
}

[[nodiscard]] Phase first_phase(const Context& c, Reason reason) noexcept {
    const Opens opens = opens_of(c.rules, reason);
    const Stage stage = c.set().stage;
    const bool open = stage == Stage::in_play || opens == Opens::at_once ||
                      (opens == Opens::whistle && stage == Stage::whistled);
    return open ? Phase::open : Phase::armed;
}

void report(Context& c, const Standing& fault, Phase phase) noexcept {
    Verdict v = verdict_of(c.rules, c.state, fault);
    v.phase = phase;
    v.before = c.before[fault.team].by_position();
    c.raised.add(v);
}

void open(Context& c, Standing& fault) noexcept {
    fault.phase = Phase::open;
    report(c, fault, Phase::open);
}

void end(Context& c, std::size_t i, Phase phase) noexcept {
    report(c, c.state.standing[i], phase);
    remove_standing(c.state, i);
}

/// Ends what stands and `over` says so of, from number `i` on.
template <class Over>
void end_where(Context& c, Over over, std::size_t i = 0) noexcept {
    while (i < c.state.standing_count) {
        if (over(c.state.standing[i])) end(c, i, Phase::cleared);
        else ++i;
    }
}

[[nodiscard]] bool place_empty(const TeamSet& side) noexcept {
    for (const SlotRecord& slot : side.slots)
        if (!slot.on_court.worn()) return true;
    return false;
}

/// No service of the match counts yet.
[[nodiscard]] bool match_begins(const SetState& set) noexcept {
    return set.number == 1 && set.rallies == 0;
}

[[nodiscard]] bool box_blank(const TeamSet& side) noexcept {
    return side.boxes[0].mark == LiberoBox::Mark::blank ||
           side.boxes[1].mark == LiberoBox::Mark::blank;
}

[[nodiscard]] bool in_a_box(const TeamSet& side, Jersey jersey) noexcept {
    for (const LiberoBox& box : side.boxes)
        if (box.mark == LiberoBox::Mark::number && box.number == jersey) return true;
    return false;
}

/// A fault of the sheet's six that a substitution has put right before play.
[[nodiscard]] bool sheet_put_right(const TeamSet& side, const Standing& fault) noexcept {
    if (fault.reason == Reason::captain_is_libero)
        return side.game_captain.worn() && !acts_as_libero(side, side.game_captain);
    // A libero among the six stays on the sheet, whoever comes in for him: only a sheet ends that.
    const bool of_six =
        fault.reason == Reason::lineup_duplicate || fault.reason == Reason::lineup_not_on_roster;
    if (!of_six || in_a_box(side, fault.players[0])) return false;
    std::size_t places = 0;
    for (const SlotRecord& slot : side.slots)
        if (slot.on_court == fault.players[0]) ++places;
    return places <= (fault.reason == Reason::lineup_duplicate ? 1U : 0U);
}

[[nodiscard]] bool condition_holds(const MatchState& state, const Standing& fault) noexcept {
    const TeamSet& side = state.set.team[fault.team];
    const Reason reason = fault.reason;
    if (reason == Reason::libero_front_row) return in_front_row(side, fault.players[0]);
    if (reason == Reason::captain_missing) return !side.game_captain.worn();
    if (reason == Reason::team_short || reason == Reason::sub_required) return place_empty(side);
    if (reason == Reason::lineup_missing) return side.lineup_in == 0;
    if (reason == Reason::libero_box_unconfirmed) return box_blank(side);
    if (reason == Reason::switch_due) return switch_due(state);
    // The rest are about one player who should be neither on court nor on the sheet as libero.
    return on_floor(side, fault.players[0]) ||
           (fault.slot == 0 && in_a_box(side, fault.players[0]));
}

}  // namespace

void remove_standing(MatchState& state, std::size_t i) noexcept {
    for (std::size_t k = i + 1; k < state.standing_count; ++k)
        state.standing[k - 1] = state.standing[k];
    state.standing[--state.standing_count] = Standing{};
}

Verdict verdict_of(const Rules& rules, const MatchState& state, const Standing& fault) noexcept {
    Verdict v;
    v.reason = fault.reason;
    v.team = fault.team;
    v.phase = fault.phase;
    v.players = fault.players;
    v.entry = fault.entry;
    v.rally = fault.rally;
    v.set = fault.set;
    const TeamSet& side = state.set.team[fault.team];
    for (const Position p : all_positions)
        v.before[index(p)] = fault.before.on_court[index(side.rotation.slot_at(p))];
    v.after = on_court(side);
    v.remedy = remedy_of(rules, state, fault);
    return v;
}

bool stands(const MatchState& state, Reason reason, Team team) noexcept {
    for (std::size_t i = 0; i < state.standing_count; ++i)
        if (state.standing[i].reason == reason && state.standing[i].team == team) return true;
    return false;
}

void raise(Context& c, const Fault& fault) noexcept {
    Standing s;
    s.entry = c.entry;
    s.rally = static_cast<std::uint16_t>(c.set().rallies + 1);
    s.reason = fault.reason;
    s.team = fault.team;
    s.phase = first_phase(c, fault.reason);
    s.set = c.set().number;
    s.players = fault.players;
    s.slot = fault.slot;
    s.before = fault.before;
    s.repeat = fault.repeat;
    s.completed = c.set().completed;
    s.pairs = fault.pairs;
    s.slots = fault.slots;
    s.designation = fault.designation;
    s.bar_before = fault.bar_before;
    // A request made during a rally was not there when the service was hit.
    s.in_rally = c.set().stage == Stage::in_play && life_of(s.reason) != Life::request ? 1 : 0;
    // A full list loses no verdict: it is reported, only its later life is not followed.
    if (c.state.standing_count < most_standing) c.state.standing[c.state.standing_count++] = s;
    report(c, s, s.phase);
}

void out_of_sequence(Context& c, Team team) noexcept {
    raise(c, {Reason::out_of_sequence, team, {}, 0, places_of(c.side(team))});
}

void raise_once(Context& c, const Fault& fault) noexcept {
    if (!stands(c.state, fault.reason, fault.team)) raise(c, fault);
}

namespace {

void raise_condition(Context& c, Reason reason, Team team, Jersey subject) noexcept {
    const TeamSet& side = c.side(team);
    raise_once(c, {reason, team, {subject, Jersey::none()}, slot_of(side, subject),
                   places_of(side)});
}

[[nodiscard]] bool someone_can_come_in(const Context& c, Team team) noexcept {
    const TeamSet& side = c.side(team);
    const TeamRecord& record = c.record(team);
    for (std::size_t i = 0; i < record.count; ++i) {
        const Jersey player = record.players[i].jersey;
        if (!on_floor(side, player) && !acts_as_libero(side, player) &&
            !barred(record, player, c.set().number))
            return true;
    }
    return false;
}

/// Remembers how many points the team had when it first played with somebody not on its list.
void note_stranger(Context& c, Team team) noexcept {
    TeamSet& side = c.side(team);
    if (c.set().stage != Stage::in_play || side.clean != 0) return;
    side.clean = static_cast<std::uint8_t>(points(c.set().score, team) + 1);
}

/// Conditions of the six who stand on court.
void look_at_floor(Context& c, Team team) noexcept {
    TeamSet& side = c.side(team);
    const TeamRecord& record = c.record(team);
    for (const Position p : all_positions) {
        const SlotRecord& slot = side.slots[index(side.rotation.slot_at(p))];
        if (!slot.on_court.worn()) continue;
        const PlayerRecord* player = find(record, slot.on_court);
        const bool libero = slot.replaced.worn() || acts_as_libero(side, slot.on_court);
        if (libero && front_row(p))
            raise_condition(c, Reason::libero_front_row, team, slot.on_court);
        if (player == nullptr) {
            raise_condition(c, Reason::player_unregistered, team, slot.on_court);
            note_stranger(c, team);
        } else if (barred(*player, c.set().number))
            raise_condition(c, Reason::player_barred, team, slot.on_court);
        else if (player->libero == LiberoRole::replaced)
            raise_condition(c, Reason::redesignated_player_returns, team, slot.on_court);
    }
    // Where a team may play on short, someone fit on the bench must come in first.
    if (place_empty(side) && c.rules.six_must_play != 0)
        raise_condition(c, Reason::team_short, team, Jersey::none());
    else if (place_empty(side) && someone_can_come_in(c, team))
        raise_condition(c, Reason::sub_required, team, Jersey::none());
    else if (place_empty(side) && match_begins(c.set()) && c.rules.six_must_start != 0)
        raise_condition(c, Reason::team_short, team, Jersey::none());
    if (!side.game_captain.worn())
        raise_condition(c, Reason::captain_missing, team, Jersey::none());
}

/// Everything that must be right before the service, for one team.
void look_at_team(Context& c, Team team) noexcept {
    const TeamSet& side = c.side(team);
    if (side.lineup_in == 0) {
        raise_condition(c, Reason::lineup_missing, team, Jersey::none());
        return;
    }
    if (box_blank(side) && boxes_matter(c.rules, c.state, team) && c.set().rallies == 0)
        raise_condition(c, Reason::libero_box_unconfirmed, team, Jersey::none());
    look_at_floor(c, team);
}

void look_at_conditions(Context& c) noexcept {
    look_at_team(c, Team::A);
    look_at_team(c, Team::B);
    // One missed change is one verdict, whichever team serves when it is seen again.
    const Team server = c.set().serving;
    if (switch_due(c.state) && !stands(c.state, Reason::switch_due, opponent(server)))
        raise_condition(c, Reason::switch_due, server, {});
}

}  // namespace

void open_at_whistle(Context& c) noexcept {
    look_at_conditions(c);
    for (std::size_t i = 0; i < c.state.standing_count; ++i) {
        Standing& fault = c.state.standing[i];
        if (fault.phase == Phase::armed && opens_of(c.rules, fault.reason) == Opens::whistle)
            open(c, fault);
    }
}

void open_at_contact(Context& c) noexcept {
    const std::size_t already = c.state.standing_count;
    for (std::size_t i = 0; i < already; ++i) {
        Standing& fault = c.state.standing[i];
        if (fault.phase == Phase::armed) open(c, fault);
    }
    look_at_conditions(c);
}

void settle_conditions(Context& c) noexcept {
    end_where(c, [&c](const Standing& fault) {
        const bool reaches_back = fault.reason == Reason::player_unregistered &&
                                  finished_sets_tainted(c.state, fault.team);
        const bool may_end = !reaches_back &&
                             (!played_with(fault) || !costs_the_rally(fault.reason));
        const Life life = life_of(fault.reason);
        const bool gone =
            (life == Life::condition && !condition_holds(c.state, fault)) ||
            (life == Life::sheet && sheet_put_right(c.state.set.team[fault.team], fault));
        return may_end && gone;
    });
}

namespace {

/// The rallies played with a fault, with the one that a ruling has just ended.
[[nodiscard]] RallyBits rallies_of(const SetState& set, const Standing& fault) noexcept {
    RallyBits rallies = fault.played;
    if (fault.in_rally != 0) rallies.add(set.rallies);
    return rallies;
}

}  // namespace

void end_covered(Context& c, const Standing& accepted, const Remedy& remedy,
                 bool rally_ended) noexcept {
    const bool points = remedy.action == Action::point_and_service;
    RallyBits taken = rallies_of(c.set(), accepted);
    if (rally_ended) taken.add(c.set().rallies);
    for (std::size_t i = 0; i < c.state.standing_count;) {
        Standing& fault = c.state.standing[i];
        const bool same_team = fault.team == accepted.team && fault.set == accepted.set;
        const bool same_act = same_team && remedy.restore && fault.slot != 0 &&
                              fault.entry == accepted.entry && fault.slot == accepted.slot;
        const bool same_refusal = same_team && remedy.action == Action::refuse &&
                                  fault.entry == accepted.entry;
        const bool costly = same_team && points && costs_the_rally(fault.reason) &&
                            played_with(fault);
        const RallyBits own = rallies_of(c.set(), fault);
        if (same_act || same_refusal || (costly && !own.without(taken).any())) {
            end(c, i, Phase::cleared);
            continue;
        }
        // The opponent has had its point of the rally that both are about.
        if (costly && own.last() == taken.last()) {
            fault.played = own;
            fault.in_rally = 0;
            fault.opponent_won_last = 1;
            fault.won_receiving = 0;
        }
        ++i;
    }
}

void end_old_sets(Context& c) noexcept {
    end_where(c, [](const Standing& fault) { return fault.reason != Reason::player_unregistered; });
    for (std::size_t i = 0; i < c.state.standing_count; ++i) {
        Standing& fault = c.state.standing[i];
        // What it cost in the finished set is kept with that set's result.
        Standing carried;
        carried.entry = fault.entry;
        carried.reason = fault.reason;
        carried.team = fault.team;
        carried.phase = fault.phase;
        carried.players = fault.players;
        carried.set = c.set().number;
        carried.rally = 1;
        fault = carried;
    }
}

void end_all(Context& c) noexcept {
    end_where(c, [](const Standing&) { return true; });
}

void end_armed(Context& c) noexcept {
    end_where(c, [](const Standing& fault) { return fault.phase == Phase::armed; });
}

void end_notices(Context& c) noexcept {
    for (std::size_t i = 0; i < c.state.standing_count;) {
        const Standing& fault = c.state.standing[i];
        // A repeated late replacement brings a sanction and waits for the referee.
        if (life_of(fault.reason) == Life::notice && fault.repeat == 0) remove_standing(c.state, i);
        else ++i;
    }
}

void end_calls_on(Context& c, Team team) noexcept {
    end_where(c, [team](const Standing& fault) {
        return fault.reason == Reason::positional_fault && fault.team == team &&
               fault.in_rally != 0;
    });
}

void end_sheet_faults(Context& c, Team team) noexcept {
    end_where(c, [team](const Standing& fault) {
        const Life life = life_of(fault.reason);
        const bool from_sheet = life == Life::sheet || (life == Life::condition &&
                                                        fault.slot == 0 &&
                                                        fault.players[0].worn());
        return fault.team == team && fault.phase == Phase::armed && from_sheet;
    });
}

void end_undone(Context& c, Team team, std::uint8_t slot, std::size_t first) noexcept {
    const auto undone = [team, slot](const Standing& fault) {
        return fault.team == team && fault.slot == slot && fault.phase == Phase::armed;
    };
    end_where(c, undone, first);
}

}  // namespace courthand::rules

namespace courthand {

VerdictList standing(const Rules& rules, const MatchState& state) noexcept {
    VerdictList list;
    for (std::size_t i = 0; i < state.standing_count; ++i)
        list.add(rules::verdict_of(rules, state, state.standing[i]));
    return list;
}

}  // namespace courthand
