#include "event/settlement.h"

#include <algorithm>

#include "event/pool_order.h"

namespace courthand::event {

using tournament::Winner;
using GraphSource = tournament::Source;

Winner winner_of(const Result& result) {
    switch (result.ending) {
        case standings::Ending::forfeit_by_first:
            return Winner::second;
        case standings::Ending::forfeit_by_second:
            return Winner::first;
        case standings::Ending::forfeit_by_both:
            return Winner::unknown;
        case standings::Ending::played:
            break;
    }
    int lead = 0;
    for (const SetScore set : result.sets) lead += set.first > set.second ? 1 : -1;
    if (lead == 0) return Winner::unknown;
    return lead > 0 ? Winner::first : Winner::second;
}

bool lost_by_both(const MatchState& match) {
    return match.result_counts && match.result->ending == standings::Ending::forfeit_by_both;
}

bool all_have_left(const TournamentState& state, const Division& division) {
    const auto& teams = division.teams;
    return !teams.empty() && std::all_of(teams.begin(), teams.end(), [&](TeamIndex team) {
        return state.teams[team].withdrawn;
    });
}

std::size_t seed_of(const Division& division, TeamIndex team) {
    const auto& seeds = division.seeds;
    const auto seed = std::find(seeds.begin(), seeds.end(), team);
    if (seed != seeds.end()) return static_cast<std::size_t>(seed - seeds.begin());
    const auto& teams = division.teams;
    return seeds.size() +
           static_cast<std::size_t>(std::find(teams.begin(), teams.end(), team) - teams.begin());
}

void Settlement::grow() {
    tournament::Graph& graph = division_.graph;
    Uses& uses = division_.uses;
    const std::size_t matches = uses.ends.size();
    const std::size_t pools = uses.places.size();
    const std::size_t sources = division_.settled.size();
    division_.matches.resize(graph.matches.size());
    uses.ends.resize(graph.matches.size(), {Uses::none, Uses::none});
    uses.conditional.resize(graph.matches.size());
    uses.places.resize(graph.pools.size());
    division_.settled.resize(graph.sources.size());
    uses.matches.resize(graph.sources.size());
    uses.compared.resize(graph.sources.size());
    for (std::size_t s = sources; s < graph.sources.size(); ++s)
        enter_source(static_cast<SourceIndex>(s));
    for (std::size_t m = matches; m < graph.matches.size(); ++m) {
        join(static_cast<MatchIndex>(m));
        if (const auto before = graph.matches[m].only_if_second_won)
            uses.conditional[*before].push_back(static_cast<MatchIndex>(m));
    }
    for (std::size_t s = sources; s < graph.sources.size(); ++s)
        source(static_cast<SourceIndex>(s));
    for (std::size_t m = matches; m < graph.matches.size(); ++m) match(static_cast<MatchIndex>(m));
    for (std::size_t p = pools; p < graph.pools.size(); ++p) pool(static_cast<PoolIndex>(p));
}

void Settlement::enter_source(SourceIndex index) {
    const GraphSource& s = division_.graph.sources[index];
    Uses& uses = division_.uses;
    switch (s.kind) {
        case GraphSource::Kind::winner:
            uses.ends[s.of][0] = index;
            break;
        case GraphSource::Kind::loser:
            uses.ends[s.of][1] = index;
            break;
        case GraphSource::Kind::place:
            uses.places[s.of].push_back(index);
            break;
        case GraphSource::Kind::better:
        case GraphSource::Kind::worse:
            uses.compared[s.of].push_back(index);
            uses.compared[s.second].push_back(index);
            break;
        case GraphSource::Kind::team:
        case GraphSource::Kind::bye:
            break;
    }
}

void Settlement::join(MatchIndex index) {
    for (const SourceIndex side : division_.graph.matches[index].sides)
        division_.uses.matches[side].push_back(index);
}

void Settlement::leave(MatchIndex index) {
    for (const SourceIndex side : division_.graph.matches[index].sides) {
        auto& users = division_.uses.matches[side];
        users.erase(std::remove(users.begin(), users.end(), index), users.end());
    }
}

bool Settlement::counts(MatchIndex index) const {
    const MatchState& match = division_.matches[index];
    if (!match.result) return false;
    const tournament::Match& node = division_.graph.matches[index];
    for (std::size_t i = 0; i < 2; ++i) {
        const Side side = division_.settled[node.sides[i]];
        if (!side.is_team() || side.team != match.result->teams[i]) return false;
    }
    return !node.only_if_second_won ||
           division_.matches[*node.only_if_second_won].winner == Winner::second;
}

Winner Settlement::winner_of(MatchIndex index) const {
    const tournament::Match& node = division_.graph.matches[index];
    if (node.only_if_second_won) {
        const Winner before = division_.matches[*node.only_if_second_won].winner;
        if (before != Winner::second) return before;  // not played: its first side counts as winner
    }
    if (division_.settled[node.sides[0]].state == Side::State::bye) return Winner::second;
    if (division_.settled[node.sides[1]].state == Side::State::bye) return Winner::first;
    const MatchState& match = division_.matches[index];
    return match.result_counts ? event::winner_of(*match.result) : Winner::unknown;
}

void Settlement::match(MatchIndex index) {
    MatchState& match = division_.matches[index];
    match.result_counts = counts(index);
    match.winner = winner_of(index);
    for (const SourceIndex end : division_.uses.ends[index])
        if (end != Uses::none) source(end);
    for (const MatchIndex later : division_.uses.conditional[index]) this->match(later);
    if (const auto in = division_.graph.matches[index].pool) pool(*in);
}

void Settlement::source(SourceIndex index) {
    const Side now = evaluate(division_.graph.sources[index]);
    if (now == division_.settled[index]) return;
    division_.settled[index] = now;
    for (const MatchIndex m : division_.uses.matches[index]) match(m);
    for (const SourceIndex s : division_.uses.compared[index]) source(s);
}

Side Settlement::evaluate(const GraphSource& s) const {
    switch (s.kind) {
        case GraphSource::Kind::team:
            return {Side::State::team, static_cast<TeamIndex>(s.of - 1)};
        case GraphSource::Kind::place: {
            const auto& order = division_.pools[s.of].order;
            const TeamIndex team = s.second <= order.size() ? order[s.second - 1] : no_team;
            return team == no_team ? Side{} : Side{Side::State::team, team};
        }
        case GraphSource::Kind::winner:
        case GraphSource::Kind::loser: {
            const Winner winner = division_.matches[s.of].winner;
            if (winner == Winner::unknown) return {};
            const bool first = (winner == Winner::first) == (s.kind == GraphSource::Kind::winner);
            return division_.settled[division_.graph.matches[s.of].sides[first ? 0 : 1]];
        }
        case GraphSource::Kind::better:
        case GraphSource::Kind::worse:
            return compared(s);
        case GraphSource::Kind::bye:
            break;
    }
    return {Side::State::bye, no_team};
}

/// The better of two teams is the one with the better seed.
Side Settlement::compared(const GraphSource& s) const {
    const Side a = division_.settled[s.of];
    const Side b = division_.settled[s.second];
    if (a.state == Side::State::open || b.state == Side::State::open) return {};
    const bool better = s.kind == GraphSource::Kind::better;
    if (!a.is_team()) return better ? b : a;
    if (!b.is_team()) return better ? a : b;
    const bool first = seed_of(division_, a.team) < seed_of(division_, b.team);
    return first == better ? a : b;
}

void Settlement::seeds() {
    const auto& sources = division_.graph.sources;
    for (std::size_t s = 0; s < sources.size(); ++s)
        if (sources[s].kind == GraphSource::Kind::better ||
            sources[s].kind == GraphSource::Kind::worse)
            source(static_cast<SourceIndex>(s));
}

/// A match of a team that has left is played no more.
bool Settlement::waited_for(MatchIndex index) const {
    if (division_.matches[index].result_counts) return false;
    const tournament::Match& node = division_.graph.matches[index];
    return std::none_of(node.sides.begin(), node.sides.end(), [&](SourceIndex side) {
        const Side who = division_.settled[side];
        return who.is_team() && state_.teams[who.team].withdrawn;
    });
}

void Settlement::pool(PoolIndex index) {
    PoolState& pool = division_.pools[index];
    const auto& matches = division_.graph.pools[index].matches;
    pool.open_matches = static_cast<std::size_t>(
        std::count_if(matches.begin(), matches.end(), [&](MatchIndex m) { return waited_for(m); }));
    std::vector<TeamIndex> order;
    if (pool.open_matches == 0) order = pool_order(state_, division_, index);
    if (order == pool.order) return;
    pool.order = std::move(order);
    for (const SourceIndex s : division_.uses.places[index]) source(s);
}

}  // namespace courthand::event
