#include "rules/context.h"

namespace courthand::rules {

Places places_of(const TeamSet& team) noexcept {
    Places p;
    for (std::size_t s = 0; s < players_on_court; ++s) {
        p.on_court[s] = team.slots[s].on_court;
        p.regular[s] = team.slots[s].regular;
        p.replaced[s] = team.slots[s].replaced;
    }
    p.replaced_yet = team.replaced_yet;
    p.last_replacement = team.last_replacement;
    p.substitutions = team.substitutions;
    return p;
}

void place_starters(const TeamRecord& record, TeamSet& side, const Six& order) noexcept {
    side.players = {};
    for (std::size_t s = 0; s < players_on_court; ++s) {
        side.slots[s] = SlotRecord{order[s], order[s], {}, order[s], {}};
        if (PlayerSetRecord* player = find_set_player(record, side, order[s]))
            player->bound = static_cast<std::uint8_t>(s + 1);
    }
}

bool restore_slot(TeamSet& team, const Places& before, std::size_t slot) noexcept {
    if (on_floor(team, before.on_court[slot])) return false;
    team.slots[slot].on_court = before.on_court[slot];
    team.slots[slot].regular = before.regular[slot];
    team.slots[slot].replaced = before.replaced[slot];
    return true;
}

void uncount_entry(const TeamRecord& record, TeamSet& side, Pair pair, std::size_t slot) noexcept {
    SlotRecord& place = side.slots[slot];
    if (PlayerSetRecord* in = find_set_player(record, side, pair.in)) {
        if (in->entered > 0) --in->entered;
        const bool first_time = in->entered == 0 && pair.in != place.starter;
        if (first_time) in->bound = 0;
        if (first_time && place.substitute == pair.in) place.substitute = Jersey::none();
    }
    if (PlayerSetRecord* out = find_set_player(record, side, pair.out))
        if (out->left > 0) --out->left;
}

std::uint8_t slot_of(const TeamSet& team, Jersey jersey) noexcept {
    if (!jersey.worn()) return 0;
    for (std::size_t s = 0; s < players_on_court; ++s)
        if (team.slots[s].on_court == jersey) return static_cast<std::uint8_t>(s + 1);
    return 0;
}

bool on_floor(const TeamSet& team, Jersey jersey) noexcept { return slot_of(team, jersey) != 0; }

bool in_front_row(const TeamSet& team, Jersey jersey) noexcept {
    const std::uint8_t slot = slot_of(team, jersey);
    return slot != 0 && front_row(team.rotation.position_of(static_cast<Slot>(slot - 1)));
}

PlayerRecord* find_player(TeamRecord& team, Jersey jersey) noexcept {
    return const_cast<PlayerRecord*>(find(team, jersey));
}

PlayerSetRecord* find_set_player(const TeamRecord& team, TeamSet& side, Jersey jersey) noexcept {
    const PlayerRecord* player = find(team, jersey);
    return player == nullptr ? nullptr : &side.players[static_cast<std::size_t>(
                                             player - team.players.data())];
}

bool barred(const TeamRecord& team, Jersey jersey, std::uint8_t set) noexcept {
    const PlayerRecord* player = find(team, jersey);
    return player != nullptr && barred(*player, set);
}

bool barred(const PlayerRecord& player, std::uint8_t set) noexcept {
    switch (player.bar) {
        case Bar::none: return false;
        case Bar::expelled: return player.barred_set == set;
        case Bar::disqualified:
        case Bar::injured_out: return true;
    }
    return false;
}

bool usable_libero(const MatchState& state, Team team, Jersey jersey) noexcept {
    const PlayerRecord* player = find(state.team[team], jersey);
    return player != nullptr && player->libero == LiberoRole::designated &&
           player->libero_unable == 0 && !barred(state.team[team], jersey, state.set.number);
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
