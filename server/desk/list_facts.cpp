#include "server/desk/list_facts.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "courthand/event/act.h"
#include "courthand/event/fact_fields.h"

namespace courthand::server::desk {

using event::TeamIndex;
using tournament::Act;

namespace {

constexpr std::uint16_t nobody = 0;

Status invalid(std::string message, std::string cure) {
    return Status::failed(StatusCode::invalid, std::move(message), std::move(cure));
}

bool one_club(const std::string& one, const std::string& other) {
    return one.empty() || other.empty() || one == other;
}

std::string with_club(const Team& team) {
    return fmt::format("{} ({})", team.name, team.club);
}

/// The first fact that breaks a bound.
Status within_bounds(const std::string& team, const std::vector<event::Said>& said) {
    for (const event::Said& one : said)
        if (const auto wrong = event::out_of_bounds(one.fact))
            return invalid(fmt::format("{}: {} {}", team, wrong->field, wrong->message),
                           "correct the list and import it again");
    return Status::fine();
}

}  // namespace

event::DivisionOpened usual_division() {
    event::DivisionOpened division;
    division.division = "open";
    division.profile = "international-2025";
    division.chain = "international-2017";
    return division;
}

ListFacts::ListFacts(const tournament::KnownRecord& known, std::string reason)
    : known_{known}, reason_{std::move(reason)}, persons_{known} {}

std::optional<TeamIndex> ListFacts::known_as(const Team& team) const {
    if (!team.id.nil()) return find_team(known_, team.id);
    const event::TournamentState& state = *known_.state;
    if (const auto index = state.find_team(team.name);
        index && one_club(state.teams[*index].club, team.club))
        return index;
    if (team.club.empty()) return std::nullopt;
    const auto index = state.find_team(with_club(team));
    if (index && state.teams[*index].club == team.club) return index;
    return std::nullopt;
}

Result<std::string> ListFacts::name_of(const Team& team) const {
    const event::TournamentState& state = *known_.state;
    if (const auto index = known_as(team)) return state.teams[*index].name;
    const auto other = state.find_team(team.name);
    if (!other) return team.name;
    return invalid(fmt::format("there is a team {} of {} already, and names are given once",
                               team.name, state.teams[*other].club),
                   fmt::format("call this one {}", with_club(team)));
}

Result<std::vector<Act::Said>> ListFacts::of(const Team& team) {
    const auto name = name_of(team);
    if (!name.ok()) return name.status();
    if (!named_.insert(*name).second)
        return invalid(fmt::format("there are two teams {}, and names are given once", *name),
                       "give one of the two another name");
    const auto index = known_as(team);
    Said said;
    if (index)
        describe(team, *index, said);
    else if (Status status = enter(team, *name, said); !status.ok())
        return status;
    // A file of coaches says nothing about the players of a team that is there.
    if (!index || !team.players.empty())
        if (Status status = list(team, *name, index, said); !status.ok()) return status;
    if (Status status = within_bounds(*name, said); !status.ok()) return status;
    std::vector<Act::Said> facts;
    for (event::Said& one : said) {
        const bool entry = std::holds_alternative<event::TeamEntered>(one.fact) && !team.id.nil();
        facts.push_back({tournament::FactId{entry ? team.id.value : new_uuid()}, std::move(one)});
    }
    return facts;
}

Result<std::string> ListFacts::division_of(const Team& team, Said& said) {
    const event::TournamentState& state = *known_.state;
    if (!team.division.empty()) {
        if (state.find_division(team.division)) return team.division;
        return invalid(fmt::format("{}: there is no division {}", team.name, team.division),
                       "open it first, or correct its code");
    }
    if (state.divisions.size() == 1) return state.divisions.front().rules.division;
    if (!state.divisions.empty())
        return invalid(fmt::format("{}: the tournament has several divisions", team.name),
                       "enter the team in one of them, then import its list");
    const event::DivisionOpened usual = usual_division();
    if (!std::exchange(division_said_, true)) said.push_back({usual, {}});
    return usual.division;
}

Status ListFacts::enter(const Team& team, const std::string& name, Said& said) {
    if (known_.state->teams.size() + ++entered_ > event::most_teams)
        return Status::failed(StatusCode::exhausted,
                              fmt::format("{}: more than {} teams", name, event::most_teams),
                              "begin a new tournament for the others");
    const auto division = division_of(team, said);
    if (!division.ok()) return division.status();
    said.push_back(
        {event::TeamEntered{name, *division, team.club, team.colour, team.last_pool}, {}});
    return Status::fine();
}

void ListFacts::describe(const Team& team, TeamIndex index, Said& said) const {
    const event::Team& known = known_.state->teams[index];
    event::TeamDescribed described{known.name, team.club.empty() ? known.club : team.club,
                                   team.colour.empty() ? known.colour : team.colour,
                                   team.last_pool.empty() ? known.last_pool : team.last_pool};
    if (described.club != known.club || described.colour != known.colour ||
        described.last_pool != known.last_pool)
        said.push_back({std::move(described), {}});
}

/// Who wears a number goes on to be the same person unless the names differ; who is named goes on
/// under another number. All others are new.
std::vector<std::uint16_t> ListFacts::persons_for(const Team& team,
                                                  const ListedPersons::OfTeam& listed) {
    std::vector<std::uint16_t> chosen(team.players.size(), nobody);
    const auto free = [&](std::uint16_t person) {
        return std::find(chosen.begin(), chosen.end(), person) == chosen.end();
    };
    for (std::size_t i = 0; i < chosen.size(); ++i) {
        const ListedPlayer& player = team.players[i];
        const auto wears = listed.find(player.number.number());
        if (wears == listed.end()) continue;
        const auto name = persons_.name(wears->second);
        if (!name || !player.name || *name == *player.name) chosen[i] = wears->second;
    }
    for (std::size_t i = 0; i < chosen.size(); ++i) {
        if (chosen[i] != nobody || !team.players[i].name) continue;
        for (const auto& [number, person] : listed)
            if (free(person) && persons_.name(person) == team.players[i].name) chosen[i] = person;
    }
    for (std::uint16_t& person : chosen)
        if (person == nobody) person = new_person();
    return chosen;
}

std::uint16_t ListFacts::new_person() {
    while (known_.state->persons.contains(static_cast<std::uint16_t>(next_person_)) &&
           next_person_ <= event::most_persons)
        ++next_person_;
    return static_cast<std::uint16_t>(next_person_++);
}

Status ListFacts::list(const Team& team, const std::string& name, std::optional<TeamIndex> index,
                       Said& said) {
    static const ListedPersons::OfTeam none;
    const ListedPersons::OfTeam& listed = index ? persons_.of(*index) : none;
    const std::vector<std::uint16_t> chosen = persons_for(team, listed);
    for (const auto& [number, person] : listed)
        if (std::find(chosen.begin(), chosen.end(), person) == chosen.end())
            said.push_back({event::PersonListed{person, event::Role::player, "", {}},
                            persons_.name(person).value_or("")});
    std::vector<std::uint8_t> numbers;
    for (std::size_t i = 0; i < chosen.size(); ++i) {
        const ListedPlayer& player = team.players[i];
        numbers.push_back(player.number.number());
        if (chosen[i] > event::most_persons)
            return Status::failed(
                StatusCode::exhausted,
                fmt::format("{}: more than {} persons", name, event::most_persons),
                "begin a new tournament for the others");
        const auto wears = listed.find(player.number.number());
        const bool known = wears != listed.end() && wears->second == chosen[i];
        const auto known_name = known ? persons_.name(chosen[i]) : std::nullopt;
        // A list of numbers alone takes nobody's name away.
        const auto& written = player.name ? player.name : known_name;
        if (known && persons_.person(chosen[i]).captain == player.captain &&
            persons_.person(chosen[i]).libero == player.libero && known_name == written)
            continue;
        said.push_back({event::PersonListed{chosen[i], event::Role::player, name, player.number,
                                            player.captain, player.libero},
                        written.value_or("")});
    }
    return freeze(name, index, std::move(numbers), said);
}

/// What of a frozen list changes changes with the list, frozen anew for a reason, also where its
/// numbers are the same.
Status ListFacts::freeze(const std::string& name, std::optional<TeamIndex> index,
                         std::vector<std::uint8_t> numbers, Said& said) const {
    const event::TournamentState& state = *known_.state;
    const bool frozen = index && state.teams[*index].roster_frozen != 0;
    if (frozen && state.teams[*index].roster == numbers && event::objections(state, said).empty())
        return Status::fine();
    said.push_back({event::RosterFrozen{name, std::move(numbers)}, frozen ? reason_ : ""});
    if (!frozen) return Status::fine();
    const auto objected = event::objections(state, said);
    if (objected.empty()) return Status::fine();
    const auto& fault = objected.front().fault;
    return invalid(fmt::format("{}: {}", fault.place, fault.message),
                   "say the reason beside the change");
}

}  // namespace courthand::server::desk
