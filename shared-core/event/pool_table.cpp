#include "courthand/event/pool_table.h"

#include <algorithm>
#include <iterator>

#include "event/pool_order.h"

namespace courthand::event {
namespace {

[[nodiscard]] standings::TeamIndex place_in(const PoolState& pool, TeamIndex team) {
    const auto found = std::find(pool.teams.begin(), pool.teams.end(), team);
    return static_cast<standings::TeamIndex>(found - pool.teams.begin());
}

[[nodiscard]] standings::Result as_standings(const PoolState& pool, const Result& result,
                                             MatchIndex match) {
    std::vector<standings::SetScore> sets;
    for (const SetScore set : result.sets) sets.push_back({set.first, set.second});
    standings::Result out = standings::result_in_points(
        place_in(pool, result.teams[0]), place_in(pool, result.teams[1]), sets, match + 1U);
    out.ending = result.ending;
    return out;
}

}  // namespace

standings::Pool standings_pool(const TournamentState& state, const Division& division,
                               PoolIndex index) {
    const PoolState& pool = division.pools[index];
    standings::Pool out;
    out.name = pool.name;
    // The cuts are those of the draw: one of a larger pool may lie beyond the last place of this.
    std::copy_if(pool.cuts.begin(), pool.cuts.end(), std::back_inserter(out.cuts),
                 [&](std::uint16_t cut) { return cut < pool.teams.size(); });
    using Results = standings::Withdrawal::Results;
    const Results left =
        division.rules.withdrawn == WithdrawnResults::struck ? Results::struck : Results::kept;
    for (std::size_t i = 0; i < pool.teams.size(); ++i) {
        const Team& team = state.teams[pool.teams[i]];
        out.teams.push_back(team.name);
        if (team.withdrawn) out.withdrawals.push_back({static_cast<standings::TeamIndex>(i), left});
    }
    for (const MatchIndex m : division.graph.pools[index].matches) {
        const MatchState& match = division.matches[m];
        if (match.result_counts) out.results.push_back(as_standings(pool, *match.result, m));
    }
    for (const PoolDecision& decision : pool.decisions) {
        standings::Decision order;
        order.by = decision.by;
        for (const TeamIndex team : decision.order) order.order.push_back(place_in(pool, team));
        out.decisions.push_back(std::move(order));
    }
    return out;
}

std::vector<TeamIndex> pool_order(const TournamentState& state, const Division& division,
                                  PoolIndex index) {
    const PoolState& pool = division.pools[index];
    const auto ranked = standings::rank(*division.chain, standings_pool(state, division, index));
    const auto* table = std::get_if<standings::Table>(&ranked);
    if (table == nullptr) return {};
    std::vector<TeamIndex> order(pool.teams.size(), no_team);
    for (const standings::Place& place : table->places)
        if (place.teams.size() == 1) order[place.number - 1U] = pool.teams[place.teams.front()];
    return order;
}

standings::Pool standings_pool(const TournamentState& state, DivisionIndex division,
                               PoolIndex pool) {
    return standings_pool(state, state.divisions[division], pool);
}

std::variant<standings::Table, standings::Faults> pool_table(const TournamentState& state,
                                                             DivisionIndex division,
                                                             PoolIndex pool) {
    return standings::rank(*state.divisions[division].chain, standings_pool(state, division, pool));
}

std::vector<standings::Place> undecided(const TournamentState& state, DivisionIndex division,
                                        PoolIndex pool) {
    if (state.divisions[division].pools[pool].open_matches != 0) return {};
    const auto ranked = pool_table(state, division, pool);
    std::vector<standings::Place> open;
    if (const auto* table = std::get_if<standings::Table>(&ranked))
        std::copy_if(table->places.begin(), table->places.end(), std::back_inserter(open),
                     [](const standings::Place& place) { return place.needs_decision(); });
    return open;
}

}  // namespace courthand::event
