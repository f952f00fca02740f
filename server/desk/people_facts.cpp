#include "server/desk/people_facts.h"

#include <fmt/format.h>

#include <map>
#include <set>
#include <tuple>
#include <utility>

#include "courthand/event/limits.h"

namespace courthand::server::desk {
namespace {

/// By which a person is known again.
using Identity = std::tuple<event::Role, std::string, std::string>;

std::string team_of(const event::TournamentState& state, const event::Person& person) {
    return person.team == event::no_team ? std::string{} : state.teams[person.team].name;
}

}  // namespace

Result<std::vector<event::Said>> people_facts(const event::TournamentState& state,
                                              const NamesByPerson& names,
                                              std::span<const RosterPerson> people) {
    std::set<Identity> known;
    for (const auto& [number, name] : names)
        if (const auto person = state.persons.find(number); person != state.persons.end())
            known.insert({person->second.role, team_of(state, person->second), name});
    std::map<std::pair<event::Role, std::string>, std::size_t> nameless;
    for (const auto& [number, person] : state.persons)
        if (!names.contains(number)) ++nameless[{person.role, team_of(state, person)}];
    const auto is_known = [&](const RosterPerson& row) {
        if (row.name) return !known.insert({row.role, row.team, *row.name}).second;
        std::size_t& left = nameless[{row.role, row.team}];
        if (left == 0) return false;
        --left;
        return true;
    };
    std::vector<event::Said> said;
    std::uint32_t number = 0;
    for (const RosterPerson& row : people) {
        if (is_known(row)) continue;
        do ++number;
        while (number <= event::most_persons &&
               state.persons.contains(static_cast<std::uint16_t>(number)));
        if (number > event::most_persons)
            return Status::failed(StatusCode::exhausted,
                                  fmt::format("line {}: the event has {} persons already", row.line,
                                              event::most_persons),
                                  "take people out of the list who are not needed");
        event::PersonListed listed;
        listed.person = static_cast<std::uint16_t>(number);
        listed.role = row.role;
        listed.team = row.team;
        said.push_back({listed, row.name.value_or(std::string{})});
    }
    return said;
}

}  // namespace courthand::server::desk
