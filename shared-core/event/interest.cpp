#include "courthand/event/interest.h"

#include <algorithm>
#include <variant>

namespace courthand::event {

std::optional<Interest> interest_in(const TournamentState& state, const Person& person,
                                    TeamIndex team) {
    const auto& declared = person.conflicts;
    if (std::find(declared.begin(), declared.end(), team) != declared.end())
        return Interest{Interest::Kind::declared, team};
    if (person.team == no_team) return std::nullopt;
    if (person.team == team) return Interest{Interest::Kind::own_team, team};
    const std::string& club = state.teams[person.team].club;
    if (!club.empty() && club == state.teams[team].club)
        return Interest{Interest::Kind::own_club, team};
    return std::nullopt;
}

std::vector<Interest> interests(const TournamentState& state, const Person& person) {
    std::vector<Interest> found;
    for (std::size_t t = 0; t < state.teams.size(); ++t)
        if (const auto one = interest_in(state, person, static_cast<TeamIndex>(t)))
            found.push_back(*one);
    return found;
}

std::vector<FactNumber> declarations(const TournamentState& state, std::uint16_t person,
                                     TeamIndex team) {
    std::vector<FactNumber> numbers;
    for (FactNumber number = 1; number <= state.last(); ++number) {
        if (!state.counts[number - 1]) continue;
        const auto* fact = std::get_if<ConflictDeclared>(&state.facts[number - 1]);
        if (fact != nullptr && fact->person == person && fact->team == state.teams[team].name)
            numbers.push_back(number);
    }
    return numbers;
}

}  // namespace courthand::event
