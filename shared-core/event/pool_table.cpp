#include "courthand/event/pool_table.h"

#include <fmt/format.h>

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

/// The teams that get a place and that no result counts for.
[[nodiscard]] std::vector<standings::TeamIndex> without_result(const standings::Table& table) {
    std::vector<standings::TeamIndex> teams;
    for (const standings::Place& place : table.places)
        for (const standings::TeamIndex team : place.teams)
            if (table.records[team].played == 0) teams.push_back(team);
    std::sort(teams.begin(), teams.end());
    return teams;
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

std::variant<Standing, standings::Faults> standing(const TournamentState& state,
                                                   DivisionIndex division, PoolIndex index) {
    const standings::Chain& chain = *state.divisions[division].chain;
    standings::Pool pool = standings_pool(state, division, index);
    auto ranked = standings::rank(chain, pool);
    if (auto* faults = std::get_if<standings::Faults>(&ranked)) return std::move(*faults);
    Standing how{std::get<standings::Table>(std::move(ranked)),
                 state.divisions[division].pools[index].open_matches,
                 {}};
    if (!how.provisional()) return how;
    how.unplayed = without_result(how.table);
    // A team without results changes nothing for the others: left out, it gets no place by chance.
    for (const standings::TeamIndex team : how.unplayed)
        pool.withdrawals.push_back({team, standings::Withdrawal::Results::kept});
    how.table = std::get<standings::Table>(standings::rank(chain, pool));
    how.table.withdrawn.resize(how.table.withdrawn.size() - how.unplayed.size());
    for (standings::Place& place : how.table.places) place.open.reset();
    return how;
}

std::vector<std::string> reasons(const TournamentState& state, DivisionIndex division,
                                 PoolIndex index, const Standing& how, std::size_t place) {
    const standings::Pool pool = standings_pool(state, division, index);
    std::vector<std::string> lines;
    if (how.provisional()) lines.push_back(provisional_words(how));
    for (std::string& line :
         standings::reasons(*state.divisions[division].chain, pool, how.table, place))
        lines.push_back(std::move(line));
    const auto& level = how.table.places[place].teams;
    if (!how.provisional() || level.size() < 2) return lines;
    std::string names;
    for (const standings::TeamIndex team : level)
        names += (names.empty() ? "" : ", ") + pool.teams[team];
    lines.push_back(names + " are level so far: the open matches may still part them");
    return lines;
}

std::string provisional_words(const Standing& how) {
    if (!how.provisional()) return {};
    return fmt::format(
        "places are provisional: {} of the pool {} open",
        how.open_matches == 1 ? "1 match" : fmt::format("{} matches", how.open_matches),
        how.open_matches == 1 ? "is" : "are");
}

}  // namespace courthand::event
