#include <fmt/format.h>

#include <algorithm>

#include "courthand/draw/pools.h"
#include "courthand/tournament/brackets.h"
#include "event/applier.h"
#include "event/graph_steps.h"

namespace courthand::event {
namespace {

/// The pools as seeds; of a draw by hand, empty.
[[nodiscard]] std::variant<draw::Pools, tournament::Faults> drawn(const DrawMade& fact,
                                                                  std::size_t teams) {
    switch (fact.method) {
        case DrawMethod::serpentine:
            return draw::serpentine(teams, fact.pools);
        case DrawMethod::rows:
            return draw::drawn_in_rows(teams, fact.pools, fact.seed_number);
        case DrawMethod::by_hand:
            break;
    }
    if (fact.pools <= draw::most_pools) return draw::Pools(fact.pools);
    return tournament::Faults{{"pools", fmt::format("{} pools", fact.pools),
                               fmt::format("make 1 to {} pools", draw::most_pools)}};
}

}  // namespace

bool Applier::commit(DivisionIndex index, Division&& changed, const std::string& place) {
    std::size_t others = 0;
    for (std::size_t d = 0; d < state_.divisions.size(); ++d)
        if (d != index) others += state_.divisions[d].matches.size();
    if (others + changed.matches.size() > most_matches) {
        find(Problem::too_many, place, fmt::format("more than {} matches", most_matches),
             "divide the event");
        return false;
    }
    for (const tournament::Match& match : changed.graph.matches) {
        const auto taken = state_.find_match(match.name);
        if (!taken || taken->division == index) continue;
        const auto named = [&](const std::string& name) {
            return state_.find_match(name).has_value();
        };
        find(Problem::name_taken, match.name, "another division has a match of this name",
             fmt::format("choose other letters for the names of its matches, such as {}",
                         tournament::free_prefix(named)));
        return false;
    }
    for (const tournament::Match& match : state_.divisions[index].graph.matches)
        state_.match_names.erase(match.name);
    Division& division = state_.divisions[index];
    division = std::move(changed);
    for (std::size_t m = 0; m < division.graph.matches.size(); ++m)
        state_.match_names.insert_or_assign(division.graph.matches[m].name,
                                            MatchRef{index, static_cast<MatchIndex>(m)});
    for (std::size_t p = 0; p < division.pools.size(); ++p)
        for (const TeamIndex team : division.pools[p].teams)
            state_.teams[team].pool = static_cast<PoolIndex>(p);
    return true;
}

void Applier::operator()(const DrawMade& fact) {
    const auto in = division(fact.division);
    if (!in) return;
    const std::string place = "draw of " + fact.division;
    if (state_.divisions[*in].draw)
        return find(Problem::draw_there, place, "the division has pools already",
                    "take the earlier draw back first");
    const std::vector<TeamIndex> teams = seeded(state_, state_.divisions[*in]);
    auto pools = drawn(fact, teams.size());
    if (auto* faults = std::get_if<tournament::Faults>(&pools))
        return find({Problem::draw_impossible, std::move(faults->front())});
    Division changed = state_.divisions[*in];
    changed.draw = fact;
    for (const auto& seeds : std::get<draw::Pools>(pools)) {
        PoolState pool;
        pool.name = draw::pool_name(changed.pools.size());
        for (const draw::Seed seed : seeds) pool.teams.push_back(teams[seed - 1U]);
        for (const std::uint8_t cut : fact.cuts) pool.cuts.push_back(cut);
        changed.pools.push_back(std::move(pool));
    }
    if (auto why = GraphSteps{state_, changed}.rebuild()) return find(std::move(*why));
    commit(*in, std::move(changed), place);
}

bool Applier::unplayed(DivisionIndex index, PoolIndex pool) {
    const Division& division = state_.divisions[index];
    for (const MatchIndex m : division.graph.pools[pool].matches) {
        if (!division.matches[m].result) continue;
        find(Problem::pool_played, "pool " + division.pools[pool].name,
             fmt::format("{} has a result", division.graph.matches[m].name),
             "reopen the results of the pool first");
        return false;
    }
    return true;
}

void Applier::operator()(const TeamMoved& fact) {
    const auto index = team(fact.team);
    if (!index) return;
    const DivisionIndex in = state_.teams[*index].division;
    const std::string place = "pool " + fact.pool;
    if (state_.divisions[in].pools.empty())
        return find(Problem::draw_missing, place, "the division has no pools", "draw them first");
    const auto to = state_.find_pool(in, fact.pool);
    if (!to)
        return find(Problem::unknown_pool, place, "there is no pool of this name",
                    "name a pool of the division");
    const auto from = state_.teams[*index].pool;
    if (from == *to)
        return find(Problem::draw_there, place, fact.team + " is in this pool already",
                    "name another pool");
    std::optional<TeamIndex> with;
    if (!fact.with.empty()) {
        with = team(fact.with);
        if (!with) return;
        // Pools are numbers in a division: the same number elsewhere is another pool.
        if (state_.teams[*with].division != in)
            return find(Problem::other_division, fact.with, "it plays in another division",
                        "name a team of the other pool");
        if (state_.teams[*with].pool != *to || !from)
            return find(Problem::unknown_pool, place, "the two teams are not in two pools",
                        "name a team of the other pool");
    }
    if (!unplayed(in, *to) || (from && !unplayed(in, *from))) return;
    Division changed = state_.divisions[in];
    auto& there = changed.pools[*to].teams;
    if (with) {
        auto& here = changed.pools[*from].teams;
        std::replace(here.begin(), here.end(), *index, *with);
        std::replace(there.begin(), there.end(), *with, *index);
    } else {
        if (from) {
            auto& here = changed.pools[*from].teams;
            here.erase(std::remove(here.begin(), here.end(), *index), here.end());
        }
        there.push_back(*index);
    }
    if (auto why = GraphSteps{state_, changed}.rebuild()) return find(std::move(*why));
    commit(in, std::move(changed), place);
}

void Applier::operator()(const BracketMade& fact) {
    const auto in = division(fact.division);
    if (!in) return;
    Division changed = state_.divisions[*in];
    GraphStep step{number_, {}};
    if (auto why = GraphSteps{state_, changed}.bracket(fact, step.entrants))
        return find(std::move(*why));
    changed.steps.push_back(std::move(step));
    commit(*in, std::move(changed), "bracket " + fact.prefix);
}

void Applier::operator()(const MatchAdded& fact) {
    const auto in = division(fact.division);
    if (!in) return;
    if (state_.find_match(fact.match))
        return find(Problem::name_taken, fact.match, "there is a match of this name already",
                    "choose another name");
    if (state_.match_names.size() >= most_matches)
        return find(Problem::too_many, fact.match,
                    fmt::format("more than {} matches", most_matches), "divide the event");
    Division& division = state_.divisions[*in];
    if (auto why = GraphSteps{state_, division}.added(fact)) return find(std::move(*why));
    division.steps.push_back({number_, {}});
    state_.match_names.emplace(
        fact.match, MatchRef{*in, static_cast<MatchIndex>(division.graph.matches.size() - 1)});
}

void Applier::operator()(const SidesGiven& fact) {
    const auto ref = match(fact.match);
    if (!ref) return;
    if (state_.match(*ref).result)
        return find(Problem::result_there, fact.match, "the match has a result", "reopen it first");
    Division& division = state_.divisions[ref->division];
    if (auto why = GraphSteps{state_, division}.sides(fact)) return find(std::move(*why));
    division.steps.push_back({number_, {}});
}

}  // namespace courthand::event
