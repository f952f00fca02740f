#include "event/graph_steps.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <numeric>

#include "courthand/tournament/brackets.h"
#include "event/settlement.h"

namespace courthand::event {

using tournament::Fault;
using tournament::Faults;
using tournament::Legs;
using GraphSource = tournament::Source;

namespace {

[[nodiscard]] Refusal refusal(Problem problem, std::string place, std::string message,
                              std::string cure) {
    return {problem, Fault{std::move(place), std::move(message), std::move(cure)}};
}

/// An entrant that is listed twice and is no bye.
[[nodiscard]] std::optional<SourceIndex> entered_twice(const tournament::Graph& graph,
                                                       std::vector<SourceIndex> sources) {
    std::sort(sources.begin(), sources.end());
    for (auto s = sources.begin();; ++s) {
        s = std::adjacent_find(s, sources.end());
        if (s == sources.end()) return std::nullopt;
        if (graph.sources[*s].kind != GraphSource::Kind::bye) return *s;
    }
}

}  // namespace

std::vector<TeamIndex> seeded(const TournamentState& state, const Division& division) {
    std::vector<TeamIndex> order;
    const auto add = [&](TeamIndex team) {
        if (team != no_team && !state.teams[team].withdrawn) order.push_back(team);
    };
    for (const TeamIndex team : division.seeds) add(team);
    for (const TeamIndex team : division.teams) {
        const auto& seeds = division.seeds;
        if (std::find(seeds.begin(), seeds.end(), team) == seeds.end()) add(team);
    }
    return order;
}

SourceIndex GraphSteps::team_source(TeamIndex team) {
    tournament::Graph& graph = division_.graph;
    graph.teams = std::max<tournament::TeamNumber>(graph.teams,
                                                   static_cast<tournament::TeamNumber>(team + 1));
    return graph.add({GraphSource::Kind::team, team + 1U, 0});
}

std::string GraphSteps::words(SourceIndex source) const {
    const GraphSource& s = division_.graph.sources[source];
    return s.kind == GraphSource::Kind::team ? state_.teams[s.of - 1U].name
                                             : tournament::in_words(division_.graph, source);
}

std::optional<MatchIndex> GraphSteps::find(const std::string& match) const {
    // While a graph is made anew the index of the state is not of this one.
    const auto& matches = division_.graph.matches;
    if (const auto ref = state_.find_match(match);
        ref && ref->match < matches.size() && matches[ref->match].name == match)
        return ref->match;
    const auto found = std::find_if(matches.begin(), matches.end(),
                                    [&](const tournament::Match& m) { return m.name == match; });
    if (found == matches.end()) return std::nullopt;
    return static_cast<MatchIndex>(found - matches.begin());
}

// --- sources ------------------------------------------------------------------------------------

std::variant<SourceIndex, Refusal> GraphSteps::named(const Source& source, Teams teams) {
    if (source.kind == Source::Kind::team) {
        const auto team = state_.find_team(source.of);
        const auto& own = division_.teams;
        if (team && teams == Teams::own && std::find(own.begin(), own.end(), *team) == own.end())
            return refusal(Problem::other_division, source.of, "it plays in another division",
                           "name a team of this one");
        if (team) return team_source(*team);
        return refusal(Problem::unknown_team, source.of, "there is no team of this name",
                       "enter it first, or correct the name");
    }
    if (source.kind == Source::Kind::place) {
        const auto& pools = division_.pools;
        const auto pool = std::find_if(pools.begin(), pools.end(),
                                       [&](const PoolState& p) { return p.name == source.of; });
        if (pool == pools.end())
            return refusal(Problem::unknown_pool, "pool " + source.of,
                           "there is no pool of this name", "draw the pools first");
        if (source.place == 0 || source.place > pool->teams.size())
            return refusal(
                Problem::unknown_place, "pool " + source.of,
                fmt::format("it has {} teams and no place {}", pool->teams.size(), source.place),
                "name one of its places");
        return division_.graph.add({GraphSource::Kind::place,
                                    static_cast<std::uint32_t>(pool - pools.begin()),
                                    source.place});
    }
    if (source.kind == Source::Kind::bye)
        return division_.graph.add({GraphSource::Kind::bye, 0, 0});
    const auto match = find(source.of);
    if (!match)
        return refusal(Problem::unknown_match, source.of, "the division has no match of this name",
                       "add it first");
    const bool winner = source.kind == Source::Kind::winner;
    return division_.graph.add(
        {winner ? GraphSource::Kind::winner : GraphSource::Kind::loser, *match, 0});
}

std::variant<SourceIndex, Refusal> GraphSteps::resolve(const Source& source, Teams teams) {
    auto found = source.two.size() == 2 ? compared(source, teams) : named(source, teams);
    Settlement{state_, division_}.grow();
    return found;
}

std::variant<SourceIndex, Refusal> GraphSteps::compared(const Source& source, Teams teams) {
    std::array<SourceIndex, 2> two{};
    for (std::size_t i = 0; i < 2; ++i) {
        const auto one = named(source.two[i], teams);
        if (const auto* why = std::get_if<Refusal>(&one)) return *why;
        two[i] = std::get<SourceIndex>(one);
    }
    const bool better = source.kind == Source::Kind::better;
    return division_.graph.add(
        {better ? GraphSource::Kind::better : GraphSource::Kind::worse, two[0], two[1]});
}

/// Whether the source waits for the match.
bool GraphSteps::leads_to(SourceIndex source, MatchIndex match) const {
    const tournament::Graph& graph = division_.graph;
    std::vector<bool> seen(graph.sources.size(), false);
    std::vector<SourceIndex> queue{source};
    for (std::size_t i = 0; i < queue.size(); ++i) {
        if (seen[queue[i]]) continue;
        seen[queue[i]] = true;
        const GraphSource& s = graph.sources[queue[i]];
        if (s.kind == GraphSource::Kind::winner || s.kind == GraphSource::Kind::loser) {
            if (s.of == match) return true;
            const tournament::Match& before = graph.matches[s.of];
            queue.insert(queue.end(), before.sides.begin(), before.sides.end());
            if (before.only_if_second_won == match) return true;
        }
        if (s.kind == GraphSource::Kind::better || s.kind == GraphSource::Kind::worse)
            queue.insert(queue.end(), {s.of, s.second});
    }
    return false;
}

// --- steps --------------------------------------------------------------------------------------

void GraphSteps::finish(MatchIndex first, const FormatChoice& format) {
    auto& matches = division_.matches;
    matches.resize(division_.graph.matches.size());
    for (std::size_t m = first; m < matches.size(); ++m)
        matches[m].format = format.own ? format.format : division_.format;
    Settlement{state_, division_}.grow();
}

void GraphSteps::pools() {
    if (!division_.draw) return;
    tournament::Graph& graph = division_.graph;
    const auto first = static_cast<MatchIndex>(graph.matches.size());
    for (const PoolState& pool : division_.pools) {
        std::vector<SourceIndex> teams;
        for (const TeamIndex team : pool.teams) teams.push_back(team_source(team));
        const Faults faults =
            tournament::add_pool(graph, pool.name, teams, division_.draw->prefix + pool.name,
                                 division_.draw->second_leg ? Legs::two : Legs::one);
        // A pool that is being filled by hand may be too small yet: it has no matches then.
        if (!faults.empty()) graph.pools.push_back({pool.name, teams, {}});
    }
    finish(first, division_.draw->format);
}

std::optional<Refusal> GraphSteps::repeat(GraphStep& step) {
    const Fact& fact = state_.facts[step.fact - 1];
    if (const auto* bracket = std::get_if<BracketMade>(&fact))
        return this->bracket(*bracket, step.entrants);
    if (const auto* added = std::get_if<MatchAdded>(&fact)) return this->added(*added);
    if (const auto* sides = std::get_if<SidesGiven>(&fact)) return this->sides(*sides);
    return std::nullopt;
}

std::optional<Refusal> GraphSteps::rebuild() {
    std::map<std::string, MatchState> known;
    for (std::size_t m = 0; m < division_.matches.size(); ++m)
        known.emplace(division_.graph.matches[m].name, std::move(division_.matches[m]));
    division_.graph = {};
    division_.matches.clear();
    division_.settled.clear();
    division_.uses = {};
    for (PoolState& pool : division_.pools) pool.order.clear();
    pools();
    for (GraphStep& step : division_.steps)
        if (auto why = repeat(step)) return why;
    for (std::size_t m = 0; m < division_.matches.size(); ++m) {
        const auto before = known.find(division_.graph.matches[m].name);
        if (before == known.end()) continue;
        MatchState& match = division_.matches[m];
        const MatchFormat format = match.format;
        const Profile* profile = match.profile;
        match = std::move(before->second);
        match.format = format;
        match.profile = profile;
        match.duty.source.reset();
        if (match.duty.workers.kind != Source::Kind::none) {
            const auto workers = resolve(match.duty.workers, Teams::any);
            if (const auto* source = std::get_if<SourceIndex>(&workers))
                match.duty.source = *source;
        }
    }
    Settlement settlement{state_, division_};
    settlement.grow();
    for (std::size_t m = 0; m < division_.matches.size(); ++m)
        settlement.match(static_cast<MatchIndex>(m));
    return std::nullopt;
}

// --- brackets -----------------------------------------------------------------------------------

std::variant<std::vector<SourceIndex>, Refusal> GraphSteps::listed(const BracketMade& fact) {
    std::vector<SourceIndex> sources;
    for (const Source& entrant : fact.entrants) {
        const auto source = resolve(entrant);
        if (const auto* why = std::get_if<Refusal>(&source)) return *why;
        sources.push_back(std::get<SourceIndex>(source));
    }
    return sources;
}

std::variant<std::vector<SourceIndex>, Refusal> GraphSteps::from_pools(const BracketMade& fact) {
    if (division_.pools.empty())
        return refusal(Problem::draw_missing, "bracket " + fact.prefix, "the division has no pools",
                       "draw them first");
    std::vector<PoolIndex> pools(division_.pools.size());
    std::iota(pools.begin(), pools.end(), PoolIndex{0});
    if (!fact.pools.empty()) {
        pools.clear();
        for (const std::string& name : fact.pools) {
            const auto found = std::find_if(division_.pools.begin(), division_.pools.end(),
                                            [&](const PoolState& p) { return p.name == name; });
            if (found == division_.pools.end())
                return refusal(Problem::unknown_pool, "pool " + name,
                               "there is no pool of this name", "name pools of the division");
            pools.push_back(static_cast<PoolIndex>(found - division_.pools.begin()));
        }
    }
    auto crossed = tournament::crossed(division_.graph, pools, fact.to_place,
                                       std::max<std::uint8_t>(fact.from_place, 1));
    if (auto* faults = std::get_if<Faults>(&crossed))
        return Refusal{Problem::bracket_impossible, std::move(faults->front())};
    return std::get<std::vector<SourceIndex>>(std::move(crossed));
}

std::variant<std::vector<SourceIndex>, Refusal> GraphSteps::entrants(
    const BracketMade& fact, std::vector<TeamIndex>& seeds) {
    if (!fact.entrants.empty()) return listed(fact);
    if (fact.to_place != 0) return from_pools(fact);
    if (seeds.empty()) {
        seeds = seeded(state_, division_);
        if (fact.size != 0 && fact.size < seeds.size()) seeds.resize(fact.size);
    }
    std::vector<SourceIndex> sources;
    sources.reserve(seeds.size());
    for (const TeamIndex team : seeds) sources.push_back(team_source(team));
    return sources;
}

std::optional<Refusal> GraphSteps::bracket(const BracketMade& fact, std::vector<TeamIndex>& seeds) {
    const std::string place = "bracket " + fact.prefix;
    auto found = entrants(fact, seeds);
    if (auto* why = std::get_if<Refusal>(&found)) return std::move(*why);
    const auto& sources = std::get<std::vector<SourceIndex>>(found);
    if (fact.size != 0 && fact.size != sources.size())
        return refusal(Problem::bracket_impossible, place,
                       fmt::format("{} entrants for a bracket of {}", sources.size(), fact.size),
                       "say the size again, or enter more teams");
    tournament::Graph& graph = division_.graph;
    if (const auto twice = entered_twice(graph, sources))
        return refusal(Problem::bracket_impossible, place,
                       fmt::format("{} enters twice", words(*twice)), "name each entrant once");
    const auto first = static_cast<MatchIndex>(graph.matches.size());
    const std::size_t first_place = graph.places.size();
    const tournament::BracketOptions options{fact.prefix, fact.third_place, fact.second_final};
    Faults faults;
    switch (fact.kind) {
        case BracketKind::single:
            faults = tournament::add_single_elimination(graph, sources, options);
            break;
        case BracketKind::double_:
            faults = tournament::add_double_elimination(graph, sources, options);
            break;
        case BracketKind::consolation:
            faults = tournament::add_consolation(graph, sources, options);
            break;
        case BracketKind::placement:
            faults = tournament::add_placement(graph, sources, options);
            break;
    }
    if (!faults.empty()) return Refusal{Problem::bracket_impossible, std::move(faults.front())};
    const auto offset = static_cast<std::uint16_t>(fact.best_place - 1);
    for (std::size_t i = first_place; i < graph.places.size(); ++i) {
        graph.places[i].first = static_cast<std::uint16_t>(graph.places[i].first + offset);
        graph.places[i].last = static_cast<std::uint16_t>(graph.places[i].last + offset);
    }
    finish(first, fact.format);
    return std::nullopt;
}

// --- single matches -----------------------------------------------------------------------------

std::optional<Refusal> GraphSteps::added(const MatchAdded& fact) {
    if (find(fact.match))
        return refusal(Problem::name_taken, fact.match, "there is a match of this name already",
                       "choose another name");
    const Profile* profile = fact.profile.empty() ? nullptr : find_profile(fact.profile);
    if (profile == nullptr && !fact.profile.empty())
        return refusal(Problem::unknown_profile, fact.match,
                       fmt::format("there is no rule profile '{}'", fact.profile),
                       "name one of the built-in profiles");
    std::array<SourceIndex, 2> sides{};
    for (std::size_t i = 0; i < 2; ++i) {
        const auto side = resolve(i == 0 ? fact.first : fact.second);
        if (const auto* why = std::get_if<Refusal>(&side)) return *why;
        sides[i] = std::get<SourceIndex>(side);
    }
    if (sides[0] == sides[1])
        return refusal(Problem::sides_impossible, fact.match, "its sides are the same",
                       "name two different sides");
    tournament::Match match;
    match.name = fact.match;
    match.sides = sides;
    const auto first = static_cast<MatchIndex>(division_.graph.matches.size());
    division_.graph.matches.push_back(std::move(match));
    finish(first, fact.format);
    division_.matches[first].profile = profile;
    if (profile != nullptr && !fact.format.own)
        division_.matches[first].format = profile->rules.format;
    return std::nullopt;
}

std::optional<Refusal> GraphSteps::sides(const SidesGiven& fact) {
    const auto match = find(fact.match);
    if (!match)
        return refusal(Problem::unknown_match, fact.match, "there is no match of this name",
                       "add it first");
    if (division_.graph.matches[*match].pool)
        return refusal(Problem::sides_impossible, fact.match, "a match of a pool keeps its sides",
                       "move teams between pools instead");
    return place_sides(*match, fact.first, fact.second);
}

void GraphSteps::settle_condition(MatchIndex index) {
    auto& matches = division_.graph.matches;
    tournament::Match& match = matches[index];
    if (match.stage != tournament::Stage::final || match.round != 2 || index == 0) return;
    auto& conditional = division_.uses.conditional;
    if (match.only_if_second_won) {
        auto& users = conditional[*match.only_if_second_won];
        users.erase(std::remove(users.begin(), users.end(), index), users.end());
    }
    match.only_if_second_won.reset();
    // The generator makes the first final just before the second; that of a single elimination may
    // be of the second round too, and nothing comes from a final before it.
    const auto first = static_cast<MatchIndex>(index - 1U);
    if (matches[first].stage != tournament::Stage::final) return;
    const bool from_there = std::any_of(match.sides.begin(), match.sides.end(), [&](auto side) {
        const GraphSource& s = division_.graph.sources[side];
        return (s.kind == GraphSource::Kind::winner || s.kind == GraphSource::Kind::loser) &&
               s.of == first;
    });
    if (!from_there) return;
    match.only_if_second_won = first;
    conditional[first].push_back(index);
}

std::optional<Refusal> GraphSteps::place_sides(MatchIndex index, const Source& first,
                                               const Source& second) {
    const std::string name = division_.graph.matches[index].name;
    std::array<SourceIndex, 2> sides{};
    for (std::size_t i = 0; i < 2; ++i) {
        const auto side = resolve(i == 0 ? first : second);
        if (const auto* why = std::get_if<Refusal>(&side)) return *why;
        sides[i] = std::get<SourceIndex>(side);
        if (leads_to(sides[i], index))
            return refusal(Problem::sides_impossible, name, "it would wait for its own result",
                           "give it sides that are known before it");
    }
    if (sides[0] == sides[1])
        return refusal(Problem::sides_impossible, name, "its sides are the same",
                       "name two different sides");
    Settlement settlement{state_, division_};
    settlement.grow();
    settlement.leave(index);
    division_.graph.matches[index].sides = sides;
    settle_condition(index);
    settlement.join(index);
    settlement.match(index);
    return std::nullopt;
}

}  // namespace courthand::event
