#include "rules/context.h"

namespace courthand::rules {

Six by_position(const Floor& floor, Rotation rotation) noexcept {
    Six six{};
    for (const Position p : all_positions)
        six[index(p)] = floor.slots[index(rotation.slot_at(p))].on_court;
    return six;
}

void place_starters(const TeamRecord& record, TeamSet& side, const Six& order) noexcept {
    side.players = {};
    for (std::size_t s = 0; s < players_on_court; ++s) {
        side.slots[s] = SlotRecord{order[s], order[s], {}, order[s], {}};
        if (PlayerSetRecord* player = find_set_player(record, side, order[s]))
            player->bound = static_cast<std::uint8_t>(s + 1);
    }
}

std::uint8_t slot_of(const TeamSet& team, Jersey jersey) noexcept {
    if (!jersey.worn()) return 0;
    for (std::size_t s = 0; s < players_on_court; ++s)
        if (team.slots[s].on_court == jersey) return static_cast<std::uint8_t>(s + 1);
    return 0;
}

bool on_floor(const TeamSet& team, Jersey jersey) noexcept {
    return slot_of(team, jersey) != 0;
}

bool in_front_row(const TeamSet& team, Jersey jersey) noexcept {
    const std::uint8_t slot = slot_of(team, jersey);
    return slot != 0 && front_row(team.rotation.position_of(static_cast<Slot>(slot - 1)));
}

PlayerRecord* find_player(TeamRecord& team, Jersey jersey) noexcept {
    return const_cast<PlayerRecord*>(find(team, jersey));
}

PlayerSetRecord* find_set_player(const TeamRecord& team, TeamSet& side, Jersey jersey) noexcept {
    const PlayerRecord* player = find(team, jersey);
    return player == nullptr
               ? nullptr
               : &side.players[static_cast<std::size_t>(player - team.players.data())];
}

bool barred(const TeamRecord& team, Jersey jersey, std::uint8_t set) noexcept {
    const PlayerRecord* player = find(team, jersey);
    return player != nullptr && barred(*player, set);
}

bool usable_libero(const MatchState& state, Team team, Jersey jersey) noexcept {
    const PlayerRecord* player = find(state.team[team], jersey);
    return player != nullptr && player->libero == LiberoRole::designated &&
           player->libero_unable == 0 && !barred(state.team[team], jersey, state.set.number);
}

bool goes_out(const PlayerRecord& player, Jersey out) noexcept {
    if (player.libero == LiberoRole::none) return false;
    return player.jersey == out ||
           (player.libero == LiberoRole::designated && player.libero_unable != 0);
}

bool boxes_matter(const Rules& rules, const MatchState& state, Team team) noexcept {
    if (rules.box_needs_confirmation == 0) return false;
    if (state.set.number <= 1) return true;
    const bool fixed = rules.designation == DesignationScope::match ||
                       (rules.designation == DesignationScope::match_or_set &&
                        state.team[team].choice == DesignationChoice::two_for_match);
    return !fixed;
}

bool libero_barred_as_captain(const Rules& rules, const TeamSet& side, Jersey jersey) noexcept {
    return rules.libero_game_captain == 0 && acts_as_libero(side, jersey);
}

void update_captain(Context& c, Team team) noexcept {
    TeamSet& side = c.side(team);
    const bool may_lead = !libero_barred_as_captain(c.rules, side, side.captain);
    if (on_floor(side, side.captain) && may_lead) {
        side.game_captain = side.captain;
    } else if (!on_floor(side, side.game_captain)) {
        side.game_captain = Jersey::none();
    }
}

}  // namespace courthand::rules
