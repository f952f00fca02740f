// Whether a fault goes on: before the next service, and in the rally that it begins.
#include "rules/context.h"

namespace courthand::rules {
namespace {

[[nodiscard]] bool in_a_box(const TeamSet& side, Jersey jersey) noexcept {
    for (const LiberoBox& box : side.boxes)
        if (box.mark == LiberoBox::Mark::number && box.number == jersey) return true;
    return false;
}

[[nodiscard]] bool place_empty(const TeamSet& side) noexcept {
    for (const SlotRecord& slot : side.slots)
        if (!slot.on_court.worn()) return true;
    return false;
}

/// A libero of the set, or whoever stands on court for another player as one.
[[nodiscard]] bool plays_as_libero(const TeamSet& side, Jersey jersey) noexcept {
    const std::uint8_t slot = slot_of(side, jersey);
    return acts_as_libero(side, jersey) || (slot != 0 && side.slots[slot - 1U].replaced.worn());
}

/// A number has more than so many of the six places, or a box.
[[nodiscard]] bool more_than(std::size_t places, const TeamSet& side, Jersey jersey) noexcept {
    std::size_t n = 0;
    for (const SlotRecord& slot : side.slots)
        if (slot.on_court == jersey) ++n;
    return n > places || in_a_box(side, jersey);
}

}  // namespace

bool box_blank(const TeamSet& side) noexcept {
    for (const LiberoBox& box : side.boxes)
        if (box.mark == LiberoBox::Mark::blank) return true;
    return false;
}

bool still_so(const MatchState& state, const Standing& fault) noexcept {
    const TeamSet& side = state.set.team[fault.team];
    const Jersey subject = fault.players[0];
    switch (describe(fault.reason).lasts) {
        case Lasts::in_front_row:
            return in_front_row(side, subject) && plays_as_libero(side, subject);
        case Lasts::not_allowed:
        case Lasts::not_listed:
            return on_floor(side, subject) || (fault.slot == 0 && in_a_box(side, subject));
        case Lasts::six_or_box:
            return more_than(0, side, subject);
        case Lasts::six_twice:
            return more_than(1, side, subject);
        case Lasts::libero_leads:
            return !side.game_captain.worn() || acts_as_libero(side, side.game_captain);
        case Lasts::nobody_leads:
            return !side.game_captain.worn();
        case Lasts::sheet_missing:
            return side.lineup_in == 0;
        case Lasts::box_blank:
            return box_blank(side);
        case Lasts::place_empty:
            return place_empty(side);
        case Lasts::not_switched:
            return switch_due(state);
        // What was done stays done until it is put back or ruled.
        case Lasts::in_place:
        case Lasts::until_answered:
        case Lasts::this_rally:
        case Lasts::serving:
        case Lasts::other_slot:
        case Lasts::out_of_turn:
        case Lasts::on_the_sheet:
            return true;
    }
    return true;
}

bool played_now(const MatchState& state, const Standing& fault, Server server) noexcept {
    const TeamSet& side = state.set.team[fault.team];
    const Jersey subject = fault.players[0];
    const bool serves = server.team == fault.team && server.jersey == subject;
    switch (describe(fault.reason).lasts) {
        case Lasts::this_rally:
            return false;
        case Lasts::serving:
            return serves;
        case Lasts::other_slot:
            return serves && slot_of(side, subject) != side.serving_slot;
        case Lasts::out_of_turn:
            return serves && (state.set.serving != fault.team || expected_server(side) != subject);
        case Lasts::in_front_row:
            return in_front_row(side, subject);
        case Lasts::not_allowed:
        case Lasts::not_listed:
            return on_floor(side, subject);
        case Lasts::in_place:
            // Of a sheet no place is told, only who.
            if (fault.slot == 0) return !subject.worn() || on_floor(side, subject);
            return side.slots[fault.slot - 1U].on_court == subject;
        case Lasts::until_answered:
        case Lasts::six_twice:
        case Lasts::six_or_box:
        case Lasts::on_the_sheet:
        case Lasts::libero_leads:
        case Lasts::nobody_leads:
        case Lasts::sheet_missing:
        case Lasts::box_blank:
        case Lasts::place_empty:
        case Lasts::not_switched:
            return true;
    }
    return true;
}

}  // namespace courthand::rules
