// What merely is so and must not be when a service is authorised or hit.
#include "rules/context.h"

namespace courthand::rules {
namespace {

void raise_of(Context& c, Reason reason, Team team, Jersey subject) noexcept {
    raise_once(c, {reason, team, {subject, Jersey::none()}, slot_of(c.side(team), subject)});
}

/// No service of the match counts yet.
[[nodiscard]] bool match_begins(const SetState& set) noexcept {
    return set.number == 1 && set.rallies == 0;
}

[[nodiscard]] bool someone_can_come_in(const Context& c, Team team) noexcept {
    const TeamSet& side = c.side(team);
    const TeamRecord& record = c.record(team);
    for (std::size_t i = 0; i < record.count; ++i) {
        const PlayerRecord& player = record.players[i];
        if (!on_floor(side, player.jersey) && !acts_as_libero(side, player.jersey) &&
            !barred(player, c.set().number))
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

void raise_of_player(Context& c, Team team, const PlayerRecord* player, Jersey subject) noexcept {
    if (player == nullptr) {
        raise_of(c, Reason::player_unregistered, team, subject);
        note_stranger(c, team);
    } else if (barred(*player, c.set().number)) {
        raise_of(c, Reason::player_barred, team, subject);
    } else if (player->libero == LiberoRole::replaced) {
        raise_of(c, Reason::redesignated_player_returns, team, subject);
    }
}

/// The team may not begin this rally with fewer than six.
[[nodiscard]] bool six_needed(const Rules& rules, const SetState& set) noexcept {
    return rules.six_must_play != 0 || (rules.six_must_start != 0 && match_begins(set));
}

/// Where a team may play on short, someone fit on the bench must come in first.
void raise_of_gap(Context& c, Team team) noexcept {
    if (c.rules.six_must_play == 0 && someone_can_come_in(c, team))
        raise_of(c, Reason::sub_required, team, Jersey::none());
    else if (six_needed(c.rules, c.set()))
        raise_of(c, Reason::team_short, team, Jersey::none());
}

/// The six who stand on court. Nearly always nothing is to be said of them, and that is quick.
void look_at_floor(Context& c, Team team) noexcept {
    const TeamSet& side = c.side(team);
    const TeamRecord& record = c.record(team);
    bool gap = false;
    for (const Position p : all_positions) {
        const SlotRecord& place = side.slots[index(side.rotation.slot_at(p))];
        const Jersey subject = place.on_court;
        if (!subject.worn()) {
            gap = true;
            continue;
        }
        if (front_row(p) && (place.replaced.worn() || acts_as_libero(side, subject)))
            raise_of(c, Reason::libero_front_row, team, subject);
        const PlayerRecord* player = find(record, subject);
        if (player == nullptr || player->bar != Bar::none || player->libero == LiberoRole::replaced)
            raise_of_player(c, team, player, subject);
    }
    if (gap) raise_of_gap(c, team);
    if (!side.game_captain.worn()) raise_of(c, Reason::captain_missing, team, Jersey::none());
}

/// Everything that must be right before the service, for one team.
void look_at_team(Context& c, Team team) noexcept {
    const TeamSet& side = c.side(team);
    if (side.lineup_in == 0) {
        raise_of(c, Reason::lineup_missing, team, Jersey::none());
        return;
    }
    if (c.set().rallies == 0 && box_blank(side) && boxes_matter(c.rules, c.state, team))
        raise_of(c, Reason::libero_box_unconfirmed, team, Jersey::none());
    look_at_floor(c, team);
}

}  // namespace

void look_at_conditions(Context& c) noexcept {
    look_at_team(c, Team::A);
    look_at_team(c, Team::B);
    // One missed change is one verdict, whichever team serves when it is seen again.
    const Team server = c.set().serving;
    if (switch_due(c.state) && !stands(c.state, Reason::switch_due, opponent(server)))
        raise_once(c, {Reason::switch_due, server});
}

}  // namespace courthand::rules
