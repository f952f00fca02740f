#include "courthand/event/summary.h"

#include <algorithm>
#include <optional>
#include <span>
#include <tuple>

#include "courthand/event/advance.h"
#include "courthand/event/fold.h"
#include "courthand/event/pool_table.h"

namespace courthand::event {
namespace {

bool had_effect(const TournamentState& state, FactNumber fact) {
    const auto about = [&](const Finding& finding) { return finding.fact == fact; };
    return state.counts[fact - 1] &&
           std::none_of(state.findings.begin(), state.findings.end(), about);
}

std::optional<FactNumber> draw_of(const TournamentState& state, const Division& division) {
    for (FactNumber fact = 1; fact <= state.last(); ++fact) {
        const auto* draw = std::get_if<DrawMade>(&state.facts[fact - 1]);
        if (draw && draw->division == division.rules.division && had_effect(state, fact))
            return fact;
    }
    return std::nullopt;
}

/// The state right after a fact, without what was taken back at any time.
TournamentState as_of(const TournamentState& state, FactNumber last) {
    const auto end = state.facts.begin() + static_cast<std::ptrdiff_t>(last);
    std::vector<Fact> facts{state.facts.begin(), end};
    for (std::size_t i = 0; i < facts.size(); ++i)
        // A note keeps the numbers of the others as they are.
        if (!state.counts[i] || std::holds_alternative<TakenBack>(facts[i]))
            facts[i] = NoteWritten{};
    return fold(facts);
}

std::vector<std::string> names_of(const TournamentState& state,
                                  const std::vector<TeamIndex>& teams) {
    std::vector<std::string> names;
    names.reserve(teams.size());
    for (const TeamIndex team : teams) names.push_back(state.teams[team].name);
    return names;
}

Drawn drawn(const TournamentState& state, const Division& division, FactNumber fact) {
    Drawn out{division.rules.division, fact, {}};
    const TournamentState then = as_of(state, fact);
    if (const auto index = then.find_division(out.division))
        for (const PoolState& pool : then.divisions[*index].pools)
            out.pools.push_back({pool.name, names_of(then, pool.teams)});
    return out;
}

PoolPlaces places_of(const TournamentState& state, DivisionIndex index, PoolIndex number) {
    const Division& division = state.divisions[index];
    const PoolState& pool = division.pools[number];
    PoolPlaces out{division.rules.division, pool.name, {}, {}};
    const auto ranked = pool_table(state, index, number);
    const auto* table = std::get_if<standings::Table>(&ranked);
    if (table == nullptr) return out;
    const auto name = [&](standings::TeamIndex team) { return state.teams[pool.teams[team]].name; };
    for (const standings::Place& place : table->places) {
        PoolPlace& told = out.places.emplace_back();
        told.place = place.number;
        for (const standings::TeamIndex team : place.teams) told.teams.push_back(name(team));
        std::sort(told.teams.begin(), told.teams.end());
    }
    for (const standings::TeamIndex team : table->withdrawn) out.withdrawn.push_back(name(team));
    return out;
}

FinalPlaces finals_of(const TournamentState& state, DivisionIndex index) {
    FinalPlaces out{state.divisions[index].rules.division, {}};
    for (const Ended& ended : final_places(state, index))
        out.places.push_back({ended.first, ended.last, state.teams[ended.team].name});
    std::sort(out.places.begin(), out.places.end(), [](const TeamPlace& a, const TeamPlace& b) {
        return std::tie(a.first, a.last, a.team) < std::tie(b.first, b.last, b.team);
    });
    return out;
}

}  // namespace

Summary summary(const TournamentState& state) {
    Summary out;
    for (DivisionIndex d = 0; d < state.division_count(); ++d) {
        const Division& division = state.divisions[d];
        if (const auto fact = draw_of(state, division))
            out.draws.push_back(drawn(state, division, *fact));
        for (std::size_t p = 0; p < division.pools.size(); ++p)
            out.pools.push_back(places_of(state, d, static_cast<PoolIndex>(p)));
        if (FinalPlaces finals = finals_of(state, d); !finals.places.empty())
            out.finals.push_back(std::move(finals));
    }
    return out;
}

}  // namespace courthand::event
