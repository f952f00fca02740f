#include "server/desk/desk_store.h"

#include <fmt/format.h>

#include <map>
#include <optional>
#include <string>
#include <utility>

#include "server/desk/court_facts.h"
#include "server/desk/list_facts.h"
#include "server/desk/people_facts.h"
#include "server/desk/team_lists.h"

namespace courthand::server::desk {

using tournament::Act;
using tournament::KnownRecord;
using tournament::Speaker;

namespace {

/// What is missing of the teams, as much as goes into one act, a team's facts together.
struct MissingLists {
    std::vector<Act::Said> facts;
    std::size_t teams_left = 0;  ///< of which something is missing
};

Result<MissingLists> missing_lists(const KnownRecord& known, std::span<const Team> teams,
                                   const std::string& reason) {
    ListFacts lists{known, reason};
    MissingLists missing;
    bool full = false;
    for (const Team& team : teams) {
        auto facts = lists.of(team);
        if (!facts.ok()) return facts.status();
        if (facts->empty()) continue;
        ++missing.teams_left;
        full = full || missing.facts.size() + facts->size() > tournament::most_facts_per_append;
        if (!full) std::move(facts->begin(), facts->end(), std::back_inserter(missing.facts));
    }
    return missing;
}

/// The people of the file, each with the name of the team in the record.
Result<std::vector<RosterPerson>> people_of(const KnownRecord& known, const RosterFile& file) {
    const ListFacts lists{known};
    std::map<std::string, std::string> names;
    for (const Team& team : file.teams) {
        auto name = lists.name_of(team);
        if (!name.ok()) return name.status();
        names.emplace(team.name, *std::move(name));
    }
    std::vector<RosterPerson> people = file.people;
    for (RosterPerson& person : people)
        if (const auto name = names.find(person.team); name != names.end())
            person.team = name->second;
    return people;
}

Result<std::vector<event::Said>> missing_people(const KnownRecord& known, const RosterFile& file) {
    const auto people = people_of(known, file);
    if (!people.ok()) return people.status();
    const ListedPersons listed{known};
    NamesByPerson names;
    for (const auto& [number, person] : known.state->persons)
        if (auto name = listed.name(number)) names.emplace(number, *std::move(name));
    return people_facts(*known.state, names, *people);
}

}  // namespace

Result<KnownRecord> DeskStore::now() {
    const Status status = record_.catch_up();
    if (status.passing()) return status;
    return record_.known();
}

Result<std::vector<Team>> DeskStore::teams() {
    const auto known = now();
    if (!known.ok()) return known.status();
    return team_lists(*known);
}

Result<Team> DeskStore::team(TeamId id) {
    const auto listed = [id](const KnownRecord& known) -> std::optional<Team> {
        const auto index = find_team(known, id);
        if (!index) return std::nullopt;
        return team_list(known, ListedPersons{known}, *index);
    };
    if (auto team = listed(record_.known())) return *std::move(team);
    const auto known = now();
    if (!known.ok()) return known.status();
    if (auto team = listed(*known)) return *std::move(team);
    return Status::failed(StatusCode::not_found, "there is no such team");
}

Status DeskStore::check_teams(std::span<const Team> teams, const std::string& reason) {
    const auto known = now();
    return known.ok() ? missing_lists(*known, teams, reason).status() : known.status();
}

Result<std::vector<Team>> DeskStore::keep_teams(const Speaker& speaker, std::span<const Team> teams,
                                                const std::string& reason) {
    std::size_t left = teams.size();
    const auto known = tournament::say(
        record_, speaker, [&](const KnownRecord& record) -> Result<std::vector<Act::Said>> {
            auto missing = missing_lists(record, teams, reason);
            if (!missing.ok()) return missing.status();
            left = missing->teams_left;
            return std::move(missing->facts);
        });
    if (!known.ok()) {
        if (left == 0 || left == teams.size()) return known.status();
        Status status = known.status();
        status.message = fmt::format("{} of {} lists are kept: {}", teams.size() - left,
                                     teams.size(), status.message);
        status.cure = "import the same file again: what is kept is not said twice";
        return status;
    }
    const ListFacts lists{*known};
    const ListedPersons persons{*known};
    std::vector<Team> kept;
    for (const Team& team : teams) {
        const auto name = lists.name_of(team);
        if (!name.ok()) return name.status();
        kept.push_back(team_list(*known, persons, *known->state->find_team(*name)));
    }
    return kept;
}

Status DeskStore::check_people(const RosterFile& file) {
    const auto known = now();
    return known.ok() ? missing_people(*known, file).status() : known.status();
}

Status DeskStore::keep_people(const Speaker& speaker, const RosterFile& file) {
    const auto missing = [&](const KnownRecord& known) -> Result<std::vector<Act::Said>> {
        auto facts = missing_people(known, file);
        if (!facts.ok()) return facts.status();
        if (facts->size() > tournament::most_facts_per_append)
            facts->resize(tournament::most_facts_per_append);
        return tournament::newly_said(*std::move(facts));
    };
    return tournament::say(record_, speaker, missing).status();
}

Result<std::vector<Court>> DeskStore::courts() {
    const auto known = now();
    if (!known.ok()) return known.status();
    std::vector<Court> courts;
    for (const auto& [number, court] : known->state->courts) courts.push_back({number, court.name});
    return courts;
}

Status DeskStore::keep_court(const Speaker& speaker, const Court& court) {
    if (court.number == 0 || court.number > event::most_courts)
        return Status::failed(StatusCode::invalid,
                              fmt::format("{} is not a court number", court.number),
                              fmt::format("courts are numbered 1 to {}", event::most_courts));
    return tournament::say(record_, speaker,
                           [&](const KnownRecord& known) -> Result<std::vector<Act::Said>> {
                               return tournament::newly_said(court_facts(*known.state, court));
                           })
        .status();
}

}  // namespace courthand::server::desk
