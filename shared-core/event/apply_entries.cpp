#include <fmt/format.h>

#include <algorithm>

#include "event/applier.h"
#include "event/settlement.h"

namespace courthand::event {
namespace {

template <class Item>
[[nodiscard]] bool has_twice(std::vector<Item> items) {
    std::sort(items.begin(), items.end());
    return std::adjacent_find(items.begin(), items.end()) != items.end();
}

}  // namespace

void Applier::operator()(const TeamEntered& fact) {
    const auto in = division(fact.division);
    if (!in) return;
    if (state_.find_team(fact.team))
        return find(Problem::name_taken, fact.team, "there is a team of this name already",
                    "give one of the two another name");
    if (state_.teams.size() >= most_teams)
        return find(Problem::too_many, fact.team, fmt::format("more than {} teams", most_teams),
                    "divide the event");
    const auto index = static_cast<TeamIndex>(state_.teams.size());
    Team team;
    team.name = fact.team;
    team.club = fact.club;
    team.colour = fact.colour;
    team.last_pool = fact.last_pool;
    team.division = *in;
    team.entered = number_;
    state_.teams.push_back(std::move(team));
    state_.team_names.emplace(fact.team, index);
    state_.divisions[*in].teams.push_back(index);
}

void Applier::operator()(const TeamDescribed& fact) {
    const auto index = team(fact.team);
    if (!index) return;
    state_.teams[*index].club = fact.club;
    state_.teams[*index].colour = fact.colour;
    state_.teams[*index].last_pool = fact.last_pool;
}

void Applier::operator()(const TeamWithdrawn& fact) {
    const auto index = team(fact.team);
    if (!index) return;
    Team& team = state_.teams[*index];
    if (team.withdrawn)
        return find(Problem::withdrawn, fact.team, "it has left already", "nothing is to be done");
    team.withdrawn = true;
    if (team.pool) Settlement{state_, state_.divisions[team.division]}.pool(*team.pool);
}

void Applier::operator()(const RosterFrozen& fact) {
    const auto index = team(fact.team);
    if (!index) return;
    if (has_twice(fact.numbers))
        return find(Problem::number_twice, fact.team, "its list has a number twice",
                    "give each player one number");
    Team& team = state_.teams[*index];
    team.roster = fact.numbers;
    team.roster_frozen = number_;
}

void Applier::operator()(const PersonListed& fact) {
    Person person;
    person.role = fact.role;
    person.jersey = fact.jersey;
    person.captain = fact.captain;
    person.libero = fact.libero;
    person.listed = number_;
    if (!fact.team.empty()) {
        const auto of = team(fact.team);
        if (!of) return;
        person.team = *of;
    }
    const auto known = state_.persons.find(fact.person);
    if (known != state_.persons.end()) person.conflicts = known->second.conflicts;
    state_.persons[fact.person] = std::move(person);
}

void Applier::operator()(const ConflictDeclared& fact) {
    const auto with = team(fact.team);
    if (!with || !person(fact.person)) return;
    auto& conflicts = state_.persons[fact.person].conflicts;
    if (std::find(conflicts.begin(), conflicts.end(), *with) == conflicts.end())
        conflicts.push_back(*with);
}

void Applier::operator()(const CrewFormed& fact) {
    if (has_twice(fact.persons))
        return find(Problem::number_twice, fact.crew, "the crew has a person twice",
                    "name each person once");
    for (const std::uint16_t p : fact.persons)
        if (!person(p)) return;
    if (state_.crews.size() >= most_crews && !state_.crews.contains(fact.crew))
        return find(Problem::too_many, fact.crew, fmt::format("more than {} crews", most_crews),
                    "use those that are there");
    state_.crews[fact.crew] = fact.persons;
}

void Applier::operator()(const SeedsGiven& fact) {
    const auto in = division(fact.division);
    if (!in) return;
    std::vector<TeamIndex> given;
    for (const std::string& name : fact.teams) {
        const auto index = team(name);
        if (!index) return;
        if (state_.teams[*index].division != *in)
            return find(Problem::other_division, name, "it plays in another division",
                        "leave it out of these seeds");
        given.push_back(*index);
    }
    if (has_twice(given))
        return find(Problem::number_twice, "seeds of " + fact.division, "a team has two seeds",
                    "name each team once");
    auto& seeds = state_.divisions[*in].seeds;
    for (TeamIndex& seed : seeds)
        if (std::find(given.begin(), given.end(), seed) != given.end()) seed = no_team;
    const std::size_t end = fact.first - 1U + given.size();
    if (seeds.size() < end) seeds.resize(end, no_team);
    std::copy(given.begin(), given.end(), seeds.begin() + (fact.first - 1));
    Settlement{state_, state_.divisions[*in]}.seeds();
}

}  // namespace courthand::event
