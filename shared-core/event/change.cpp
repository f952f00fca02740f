#include "courthand/event/change.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <string_view>
#include <type_traits>
#include <utility>

#include "courthand/event/advance.h"
#include "courthand/event/duty.h"
#include "courthand/event/fact_fields.h"

namespace courthand::event {
namespace {

constexpr std::string_view none = "none";

/// What is seen of one thing: what it is called, and its value in words.
using Seen = std::vector<std::pair<std::string, std::string>>;

[[nodiscard]] std::string or_none(std::string words) {
    return words.empty() ? std::string{none} : std::move(words);
}

[[nodiscard]] std::string listed(const std::vector<std::string>& parts) {
    return fmt::format("{}", fmt::join(parts, ", "));
}

/// "first_referee" as people write it.
[[nodiscard]] std::string plain(std::string_view name) {
    std::string words{name};
    std::replace(words.begin(), words.end(), '_', ' ');
    return words;
}

[[nodiscard]] std::string_view value_in(const Seen& seen, std::string_view what,
                                        std::string_view otherwise) {
    const auto found = std::find_if(seen.begin(), seen.end(),
                                    [what](const auto& each) { return each.first == what; });
    return found == seen.end() ? otherwise : std::string_view{found->second};
}

/// What differs between two lookings at one thing.
void compare(std::string_view of, const Seen& was, const Seen& is, std::vector<Change>& found) {
    for (const auto& [what, value] : was) {
        const std::string_view now = value_in(is, what, none);
        if (now != value) found.push_back({std::string{of}, what, value, std::string{now}});
    }
}

// --- matches ------------------------------------------------------------------------------------

[[nodiscard]] std::string side_in_words(const TournamentState& state, MatchRef ref,
                                        std::size_t which) {
    const Side side = state.side(ref, which);
    if (side.is_team()) return state.teams[side.team].name;
    if (side.state == Side::State::bye) return "bye";
    return source_words(state, ref.division, state.node(ref).sides[which]);
}

[[nodiscard]] std::string result_in_words(const MatchState& match) {
    if (!match.result) return {};
    std::string words;
    for (const SetScore set : match.result->sets)
        words += fmt::format("{}{}-{}", words.empty() ? "" : " ", set.first, set.second);
    if (match.result->award)
        words += fmt::format("{}{}", words.empty() ? "" : ", ", choice_word(*match.result->award));
    if (!match.result_counts) words += ", does not count";
    return words;
}

[[nodiscard]] std::string time_in_words(const Placement& placement) {
    std::string words = placement.timing == Timing::follows ? "after the match before" : "";
    if (!placement.at.given()) return words;
    std::string at = written(placement.at);
    std::replace(at.begin(), at.end(), 'T', ' ');
    return words.empty() ? at : fmt::format("{}, about {}", words, at);
}

[[nodiscard]] std::string duty_in_words(const TournamentState& state, MatchRef ref) {
    const Duty& duty = state.match(ref).duty;
    std::vector<std::string> parts;
    if (const auto source = workers_of(state, ref)) {
        const Side workers = state.divisions[ref.division].settled[*source];
        parts.push_back(workers.is_team() ? state.teams[workers.team].name
                                          : source_words(state, ref.division, *source));
    }
    if (!duty.crew.empty()) parts.push_back("crew " + duty.crew);
    if (duty.first_referee != 0)
        parts.push_back(fmt::format("first referee {}", duty.first_referee));
    if (duty.second_referee != 0)
        parts.push_back(fmt::format("second referee {}", duty.second_referee));
    return listed(parts);
}

[[nodiscard]] std::string carried_in_words(const TournamentState& state, const MatchState& match) {
    std::string words;
    for (const CarriedPoints& carried : match.carried)
        words += fmt::format("{}{} of {}", words.empty() ? "" : ", ", carried.points,
                             state.teams[carried.team].name);
    return words;
}

[[nodiscard]] Seen seen_of_match(const TournamentState& state, MatchRef ref) {
    const MatchState& match = state.match(ref);
    const auto& placement = match.placement;
    return {{"first side", side_in_words(state, ref, 0)},
            {"second side", side_in_words(state, ref, 1)},
            {"result", or_none(result_in_words(match))},
            {"court", or_none(placement ? fmt::format("{}", placement->court) : "")},
            {"time", or_none(placement ? time_in_words(*placement) : "")},
            {"points carried", or_none(carried_in_words(state, match))}};
}

void changed_matches(const TournamentState& before, const TournamentState& after,
                     std::vector<Change>& found) {
    for (const Division& division : before.divisions)
        for (const tournament::Match& node : division.graph.matches) {
            const auto was = before.find_match(node.name);
            const auto is = after.find_match(node.name);
            if (is)
                compare(node.name, seen_of_match(before, *was), seen_of_match(after, *is), found);
            else
                found.push_back({node.name, "",
                                 fmt::format("{} - {}", side_in_words(before, *was, 0),
                                             side_in_words(before, *was, 1)),
                                 "no such match"});
        }
}

/// The duty that is given, or that the order of play gives.
void changed_work(const TournamentState& before, const TournamentState& after,
                  std::vector<Change>& found) {
    for (const Division& division : before.divisions)
        for (const tournament::Match& node : division.graph.matches)
            if (const auto is = after.find_match(node.name)) {
                const MatchRef was = *before.find_match(node.name);
                compare(node.name, {{"work", or_none(duty_in_words(before, was))}},
                        {{"work", or_none(duty_in_words(after, *is))}}, found);
            }
}

// --- places, teams, courts, divisions -----------------------------------------------------------

/// The teams at each settled place, sorted. A place that several share has all of them; so has one
/// for which several brackets of a division are played.
using Places = std::map<std::string, std::vector<std::string>>;

[[nodiscard]] Places places_of(const TournamentState& state, DivisionIndex index) {
    const Division& division = state.divisions[index];
    const std::string& code = division.rules.division;
    Places places;
    for (const PoolState& pool : division.pools)
        for (std::size_t i = 0; i < pool.order.size(); ++i)
            if (pool.order[i] != no_team)
                places[fmt::format("place {} of pool {} in {}", i + 1, pool.name, code)].push_back(
                    state.teams[pool.order[i]].name);
    for (const Ended& ended : final_places(state, index))
        places[fmt::format("place {} in {}", ended.first, code)].push_back(
            state.teams[ended.team].name);
    for (auto& [place, teams] : places) std::sort(teams.begin(), teams.end());
    return places;
}

[[nodiscard]] std::vector<std::string> without(const std::vector<std::string>& teams,
                                               const std::vector<std::string>& others) {
    std::vector<std::string> left;
    std::set_difference(teams.begin(), teams.end(), others.begin(), others.end(),
                        std::back_inserter(left));
    return left;
}

/// Who is at a place no longer, and who has come to it instead.
void changed_places(const TournamentState& before, const TournamentState& after,
                    std::vector<Change>& found) {
    for (DivisionIndex d = 0; d < before.division_count(); ++d) {
        const auto there = after.find_division(before.divisions[d].rules.division);
        Places now = there ? places_of(after, *there) : Places{};
        for (const auto& [place, teams] : places_of(before, d)) {
            const auto gone = without(teams, now[place]);
            if (gone.empty()) continue;
            const auto come = without(now[place], teams);
            found.push_back({place, "", listed(gone), come.empty() ? "open" : listed(come)});
        }
    }
}

[[nodiscard]] Seen seen_of_team(const TournamentState& state, const Team& team) {
    const Division& division = state.divisions[team.division];
    const auto& seeds = division.seeds;
    const auto index = state.find_team(team.name);
    const auto seed = index ? std::find(seeds.begin(), seeds.end(), *index) : seeds.end();
    std::string roster;
    for (const std::uint8_t number : team.roster)
        roster += fmt::format("{}{}", roster.empty() ? "" : " ", number);
    return {
        {"pool", or_none(team.pool ? division.pools[*team.pool].name : std::string{})},
        {"seed", or_none(seed == seeds.end() ? "" : fmt::format("{}", seed - seeds.begin() + 1))},
        {"plays", team.withdrawn ? "no, withdrawn" : "yes"},
        {"club", or_none(team.club)},
        {"colour", or_none(team.colour)},
        {"pool of the last event", or_none(team.last_pool)},
        {"frozen list", or_none(std::move(roster))}};
}

void changed_teams(const TournamentState& before, const TournamentState& after,
                   std::vector<Change>& found) {
    for (const Team& team : before.teams) {
        const auto is = after.find_team(team.name);
        if (is)
            compare(team.name, seen_of_team(before, team), seen_of_team(after, after.teams[*is]),
                    found);
        else
            found.push_back({team.name, "",
                             "entered in " + before.divisions[team.division].rules.division,
                             "not entered"});
    }
}

[[nodiscard]] Seen seen_of_court(const Court& court) {
    std::string hours;
    for (const Hours& day : court.hours)
        hours += fmt::format("{}{} to {}", hours.empty() ? "" : ", ", written(day.opens),
                             written(day.closes));
    std::replace(hours.begin(), hours.end(), 'T', ' ');
    std::string features;
    for (const std::string& feature : court.features)
        features += (features.empty() ? "" : ", ") + feature;
    return {{"name", or_none(court.name)},
            {"hours", or_none(std::move(hours))},
            {"features", or_none(std::move(features))}};
}

void changed_courts(const TournamentState& before, const TournamentState& after,
                    std::vector<Change>& found) {
    for (const auto& [number, court] : before.courts) {
        const std::string name = fmt::format("court {}", number);
        const auto is = after.courts.find(number);
        if (is != after.courts.end())
            compare(name, seen_of_court(court), seen_of_court(is->second), found);
        else
            found.push_back({name, "", "open", "not open"});
    }
}

/// Every part of it: what is left out could not be seen to change.
[[nodiscard]] std::string in_words(const FormatChoice& choice) {
    if (!choice.own) return "as the rules say";
    const MatchFormat& f = choice.format;
    const auto up_to = [](std::uint8_t points, std::uint8_t cap) {
        return cap == 0 ? fmt::format("{}", points) : fmt::format("{} (at most {})", points, cap);
    };
    return fmt::format("{}{} to {}, the deciding one to {}, lead {}, from {}, switch at {}",
                       f.all_sets_played != 0 ? "all sets of " : "best of ", f.sets,
                       up_to(f.points, f.cap), up_to(f.deciding_points, f.deciding_cap), f.lead,
                       f.start_score, f.switch_at);
}

/// What a division is played under: every field of its opening, by its name there.
[[nodiscard]] Seen seen_of_division(const DivisionOpened& rules) {
    Seen seen;
    for_each_field<DivisionOpened>([&](const auto& field) {
        const auto& value = rules.*field.member;
        using Value = std::remove_cvref_t<decltype(value)>;
        std::string words;
        if constexpr (std::is_same_v<Value, std::string>)
            words = value;
        else if constexpr (std::is_same_v<Value, FormatChoice>)
            words = in_words(value);
        else if constexpr (std::is_enum_v<Value>)
            words = std::string{choice_word(value)};
        else
            words = fmt::format("{}", value);
        seen.emplace_back(plain(field.name), or_none(std::move(words)));
    });
    return seen;
}

void changed_confirmer(const TournamentState& before, const TournamentState& after,
                       std::vector<Change>& found) {
    if (before.confirmer != after.confirmer)
        found.push_back({"tournament", "results confirmed by",
                         std::string{choice_word(before.confirmer)},
                         std::string{choice_word(after.confirmer)}});
}

void changed_divisions(const TournamentState& before, const TournamentState& after,
                       std::vector<Change>& found) {
    for (const Division& division : before.divisions) {
        const std::string name = "division " + division.rules.division;
        const auto is = after.find_division(division.rules.division);
        if (is)
            compare(name, seen_of_division(division.rules),
                    seen_of_division(after.divisions[*is].rules), found);
        else
            found.push_back({name, "", "open", "not open"});
    }
}

// --- people -------------------------------------------------------------------------------------

/// By role, team and number of the jersey. The name stands beside the fact that lists the person:
/// of another fact it may be somebody else.
[[nodiscard]] std::string in_words(const TournamentState& state, const Person& person) {
    std::string role{choice_word(person.role)};
    if (person.team != no_team) role += " of " + state.teams[person.team].name;
    std::vector<std::string> parts{role};
    if (person.jersey.worn()) parts.push_back(fmt::format("number {}", person.jersey.number()));
    if (person.captain) parts.emplace_back("captain");
    if (person.libero) parts.emplace_back("libero");
    parts.push_back(fmt::format("listed by fact {}", person.listed));
    return listed(parts);
}

[[nodiscard]] Seen seen_of_person(const TournamentState& state, const Person& person) {
    std::vector<std::string> conflicts;
    for (const TeamIndex team : person.conflicts) conflicts.push_back(state.teams[team].name);
    std::sort(conflicts.begin(), conflicts.end());
    return {{"", in_words(state, person)}, {"conflicts", or_none(listed(conflicts))}};
}

void changed_persons(const TournamentState& before, const TournamentState& after,
                     std::vector<Change>& found) {
    for (const auto& [number, person] : before.persons) {
        const std::string name = fmt::format("person {}", number);
        const auto is = after.persons.find(number);
        if (is != after.persons.end())
            compare(name, seen_of_person(before, person), seen_of_person(after, is->second), found);
        else
            found.push_back({name, "", in_words(before, person), "not listed"});
    }
}

[[nodiscard]] Seen seen_of_opening(const TournamentOpened& opened) {
    return {{"name", opened.name},
            {"first day", written(opened.first_day)},
            {"last day", written(opened.last_day)},
            {"time zone", opened.time_zone}};
}

/// Times stay as they were said; without an opening they are of UTC.
void changed_opening(const TournamentState& before, const TournamentState& after,
                     std::vector<Change>& found) {
    if (!before.opened) return;
    if (after.opened)
        return compare("tournament", seen_of_opening(*before.opened),
                       seen_of_opening(*after.opened), found);
    found.push_back({"tournament", "", before.opened->name, "not open"});
    found.push_back({"tournament", "time zone", before.opened->time_zone, "UTC"});
}

[[nodiscard]] Seen seen_of_crew(const std::vector<std::uint16_t>& persons) {
    return {{"persons", or_none(fmt::format("{}", fmt::join(persons, ", ")))}};
}

void changed_crews(const TournamentState& before, const TournamentState& after,
                   std::vector<Change>& found) {
    for (const auto& [crew, persons] : before.crews) {
        const auto is = after.crews.find(crew);
        if (is != after.crews.end())
            compare("crew " + crew, seen_of_crew(persons), seen_of_crew(is->second), found);
        else
            found.push_back({"crew " + crew, "", "formed", "not formed"});
    }
}

}  // namespace

std::vector<Change> changes(const TournamentState& before, const TournamentState& after) {
    std::vector<Change> found;
    changed_opening(before, after, found);
    changed_matches(before, after, found);
    changed_places(before, after, found);
    // Much of it follows from the order of play: it must not crowd out who plays.
    changed_work(before, after, found);
    changed_teams(before, after, found);
    changed_courts(before, after, found);
    changed_confirmer(before, after, found);
    changed_divisions(before, after, found);
    changed_persons(before, after, found);
    changed_crews(before, after, found);
    return found;
}

}  // namespace courthand::event
