// The image of a team that is kept with a fault, and how what the act did is taken back from it: by
// the team itself before it counts, or by a referee later, when other things have been done since.
#include <algorithm>
#include <bit>
#include <optional>

#include "rules/context.h"

namespace courthand::rules {
namespace {

[[nodiscard]] Roles roles_of(const TeamRecord& record, const TeamSet& side,
                             const Named& players) noexcept {
    Roles roles;
    roles.of_match = record.designated;
    roles.of_set = side.liberos;
    std::size_t n = 0;
    for (std::size_t i = 0; i < record.count && n < libero_boxes; ++i)
        if (record.players[i].libero == LiberoRole::designated &&
            goes_out(record.players[i], players[1]))
            roles.retired[n++] = record.players[i].jersey;
    if (const PlayerRecord* in = find(record, players[0])) {
        roles.in_role = in->libero;
        roles.in_redesignated = in->redesignated;
    }
    if (const PlayerRecord* out = find(record, players[1])) {
        roles.out_unable = out->libero_unable;
        roles.out_bar = out->bar;
    }
    return roles;
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

[[nodiscard]] bool changes(const Standing& fault, std::size_t slot) noexcept {
    return (fault.undo.changes.slots >> slot & 1U) != 0;
}

/// A request that may still be refused: it has not been played with.
[[nodiscard]] bool is_request(const Standing& fault) noexcept {
    const ReasonRow& row = describe(fault.reason);
    return row.life == Life::request || (row.answer == Answer::improper && !played_with(fault));
}

/// Only the illegal act is undone: a substitution made since in the same place stays. A request
/// that is refused takes with it what was done there since.
[[nodiscard]] bool still_to_undo(const TeamSet& side, const Standing& fault,
                                 std::size_t slot) noexcept {
    const bool substituted_since = side.slots[slot].regular != fault.undo.floor.slots[slot].regular;
    return changes(fault, slot) && (is_request(fault) || !substituted_since);
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
    const SlotRecord& before = fault.undo.floor.slots[slot];
    if (free_for(side, undo, before.on_court, slot)) return before.on_court;
    if (before.replaced.worn() && free_for(side, undo, before.replaced, slot))
        return before.replaced;
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

/// How many players whom the request brought in are counted in this place.
[[nodiscard]] std::uint8_t counted_in(const TeamRecord& record, TeamSet& side,
                                      const Standing& request, std::size_t slot) noexcept {
    std::uint8_t count = 0;
    for (std::size_t i = 0; i < players_on_court; ++i) {
        if ((request.undo.counted >> i & 1U) == 0) continue;
        const PlayerSetRecord* player = find_set_player(record, side, request.undo.entered[i]);
        if (player != nullptr && player->bound == slot + 1) ++count;
    }
    return count;
}

[[nodiscard]] bool brought_in(const Standing& request, Jersey jersey) noexcept {
    const Six& entered = request.undo.entered;
    return std::find(entered.begin(), entered.end(), jersey) != entered.end();
}

/// Everybody who has moved in this place has moved as before the request. Substitutions made there
/// since leave the team's count; those of the request itself leave it with its pairs.
void uncount(const TeamRecord& record, TeamSet& side, const Standing& request,
             std::size_t slot) noexcept {
    std::uint8_t made = 0;
    const std::uint8_t own = counted_in(record, side, request, slot);
    for (std::size_t i = 0; i < record.count; ++i) {
        PlayerSetRecord& now = side.players[i];
        const PlayerSetRecord& before = request.undo.moves[i];
        const Jersey jersey = record.players[i].jersey;
        const bool here = now.bound == slot + 1 || before.bound == slot + 1;
        // Whom a referee let in is bound to no place.
        const bool let_in = !here && jersey == side.slots[slot].regular;
        if (!here && !let_in) continue;
        if ((here || !brought_in(request, jersey)) && now.entered > before.entered)
            made = static_cast<std::uint8_t>(made + now.entered - before.entered);
        now = before;
    }
    side.slots[slot].substitute = request.undo.floor.slots[slot].substitute;
    count_down(made, own);
    count_down(side.substitutions, made);
}

/// The number of pairs that a fault stands for in one of its places.
[[nodiscard]] std::uint8_t pairs_in_a_place(const Changes& act) noexcept {
    const int places = std::popcount(act.slots);
    return places > 1 ? std::uint8_t{act.pairs != 0} : act.pairs;
}

/// Several verdicts may be about one act: the first of them stands for what it did in this place.
[[nodiscard]] bool first_about_it(const MatchState& state, std::size_t i,
                                  std::size_t slot) noexcept {
    const Standing& fault = state.standing[i];
    return std::none_of(
        state.standing.begin(), state.standing.begin() + static_cast<std::ptrdiff_t>(i),
        [&](const Standing& other) {
            return other.team == fault.team && other.entry == fault.entry && changes(other, slot);
        });
}

/// What later substitutions did in this place goes with a refused request, the last first:
/// afterwards their verdicts have nothing to take back there.
void take_with(Context& c, const Standing& fault, std::size_t slot) noexcept {
    if (!is_request(fault)) return;
    TeamSet& side = c.side(fault.team);
    for (std::size_t i = c.state.standing_count; i-- > 0;) {
        Standing& later = c.state.standing[i];
        Changes& act = later.undo.changes;
        if (later.team != fault.team || later.entry <= fault.entry) continue;
        if (act.pairs == 0 || !changes(later, slot)) continue;
        const std::uint8_t pairs = pairs_in_a_place(act);
        if (first_about_it(c.state, i, slot)) {
            if (is_request(later)) uncount(c.record(later.team), side, later, slot);
            count_down(side.substitutions, pairs);
            const SlotRecord& before = later.undo.floor.slots[slot];
            SlotRecord& place = side.slots[slot];
            place.on_court = before.on_court;
            place.regular = before.regular;
            place.replaced = before.replaced;
        }
        count_down(act.pairs, pairs);
        act.slots =
            static_cast<std::uint8_t>(act.slots & ~bit_of(static_cast<std::uint8_t>(slot + 1U)));
    }
}

/// Puts all places of the act back and gives them; first they are all read, since pairs of one
/// request may hang together like a chain.
PlacesToUndo put_places_back(Context& c, const Standing& fault) noexcept {
    TeamSet& side = c.side(fault.team);
    const PlacesToUndo undo = places_to_undo(side, fault);
    Six back{};
    for (std::size_t s = 0; s < players_on_court; ++s)
        if (undo[s]) back[s] = *returner(side, fault, undo, s);
    for (std::size_t s = 0; s < players_on_court; ++s) {
        if (!undo[s]) continue;
        if (is_request(fault)) uncount(c.record(fault.team), side, fault, s);
        const SlotRecord& before = fault.undo.floor.slots[s];
        SlotRecord& place = side.slots[s];
        place.on_court = back[s];
        place.regular = before.regular;
        place.replaced = back[s] == before.on_court ? before.replaced : Jersey::none();
    }
    for (std::size_t s = 0; s < players_on_court; ++s)
        if (undo[s]) no_libero_in_front(side, s);
    return undo;
}

/// Pairs of an undone request that are no longer counted: those in places that stay are.
[[nodiscard]] std::uint8_t pairs_taken_back(const Standing& fault,
                                            const PlacesToUndo& undo) noexcept {
    std::uint8_t taken_back = fault.undo.changes.pairs;
    for (std::size_t s = 0; s < players_on_court; ++s)
        if (changes(fault, s) && !undo[s]) count_down(taken_back, 1);
    return taken_back;
}

/// An exceptional substitution that was not allowed does not keep its player out of the match.
void uncount_exception(Context& c, const Standing& fault) noexcept {
    --c.side(fault.team).exceptional;
    PlayerRecord* out = find_player(c.record(fault.team), fault.players[1]);
    if (out != nullptr && out->bar == Bar::injured_out) out->bar = fault.undo.roles.out_bar;
}

void take_back_places(Context& c, const Standing& fault) noexcept {
    TeamSet& side = c.side(fault.team);
    const Changes& act = fault.undo.changes;
    const PlacesToUndo those = places_to_undo(side, fault);
    for (std::size_t s = 0; s < players_on_court; ++s)
        if (those[s]) take_with(c, fault, s);
    const PlacesToUndo undo = put_places_back(c, fault);
    count_down(side.substitutions, pairs_taken_back(fault, undo));
    if (undo == PlacesToUndo{}) return;
    if (act.exceptional != 0) uncount_exception(c, fault);
    // A replacement that the team has made since still counts for the rally between.
    if (act.pairs == 0 && side.last_replacement == fault.completed)
        put_clock_back(side, fault.undo);
}

/// Everybody is again what he was before a re-designation.
void take_back_designation(Context& c, const Standing& fault) noexcept {
    TeamRecord& record = c.record(fault.team);
    const Roles& before = fault.undo.roles;
    record.designated = before.of_match;
    c.side(fault.team).liberos = before.of_set;
    for (const Jersey retired : before.retired)
        if (PlayerRecord* player = find_player(record, retired))
            player->libero = LiberoRole::designated;
    if (PlayerRecord* out = find_player(record, fault.players[1]))
        out->libero_unable = before.out_unable;
    if (PlayerRecord* in = find_player(record, fault.players[0])) {
        in->libero = before.in_role;
        in->redesignated = before.in_redesignated;
    }
    --record.redesignations;
}

}  // namespace

Undo undo_of(const MatchState& state, const Fault& fault) noexcept {
    const TeamSet& side = state.set.team[fault.team];
    Undo undo;
    undo.last_replacement = side.last_replacement;
    undo.replaced_yet = side.replaced_yet;
    undo.floor = {side.slots, side.rotation};
    // Only these two acts change what somebody is.
    if (fault.changes.exceptional != 0 || describe(fault.reason).group == Group::designations)
        undo.roles = roles_of(state.team[fault.team], side, fault.players);
    undo.changes = fault.changes;
    const ReasonRow& row = describe(fault.reason);
    if (row.life == Life::request || row.answer == Answer::improper) undo.moves = side.players;
    return undo;
}

bool put_back(TeamSet& side, const Standing& fault) noexcept {
    const std::size_t slot = fault.slot - 1U;
    const SlotRecord& before = fault.undo.floor.slots[slot];
    if (on_floor(side, before.on_court)) return false;
    side.slots[slot].on_court = before.on_court;
    side.slots[slot].regular = before.regular;
    side.slots[slot].replaced = before.replaced;
    count_down(side.substitutions, fault.undo.changes.pairs);
    return true;
}

void put_clock_back(TeamSet& side, const Undo& undo) noexcept {
    side.replaced_yet = undo.replaced_yet;
    side.last_replacement = undo.last_replacement;
}

void take_back(Context& c, const Standing& fault) noexcept {
    const ReasonRow& row = describe(fault.reason);
    TeamSet& side = c.side(fault.team);
    if (row.group == Group::designations) {
        take_back_designation(c, fault);
        return;
    }
    if (row.answer == Answer::improper) {
        // A request that was only written down leaves nothing to take back.
        if (fault.repeat != 0) return;
        // One for a time-out names no player, and leaves the team its count.
        if (fault.players == Named{}) {
            count_down(side.time_outs, 1);
            return;
        }
    }
    if (fault.undo.changes.slots != 0)
        take_back_places(c, fault);
    else if (row.life != Life::request)  // a request that brought nobody in has changed nothing
        send_off(side, fault);
    update_captain(c, fault.team);
}

std::uint8_t libero_to_go(const TeamSet& side, const Standing& fault) noexcept {
    if (describe(fault.reason).lasts != Lasts::not_allowed) return 0;
    const std::uint8_t slot = slot_of(side, fault.players[0]);
    return slot != 0 && side.slots[slot - 1U].replaced.worn() ? slot : std::uint8_t{0};
}

}  // namespace courthand::rules
