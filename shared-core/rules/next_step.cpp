// What must happen before the next service, in the order in which a table would see to it.
#include <optional>

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

[[nodiscard]] std::optional<Prompt> sheets(const Rules& rules, const MatchState& state) noexcept {
    const bool start = state.set.rallies == 0;
    for (const Team team : {Team::A, Team::B})
        if (state.set.team[team].lineup_in == 0) return Prompt{Kind::lineup_missing, team, {}};
    for (const Team team : {Team::A, Team::B})
        for (const LiberoBox& box : state.set.team[team].boxes)
            if (start && rules::boxes_matter(rules, state, team) &&
                box.mark == LiberoBox::Mark::blank)
                return Prompt{Kind::libero_box_open, team, {}};
    for (const Team team : {Team::A, Team::B})
        if (state.set.team[team].checked == 0) return Prompt{Kind::check_missing, team, {}};
    return std::nullopt;
}

[[nodiscard]] std::optional<Prompt> floor(const MatchState& state, Team team) noexcept {
    const TeamSet& side = state.set.team[team];
    for (const Position p : all_positions) {
        const SlotRecord& slot = side.slots[index(side.rotation.slot_at(p))];
        if (!slot.on_court.worn()) return Prompt{Kind::place_empty, team, {slot.replaced, {}}};
        if (front_row(p) && slot.replaced.worn())
            return Prompt{Kind::libero_must_leave, team, {slot.replaced, slot.on_court}};
        if (rules::barred(state.team[team], slot.on_court, state.set.number))
            return Prompt{Kind::barred_must_leave, team, {slot.on_court, {}}};
    }
    return std::nullopt;
}

}  // namespace

Prompt next_step(const Rules& rules, const MatchState& state) noexcept {
    const SetState& set = state.set;
    if (set.stage == Stage::match_over) return {Kind::match_finished, state.winner, {}};
    if (set.interrupted != 0) return {Kind::match_interrupted, set.serving, {}};
    if (set.stage == Stage::before_match || set.stage == Stage::set_over)
        return before_match(state);
    if (set.stage == Stage::in_play) return {Kind::decide_rally, set.serving, {}};
    if (const auto p = sheets(rules, state)) return *p;
    if (rules::switch_due(state)) return {Kind::courts_to_switch, set.serving, {}};
    for (const Team team : {Team::A, Team::B})
        if (const auto p = floor(state, team)) return *p;
    for (const Team team : {Team::A, Team::B})
        if (!set.team[team].game_captain.worn()) return {Kind::captain_to_name, team, {}};
    return {Kind::serve, set.serving, {expected_server(set.team[set.serving]), {}}};
}

}  // namespace courthand
