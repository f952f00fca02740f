// What must happen before the next service, in the order in which a table would see to it.
#include <algorithm>

#include "courthand/rules/judge.h"
#include "rules/context.h"

namespace courthand {
namespace {

using Kind = Prompt::Kind;

[[nodiscard]] Prompt before_match(const MatchState& state) noexcept {
    for (const Team team : {Team::A, Team::B})
        if (state.team[team].count == 0) return {Kind::roster_missing, team, {}};
    const auto next = static_cast<std::uint8_t>(state.set.number + 1);
    const std::uint8_t tosses = state.format.deciding(next) && next > 1 ? 2 : 1;
    if (state.tossed < tosses) return {Kind::toss_missing, Team::A, {}};
    return {Kind::set_to_start, Team::A, {}};
}

void add_sheets(const Rules& rules, const MatchState& state, PromptList& list) noexcept {
    const bool start = state.set.rallies == 0;
    for (const Team team : {Team::A, Team::B})
        if (state.set.team[team].lineup_in == 0) list.add({Kind::lineup_missing, team, {}});
    for (const Team team : {Team::A, Team::B}) {
        const auto& boxes = state.set.team[team].boxes;
        if (start && rules::boxes_matter(rules, state, team) &&
            std::any_of(boxes.begin(), boxes.end(),
                        [](const LiberoBox& b) { return b.mark == LiberoBox::Mark::blank; }))
            list.add({Kind::libero_box_open, team, {}});
    }
    for (const Team team : {Team::A, Team::B})
        if (state.set.team[team].checked == 0) list.add({Kind::check_missing, team, {}});
}

/// The libero in this place may not be there when the service is hit.
[[nodiscard]] bool libero_must_leave(const Rules& rules, const MatchState& state, Team team,
                                     Position p) noexcept {
    const TeamSet& side = state.set.team[team];
    const Slot slot = side.rotation.slot_at(p);
    if (!side.slots[index(slot)].replaced.worn()) return false;
    if (front_row(p)) return true;
    const bool serves = state.set.serving == team && p == Position::I;
    return serves &&
           !rules::libero_may_serve_from(rules, side, static_cast<std::uint8_t>(index(slot) + 1));
}

void add_floor(const Rules& rules, const MatchState& state, Team team, PromptList& list) noexcept {
    const TeamSet& side = state.set.team[team];
    if (side.lineup_in == 0) return;
    for (const Position p : all_positions) {
        const SlotRecord& slot = side.slots[index(side.rotation.slot_at(p))];
        if (!slot.on_court.worn())
            list.add({Kind::place_empty, team, {slot.replaced, {}}});
        else if (libero_must_leave(rules, state, team, p))
            list.add({Kind::libero_must_leave, team, {slot.replaced, slot.on_court}});
        else if (rules::barred(state.team[team], slot.on_court, state.set.number))
            list.add({Kind::barred_must_leave, team, {slot.on_court, {}}});
    }
}

}  // namespace

PromptList next_steps(const Rules& rules, const MatchState& state) noexcept {
    const SetState& set = state.set;
    PromptList list;
    if (set.stage == Stage::match_over) {
        list.add({Kind::match_finished, state.winner, {}});
    } else if (set.interrupted != 0) {
        list.add({Kind::match_interrupted, set.serving, {}});
    } else if (set.stage == Stage::before_match || set.stage == Stage::set_over) {
        list.add(before_match(state));
    } else if (set.stage == Stage::in_play) {
        list.add({Kind::decide_rally, set.serving, {}});
    } else {
        add_sheets(rules, state, list);
        if (rules::switch_due(state)) list.add({Kind::courts_to_switch, set.serving, {}});
        for (const Team team : {Team::A, Team::B}) add_floor(rules, state, team, list);
        for (const Team team : {Team::A, Team::B})
            if (set.team[team].lineup_in != 0 && !set.team[team].game_captain.worn())
                list.add({Kind::captain_to_name, team, {}});
        list.add({Kind::serve, set.serving, {expected_server(set.team[set.serving]), {}}});
    }
    return list;
}

Prompt next_step(const Rules& rules, const MatchState& state) noexcept {
    return next_steps(rules, state).front();
}

}  // namespace courthand
