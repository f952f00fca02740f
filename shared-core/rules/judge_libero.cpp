// Libero replacements, a libero who cannot go on, and re-designation.
#include "rules/context.h"

namespace courthand::rules {
namespace {

/// A replacement with everything about it that the rules look at.
struct Replacement {
    Team team;
    Jersey in;
    Jersey out;
    std::uint8_t slot;  ///< 1 + slot of the leaving player, 0 when he is not on court
    bool in_libero;
    bool out_libero;
    bool returns_to_gap;   ///< the regular player fills the place a libero left to go and serve
    std::uint8_t in_slot;  ///< 1 + slot in which the entering number already stands, 0 for none
};

[[nodiscard]] std::uint8_t gap_left_by_libero(const TeamSet& side, Jersey in) noexcept {
    for (std::size_t s = 0; s < players_on_court; ++s)
        if (!side.slots[s].on_court.worn() && side.slots[s].replaced == in && in.worn() &&
            !on_floor(side, in))
            return static_cast<std::uint8_t>(s + 1);
    return 0;
}

/// A libero of the set, or one who has been: unless he comes back to the place that is his own.
[[nodiscard]] bool comes_as_libero(const Context& c, const Replacement& r) noexcept {
    const TeamSet& side = c.side(r.team);
    if (acts_as_libero(side, r.in)) return true;
    const PlayerRecord* in = find(c.record(r.team), r.in);
    const bool was_libero = in != nullptr && in->libero != LiberoRole::none;
    return was_libero && (r.slot == 0 || side.slots[r.slot - 1U].replaced != r.in);
}

[[nodiscard]] Replacement look(const Context& c, const LiberoReplacement& fact) noexcept {
    const TeamSet& side = c.side(fact.team);
    Replacement r{fact.team, fact.in, fact.out, slot_of(side, fact.out), false, false, false, 0};
    const std::uint8_t gap = gap_left_by_libero(side, fact.in);
    if (gap != 0) {
        r.slot = gap;
        r.returns_to_gap = true;
        r.out_libero = true;
        return r;
    }
    r.in_libero = comes_as_libero(c, r);
    r.out_libero =
        r.slot != 0 && (side.slots[r.slot - 1U].replaced.worn() || acts_as_libero(side, fact.out));
    r.in_slot = slot_of(side, fact.in);
    return r;
}

[[nodiscard]] Position position_of(const TeamSet& side, std::uint8_t slot) noexcept {
    return side.rotation.position_of(static_cast<Slot>(slot - 1));
}

/// The libero goes to position I as next server, whether or not he may serve from there.
[[nodiscard]] bool moves_to_serve(const Context& c, const Replacement& r) noexcept {
    return c.rules.serve_exception != 0 && r.in_libero && r.in != r.out &&
           c.set().serving == r.team && position_of(c.side(r.team), r.slot) == Position::I;
}

/// The same where the profile lets him serve.
[[nodiscard]] bool goes_to_serve(const Context& c, const Replacement& r) noexcept {
    const TeamSet& side = c.side(r.team);
    const bool may_serve = c.rules.libero_serving_positions != 0 &&
                           (side.serving_slot == 0 || side.serving_slot == r.slot);
    return may_serve && moves_to_serve(c, r);
}

/// The acting libero who has just become unable: his own replacement needs no completed rally.
[[nodiscard]] bool cannot_go_on(const Context& c, Team team, Jersey libero) noexcept {
    const PlayerRecord* player = find(c.record(team), libero);
    return c.side(team).injured == libero ||
           (player != nullptr &&
            (player->libero_unable != 0 || player->libero == LiberoRole::replaced ||
             barred(*player, c.set().number)));
}

[[nodiscard]] bool rally_lies_between(const Context& c, const Replacement& r) noexcept {
    const TeamSet& side = c.side(r.team);
    return side.replaced_yet == 0 || side.last_replacement != c.set().completed ||
           (side.unable_exception != 0 && cannot_go_on(c, r.team, r.out)) || r.returns_to_gap ||
           goes_to_serve(c, r);
}

struct Raiser {
    Context& c;
    const Replacement& r;
    void operator()(Reason reason, std::uint8_t repeat = 0) const noexcept {
        raise(c, {reason, r.team, {r.in, r.out}, r.slot, Changes{bit_of(r.slot), 0, 0}, repeat});
    }
};

void judge_moment(const Raiser& raiser) noexcept {
    Context& c = raiser.c;
    const SetState& set = c.set();
    const TeamSet& side = c.side(raiser.r.team);
    if (set.stage == Stage::in_play) {
        raiser(Reason::libero_late_replacement, 1);
    } else if (set.stage == Stage::whistled) {
        std::uint8_t& late = c.record(raiser.r.team).late_replacements;
        const bool delay = late > 0 || c.rules.late_replacement == LateReplacement::delay_at_once;
        raiser(Reason::libero_late_replacement, delay ? 1 : 0);
        count_up(late);
    }
    if (side.checked == 0) raiser(Reason::libero_before_check);
    if (switch_due(c.state) && c.rules.replacement_while_switch_due == 0)
        raiser(Reason::libero_before_switch);
    const bool excepted =
        side.unable_exception != 0 && cannot_go_on(c, raiser.r.team, raiser.r.out);
    if (set.replaying != 0 && c.rules.replacement_during_replay == 0 && !excepted)
        raiser(Reason::libero_during_replay);
}

/// A libero beside `libero` who stays on court when `leaving` goes.
[[nodiscard]] bool another_libero_on_court(const TeamSet& side, Jersey libero,
                                           Jersey leaving) noexcept {
    for (const SlotRecord& slot : side.slots) {
        const bool other =
            slot.on_court.worn() && slot.on_court != leaving && slot.on_court != libero;
        if (other && (slot.replaced.worn() || acts_as_libero(side, slot.on_court))) return true;
    }
    return false;
}

void judge_entering_libero(const Raiser& raiser) noexcept {
    const Context& c = raiser.c;
    const Replacement& r = raiser.r;
    const TeamSet& side = c.side(r.team);
    const PlayerRecord* player = find(c.record(r.team), r.in);
    if (barred(c.record(r.team), r.in, c.set().number))
        raiser(Reason::player_barred);
    else if (player != nullptr && player->libero == LiberoRole::replaced)
        raiser(Reason::redesignated_player_returns);
    else if (!acts_as_libero(side, r.in))
        raiser(Reason::libero_not_designated);
    else if (player != nullptr && player->libero_unable != 0)
        raiser(Reason::libero_unable);
    if (front_row(position_of(side, r.slot))) raiser(Reason::libero_front_row);
    if (!r.out_libero && barred(c.record(r.team), r.out, c.set().number) &&
        c.rules.libero_for_disqualified == 0)
        raiser(Reason::libero_for_disqualified);
    if (c.rules.starting_libero != 0 && c.set().number == 1 && side.replaced_yet == 0 &&
        acts_as_libero(side, r.in) && side.liberos[0].worn() && r.in != side.liberos[0])
        raiser(Reason::libero_not_starting);
    if (another_libero_on_court(side, r.in, r.out)) raiser(Reason::libero_two_on_court);
}

void judge_returning_player(const Raiser& raiser) noexcept {
    const Context& c = raiser.c;
    const Replacement& r = raiser.r;
    if (c.side(r.team).slots[r.slot - 1U].replaced != r.in) raiser(Reason::libero_wrong_returner);
    const PlayerRecord* player = find(c.record(r.team), r.in);
    if (barred(c.record(r.team), r.in, c.set().number))
        raiser(Reason::player_barred);
    else if (player != nullptr && player->libero == LiberoRole::replaced)
        raiser(Reason::redesignated_player_returns);
    if (!r.returns_to_gap || !acts_as_libero(c.side(r.team), r.in)) return;
    // A starter who is a libero too comes back to his place while the other one serves.
    if (front_row(position_of(c.side(r.team), r.slot))) raiser(Reason::libero_front_row);
    if (another_libero_on_court(c.side(r.team), r.in, Jersey::none()))
        raiser(Reason::libero_two_on_court);
}

/// Carries the replacement out, whatever the rules say of it.
void carry_out(Context& c, const Replacement& r) noexcept {
    TeamSet& side = c.side(r.team);
    SlotRecord& slot = side.slots[r.slot - 1U];
    // A libero who goes from one place to another leaves the first one empty for its player.
    if (r.in_slot != 0) side.slots[r.in_slot - 1U].on_court = Jersey::none();
    // Whoever comes in for a player who is no libero acts as one, designated or not.
    const bool returns = !r.in_libero && r.out_libero;
    if (returns)
        slot.replaced = Jersey::none();
    else if (!slot.replaced.worn())
        slot.replaced = r.out;
    slot.on_court = r.in;
    side.replaced_yet = 1;
    side.last_replacement = c.set().completed;
    update_captain(c, r.team);
}

/// How a replacement answers an armed fault of its team in the same place.
enum class Answered : std::uint8_t {
    not_at_all,
    taken_back,  ///< the player who left comes back for the one who should not have come
    put_right,   ///< the player who should have come takes the place of the one who did
};

[[nodiscard]] Answered answer_to(const Standing& fault, const LiberoReplacement& fact,
                                 std::uint8_t slot) noexcept {
    const bool same_place = fault.team == fact.team && fault.phase == Phase::armed &&
                            fault.slot == slot && fault.players[0] == fact.out;
    if (!same_place) return Answered::not_at_all;
    const SlotRecord& before = fault.undo.floor.slots[slot - 1U];
    if (before.on_court == fact.in) return Answered::taken_back;
    const bool rightful =
        fault.reason == Reason::libero_wrong_returner && before.replaced == fact.in;
    return rightful ? Answered::put_right : Answered::not_at_all;
}

/// A replacement that answers an armed fault is none of its own: the fault goes, with all that the
/// team has done in that place since. False when there is no such fault.
[[nodiscard]] bool puts_right(Context& c, const LiberoReplacement& fact) noexcept {
    TeamSet& side = c.side(fact.team);
    const std::uint8_t slot = slot_of(side, fact.out);
    if (slot == 0) return false;
    for (std::size_t i = 0; i < c.state.standing_count; ++i) {
        const Standing& fault = c.state.standing[i];
        const Answered answer = answer_to(fault, fact, slot);
        // Nobody stands in two places.
        if (answer == Answered::not_at_all || on_floor(side, fact.in) || !put_back(side, fault))
            continue;
        put_clock_back(side, fault.undo);
        if (answer == Answered::put_right) {
            side.slots[slot - 1U].on_court = fact.in;
            side.slots[slot - 1U].replaced = Jersey::none();
            side.replaced_yet = 1;
            side.last_replacement = c.set().completed;
        }
        update_captain(c, fact.team);
        end_undone(c, fact.team, slot, i);
        return true;
    }
    return false;
}

[[nodiscard]] bool other_libero_usable(const Context& c, Team team, Jersey out) noexcept {
    for (const Jersey libero : c.side(team).liberos)
        if (libero != out && usable_libero(c.state, team, libero)) return true;
    return false;
}

[[nodiscard]] bool unable(const Context& c, Team team, const PlayerRecord& libero) noexcept {
    return libero.libero_unable != 0 || barred(c.record(team), libero.jersey, c.set().number);
}

/// Whether the profile opens the place of a libero who was disqualified.
[[nodiscard]] bool disqualified_open(const Context& c, const Redesignation& fact) noexcept {
    switch (c.rules.redesignate_disqualified) {
        case DisqualifiedLibero::no:
            return false;
        case DisqualifiedLibero::yes:
            return true;
        case DisqualifiedLibero::sole:
            break;
    }
    for (const Jersey libero : c.side(fact.team).liberos)
        if (libero.worn() && libero != fact.out) return false;
    return true;
}

/// Whether the place of `out` is open for a new libero.
[[nodiscard]] bool redesignation_open(const Context& c, const Redesignation& fact) noexcept {
    const PlayerRecord* out = find(c.record(fact.team), fact.out);
    if (out == nullptr || out->libero != LiberoRole::designated) return false;
    if (!unable(c, fact.team, *out) && c.rules.declaration_is_enough == 0) return false;
    if (out->bar == Bar::disqualified && !disqualified_open(c, fact)) return false;
    return c.rules.redesignate_beside_active_libero != 0 ||
           !other_libero_usable(c, fact.team, fact.out);
}

[[nodiscard]] bool replaced_by_acting_libero(const TeamSet& side, Jersey jersey) noexcept {
    for (const SlotRecord& slot : side.slots)
        if (jersey.worn() && slot.replaced == jersey) return true;
    return false;
}

void judge_redesignation(Context& c, const Redesignation& fact) noexcept {
    const TeamSet& side = c.side(fact.team);
    const TeamRecord& record = c.record(fact.team);
    const auto say = [&](Reason reason) { raise(c, {reason, fact.team, {fact.in, fact.out}}); };
    if (!redesignation_open(c, fact)) say(Reason::redesignation_not_open);
    const PlayerRecord* in = find(record, fact.in);
    if (replaced_by_acting_libero(side, fact.in))
        say(Reason::redesignation_of_replaced_player);
    else if (on_floor(side, fact.in))
        say(Reason::redesignation_of_player_on_court);
    else if (in == nullptr || in->libero != LiberoRole::none ||
             barred(record, fact.in, c.set().number))
        say(Reason::redesignation_of_barred_player);
    if (fact.in == record.captain && c.rules.captain_may_be_redesignated == 0)
        say(Reason::captain_is_libero);
}

/// All liberos who are out at this moment stay out: the new one is the only one of the match.
void retire(Context& c, Team team, Jersey out) noexcept {
    TeamRecord& record = c.record(team);
    TeamSet& side = c.side(team);
    for (std::size_t i = 0; i < record.count; ++i) {
        PlayerRecord& player = record.players[i];
        if (!goes_out(player, out)) continue;
        player.libero = LiberoRole::replaced;
        for (Jersey& j : record.designated)
            if (j == player.jersey && j != out) j = Jersey::none();
        for (Jersey& j : side.liberos)
            if (j == player.jersey && j != out) j = Jersey::none();
    }
}

void carry_out(Context& c, const Redesignation& fact) noexcept {
    TeamRecord& record = c.record(fact.team);
    TeamSet& side = c.side(fact.team);
    count_up(record.redesignations);
    PlayerRecord* out = find_player(record, fact.out);
    // For somebody who is no libero nobody can be named: what was said changes nothing.
    if (out == nullptr || out->libero != LiberoRole::designated) return;
    // The record does not say why: where a coach's word has to wait, only a libero who was hurt
    // or sanctioned makes room at once.
    const bool waits = c.rules.declared_on_court == DeclaredOnCourt::after_rally;
    if (on_floor(side, fact.out) && !waits) side.unable_exception = 1;
    retire(c, fact.team, fact.out);
    for (std::size_t i = 0; i < libero_boxes; ++i) {
        if (record.designated[i] == fact.out) record.designated[i] = fact.in;
        if (side.liberos[i] == fact.out) side.liberos[i] = fact.in;
    }
    if (PlayerRecord* in = find_player(record, fact.in)) {
        in->libero = LiberoRole::designated;
        in->redesignated = 1;
    }
}

}  // namespace

void judge_fact(Context& c, const LiberoReplacement& fact) noexcept {
    if (c.set().interrupted != 0) {
        out_of_sequence(c, fact.team);
        return;
    }
    if (puts_right(c, fact)) return;
    const Replacement r = look(c, fact);
    const Raiser raiser{c, r};
    if (!playable(c.set()) || r.slot == 0 || (r.in_slot != 0 && !moves_to_serve(c, r))) {
        raiser(Reason::libero_out_of_place);
        return;
    }
    judge_moment(raiser);
    if (!r.in_libero && !r.out_libero)
        raiser(Reason::libero_not_designated);
    else if (r.in_libero)
        judge_entering_libero(raiser);
    else
        judge_returning_player(raiser);
    if (!rally_lies_between(c, r)) raiser(Reason::libero_no_completed_rally);
    carry_out(c, r);
}

void judge_fact(Context& c, const LiberoUnable& fact) noexcept {
    PlayerRecord* player = find_player(c.record(fact.team), fact.libero);
    TeamSet& side = c.side(fact.team);
    if (player == nullptr || player->libero != LiberoRole::designated) {
        raise(c, {Reason::libero_out_of_place, fact.team, {fact.libero, {}}});
        return;
    }
    // Where only injury or illness opens the role, a coach's word alone changes nothing.
    if (fact.cause == Cause::declared && c.rules.declaration_is_enough == 0) return;
    player->libero_unable = 1;
    const bool waits =
        fact.cause == Cause::declared && c.rules.declared_on_court == DeclaredOnCourt::after_rally;
    if (on_floor(side, fact.libero) && !waits) side.unable_exception = 1;
}

void judge_fact(Context& c, const Redesignation& fact) noexcept {
    judge_redesignation(c, fact);
    carry_out(c, fact);
}

}  // namespace courthand::rules
