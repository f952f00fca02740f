#include "server/desk/team_lists.h"

#include <algorithm>

namespace courthand::server::desk {

using event::TeamIndex;
using tournament::KnownRecord;

ListedPersons::ListedPersons(const KnownRecord& known) : known_{known} {
    for (const auto& [number, person] : known_.state->persons) {
        if (person.role != event::Role::player || person.team == event::no_team) continue;
        if (!person.jersey.worn()) continue;
        // Of two who wear one number, the one who was listed last does.
        const auto [place, first] = teams_[person.team].emplace(person.jersey.number(), number);
        if (!first && person.listed > this->person(place->second).listed) place->second = number;
    }
}

const ListedPersons::OfTeam& ListedPersons::of(TeamIndex team) const {
    static const OfTeam nobody;
    const auto found = teams_.find(team);
    return found == teams_.end() ? nobody : found->second;
}

std::optional<std::string> ListedPersons::name(Number number) const {
    const auto found = known_.words->find(person(number).listed);
    if (found == known_.words->end()) return std::nullopt;
    return found->second;
}

TeamId id_of_team(const KnownRecord& known, TeamIndex team) {
    return TeamId{(*known.ids)[known.state->teams[team].entered - 1].value};
}

std::optional<TeamIndex> find_team(const KnownRecord& known, TeamId id) {
    for (std::size_t team = 0; team < known.state->teams.size(); ++team) {
        const auto index = static_cast<TeamIndex>(team);
        if (id_of_team(known, index) == id) return index;
    }
    return std::nullopt;
}

Team team_list(const KnownRecord& known, const ListedPersons& persons, TeamIndex index) {
    const event::Team& entered = known.state->teams[index];
    Team team{id_of_team(known, index), entered.name, entered.club, entered.colour, {}, {},
              entered.last_pool};
    team.division = known.state->divisions[entered.division].rules.division;
    const ListedPersons::OfTeam& listed = persons.of(index);
    std::vector<std::uint8_t> numbers = entered.roster;
    if (entered.roster_frozen == 0)
        for (const auto& [number, person] : listed) numbers.push_back(number);
    for (const std::uint8_t number : numbers) {
        ListedPlayer player;
        player.number = Jersey{number};
        if (const auto found = listed.find(number); found != listed.end()) {
            player.name = persons.name(found->second);
            player.captain = persons.person(found->second).captain;
            player.libero = persons.person(found->second).libero;
        }
        team.players.push_back(std::move(player));
    }
    return team;
}

std::vector<Team> team_lists(const KnownRecord& known) {
    const ListedPersons persons{known};
    std::vector<Team> teams;
    for (std::size_t team = 0; team < known.state->teams.size(); ++team)
        teams.push_back(team_list(known, persons, static_cast<TeamIndex>(team)));
    std::sort(teams.begin(), teams.end(),
              [](const Team& one, const Team& other) { return one.name < other.name; });
    return teams;
}

}  // namespace courthand::server::desk
