// What forbids to keep an act.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <variant>

#include "courthand/event/act.h"
#include "courthand/event/fold.h"
#include "courthand/standings/unvalued.h"
#include "event/score_check.h"

namespace courthand::event {
namespace {

[[nodiscard]] bool says_nothing(const std::string& words) {
    return words.find_first_not_of(" \t\r\n") == std::string::npos;
}

// --- frozen lists -------------------------------------------------------------------------------

struct Wearer {
    std::uint16_t person = 0;
    bool captain = false;
    bool libero = false;
    FactNumber listed = 0;
};

/// Who wears each number of a frozen list; nobody: only the number was told.
using FrozenList = std::map<std::uint8_t, std::optional<Wearer>>;
using FrozenLists = std::map<std::string, FrozenList>;

using Names = std::set<std::string>;

/// Teams whose lists `fact` may change. Nothing: a taking back may change any.
[[nodiscard]] std::optional<Names> within_reach(const TournamentState& state, const Fact& fact) {
    if (const auto* const frozen = std::get_if<RosterFrozen>(&fact)) return Names{frozen->team};
    if (std::holds_alternative<TakenBack>(fact)) return std::nullopt;
    const auto* const listed = std::get_if<PersonListed>(&fact);
    if (listed == nullptr) return Names{};
    Names teams{listed->team};
    const auto known = state.persons.find(listed->person);
    if (known != state.persons.end() && known->second.team != no_team)
        teams.insert(state.teams[known->second.team].name);
    return teams;
}

/// The frozen lists of these teams; nothing: of all.
[[nodiscard]] FrozenLists frozen_lists(const TournamentState& state,
                                       const std::optional<Names>& wanted) {
    FrozenLists lists;
    std::map<TeamIndex, FrozenList*> by_team;
    for (std::size_t t = 0; t < state.teams.size(); ++t) {
        const Team& team = state.teams[t];
        if (team.roster_frozen == 0 || (wanted && !wanted->contains(team.name))) continue;
        FrozenList& list = lists[team.name];
        for (const std::uint8_t number : team.roster) list.emplace(number, std::nullopt);
        by_team.emplace(static_cast<TeamIndex>(t), &list);
    }
    if (lists.empty()) return lists;
    for (const auto& [number, person] : state.persons) {
        const auto team = by_team.find(person.team);
        if (team == by_team.end() || person.role != Role::player || !person.jersey.worn()) continue;
        const auto place = team->second->find(person.jersey.number());
        if (place == team->second->end()) continue;
        // Of two who wear one number, the one who was listed last does.
        if (!place->second || place->second->listed < person.listed)
            place->second = Wearer{number, person.captain, person.libero, person.listed};
    }
    return lists;
}

/// Whether it is the list of before. Where only a number was told, somebody may be named.
[[nodiscard]] bool goes_on(const FrozenList& before, const FrozenList& after) {
    return std::equal(before.begin(), before.end(), after.begin(), after.end(),
                      [](const auto& one, const auto& other) {
                          if (one.first != other.first) return false;
                          const std::optional<Wearer>& was = one.second;
                          const std::optional<Wearer>& is = other.second;
                          return !was || (is && was->person == is->person &&
                                          was->captain == is->captain && was->libero == is->libero);
                      });
}

/// Teams whose frozen lists an act changes and says why: beside a list that it freezes anew.
[[nodiscard]] Names explained_lists(std::span<const Said> said) {
    Names teams;
    for (const Said& one : said)
        if (const auto* const frozen = std::get_if<RosterFrozen>(&one.fact))
            if (!says_nothing(one.words)) teams.insert(frozen->team);
    return teams;
}

/// Whether words beside `said` tell why a list changes. Beside a person stands the name.
[[nodiscard]] bool tells_why(const Said& said) {
    return !std::holds_alternative<PersonListed>(said.fact) && !says_nothing(said.words);
}

[[nodiscard]] std::string cure_of(const Fact& fact) {
    if (std::holds_alternative<PersonListed>(fact))
        return "freeze the list anew in the same act, and say the reason beside it";
    if (std::holds_alternative<TakenBack>(fact))
        return "say the reason beside it, or change the list anew for a reason";
    return "say the reason beside the change";
}

/// Lists that were frozen before `said` and are others now, a team that is gone among them: it may
/// be entered again with any list.
void object_to_lists(const FrozenLists& before, const TournamentState& now, const Said& said,
                     const Names& explained, std::vector<Finding>& found) {
    if (before.empty()) return;
    Names teams;
    for (const auto& [team, list] : before) teams.insert(team);
    const FrozenLists after = frozen_lists(now, teams);
    for (const auto& [team, list] : before) {
        const auto is = after.find(team);
        if (is != after.end() && goes_on(list, is->second)) continue;
        if (std::holds_alternative<PersonListed>(said.fact) && explained.contains(team)) continue;
        found.push_back(
            {now.last(),
             Problem::reason_missing,
             {team, "its list is frozen, and nothing says why it changes", cure_of(said.fact)}});
        return;
    }
}

// --- times --------------------------------------------------------------------------------------

[[nodiscard]] bool opens(const std::vector<bool>& counts, std::span<const Fact> facts) {
    for (std::size_t i = 0; i < facts.size(); ++i) {
        const auto* const opened = std::get_if<TournamentOpened>(&facts[i]);
        if (opened != nullptr && counts[i] && opened->first_day <= opened->last_day) return true;
    }
    return false;
}

/// For each fact, whether the tournament was open when it was said.
[[nodiscard]] std::vector<bool> open_at(std::span<const Fact> facts) {
    std::vector<bool> open(facts.size());
    std::vector<bool> reaches(facts.size());  // an opening, or a taking back of one
    bool now = false;
    for (std::size_t i = 0; i < facts.size(); ++i) {
        const auto* const back = std::get_if<TakenBack>(&facts[i]);
        reaches[i] = back == nullptr
                         ? std::holds_alternative<TournamentOpened>(facts[i])
                         : back->fact >= 1 && back->fact <= i && reaches[back->fact - 1];
        if (reaches[i]) now = opens(counting(facts.first(i + 1)), facts.first(i + 1));
        open[i] = now;
    }
    return open;
}

[[nodiscard]] bool is_utc(std::string_view zone) {
    return zone == "UTC" || zone == "Etc/UTC";
}

/// Matches whose times a time zone has moved.
[[nodiscard]] Names moved_by_zone(const TournamentState& state) {
    Names names;
    if (!state.opened || is_utc(state.opened->time_zone)) return names;
    for (const MatchRef ref : times_without_zone(state)) names.insert(state.node(ref).name);
    return names;
}

/// Whether the act moves times by a time zone. One that takes the place of a wrong one leaves the
/// hands of the clock as they were said.
[[nodiscard]] bool moves_times(const TournamentState& before, const TournamentState& after) {
    const Names moved = moved_by_zone(after);
    if (moved.empty()) return false;
    const Names were = moved_by_zone(before);
    return !std::includes(were.begin(), were.end(), moved.begin(), moved.end());
}

// --- formats ------------------------------------------------------------------------------------

struct Format {
    const FormatChoice* choice = nullptr;
    std::string place;
};

/// The format that a fact gives to matches, and what these are.
[[nodiscard]] Format format_of(const Fact& fact) {
    if (const auto* const division = std::get_if<DivisionOpened>(&fact))
        return {&division->format, "division " + division->division};
    if (const auto* const draw = std::get_if<DrawMade>(&fact))
        return {&draw->format, "draw of " + draw->division};
    if (const auto* const bracket = std::get_if<BracketMade>(&fact))
        return {&bracket->format, "bracket " + bracket->prefix};
    if (const auto* const match = std::get_if<MatchAdded>(&fact))
        return {&match->format, match->match};
    return {};
}

/// Why no set of the format that `fact` gives can be played; empty when one can, or it gives none.
[[nodiscard]] std::string unplayable_of(const Fact& fact) {
    const FormatChoice* const choice = format_of(fact).choice;
    return choice != nullptr && choice->own ? unplayable(choice->format) : std::string{};
}

/// Why no pool that `fact` draws could ever be put in order; empty: it can, or draws none. Such a
/// pool would wait for ever: neither a decision nor another result helps it.
[[nodiscard]] std::string unordered_of(const TournamentState& state, const Fact& fact) {
    const auto* const draw = std::get_if<DrawMade>(&fact);
    const auto in = draw != nullptr ? state.find_division(draw->division) : std::nullopt;
    if (!in || state.divisions[*in].chain == nullptr) return {};
    const Division& division = state.divisions[*in];
    const MatchFormat& format = draw->format.own ? draw->format.format : division.format;
    const auto missing =
        standings::unvalued(*division.chain, {format.sets, format.all_sets_played != 0});
    if (missing.empty()) return {};
    return fmt::format("{} gives no match points for {}, so its pools could never be put in order",
                       division.chain->id, fmt::join(missing, " and "));
}

/// `unordered`: what `unordered_of` said of the fact. A format that cannot be played at all comes
/// first.
void object_to_format(FactNumber number, const Fact& fact, const std::string& unordered,
                      std::vector<Finding>& found) {
    std::string why = unplayable_of(fact);
    const bool playable = why.empty();
    if (playable) why = unordered;
    if (why.empty()) return;
    const char* const cure =
        playable ? "give the pools another format, or open the division again with another chain "
                   "first"
                 : "raise the cap or leave it out, and begin sets below the points that win them";
    found.push_back(
        {number, Problem::format_impossible, {format_of(fact).place, std::move(why), cure}});
}

// --- all of it ----------------------------------------------------------------------------------

/// Most acts have nothing of the kind, and a state is large.
[[nodiscard]] bool may_be_objected_to(const TournamentState& state, const Said& said,
                                      const Names& explained) {
    if (std::holds_alternative<TournamentOpened>(said.fact)) return true;
    // Also one with words: it may bring a time zone back.
    if (std::holds_alternative<TakenBack>(said.fact)) return true;
    if (std::holds_alternative<RosterFrozen>(said.fact)) return says_nothing(said.words);
    if (std::holds_alternative<PersonListed>(said.fact)) {
        const auto teams = within_reach(state, said.fact);
        return !std::all_of(teams->begin(), teams->end(), [&](const std::string& team) {
            return team.empty() || explained.contains(team);
        });
    }
    if (std::holds_alternative<DrawMade>(said.fact)) return true;
    return !unplayable_of(said.fact).empty();
}

}  // namespace

std::vector<MatchRef> times_without_zone(const TournamentState& state) {
    std::vector<MatchRef> timed;
    for (DivisionIndex d = 0; d < state.division_count(); ++d)
        for (std::size_t m = 0; m < state.divisions[d].matches.size(); ++m) {
            const auto& placement = state.divisions[d].matches[m].placement;
            if (placement && placement->at.given())
                timed.push_back({d, static_cast<MatchIndex>(m)});
        }
    if (timed.empty()) return timed;
    const std::vector<bool> open = open_at(state.facts);
    std::erase_if(timed, [&](MatchRef ref) { return open[state.match(ref).placement->fact - 1]; });
    return timed;
}

std::vector<Finding> objections(const TournamentState& state, std::span<const Said> said) {
    std::vector<Finding> found;
    const Names explained = explained_lists(said);
    if (std::none_of(said.begin(), said.end(),
                     [&](const Said& one) { return may_be_objected_to(state, one, explained); }))
        return found;
    TournamentState now = state;
    FactNumber zoned = 0;
    for (const Said& one : said) {
        const FrozenLists before =
            tells_why(one) ? FrozenLists{} : frozen_lists(now, within_reach(now, one.fact));
        const std::string unordered = unordered_of(now, one.fact);
        fold_in(now, one.fact);
        object_to_lists(before, now, one, explained, found);
        // A taking back brings back an opening, or a time of before it.
        if (std::holds_alternative<TournamentOpened>(one.fact) ||
            std::holds_alternative<TakenBack>(one.fact))
            zoned = now.last();
        object_to_format(now.last(), one.fact, unordered, found);
    }
    if (zoned != 0 && moves_times(state, now))
        found.push_back({zoned,
                         Problem::zone_late,
                         {"tournament",
                          "matches have times that were said before it had a time zone: they are "
                          "of UTC, and would move",
                          "open it before they are placed, place them anew behind it in the same "
                          "act by the clock of the hall, or open it in the zone UTC"}});
    std::stable_sort(found.begin(), found.end(), [](const Finding& one, const Finding& other) {
        return one.fact < other.fact;
    });
    return found;
}

}  // namespace courthand::event
