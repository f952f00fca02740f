#include "courthand/event/effects.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "courthand/event/advance.h"
#include "courthand/event/duty.h"
#include "courthand/event/fold.h"

namespace courthand::event {
namespace {

[[nodiscard]] std::set<FactNumber> without_effect(const TournamentState& state) {
    std::set<FactNumber> facts;
    for (const Finding& finding : state.findings) facts.insert(finding.fact);
    return facts;
}

[[nodiscard]] std::string team_name(const TournamentState& state, TeamIndex team) {
    return team == no_team ? std::string{} : state.teams[team].name;
}

/// All that people see of a match, in one comparable text: teams have other indices in another
/// state.
[[nodiscard]] std::string seen(const TournamentState& state, MatchRef ref) {
    const MatchState& match = state.match(ref);
    std::string out;
    for (std::size_t i = 0; i < 2; ++i) {
        const Side side = state.side(ref, i);
        out += fmt::format("{}:{}/", static_cast<int>(side.state), team_name(state, side.team));
    }
    out += fmt::format("{}{}", match.result ? match.result->fact : 0, match.result_counts);
    for (const std::uint8_t byte : match.record.bytes) out += fmt::format("{:02x}", byte);
    if (match.placement)
        out += fmt::format("/{} {} {} {}", match.placement->court, match.placement->at.minutes,
                           static_cast<int>(match.placement->timing),
                           match.placement->may_start_early);
    const Duty& duty = match.duty;
    out +=
        fmt::format("/{} {} {} {}", duty.fact, duty.crew, duty.first_referee, duty.second_referee);
    if (const auto source = workers_of(state, ref)) {
        const Side workers = state.divisions[ref.division].settled[*source];
        out += workers.is_team() ? team_name(state, workers.team)
                                 : source_words(state, ref.division, *source);
    }
    for (const CarriedPoints& carried : match.carried)
        out += fmt::format("/{}:{}", carried.fact, carried.points);
    return out;
}

[[nodiscard]] std::vector<std::string> changed_matches(const TournamentState& before,
                                                       const TournamentState& after) {
    std::vector<std::string> names;
    for (const Division& division : before.divisions)
        for (const tournament::Match& node : division.graph.matches) {
            const auto was = before.find_match(node.name);
            const auto is = after.find_match(node.name);
            if (!is || seen(before, *was) != seen(after, *is)) names.push_back(node.name);
        }
    return names;
}

/// Who stands at each place that is settled: pools, and the final places of brackets.
[[nodiscard]] std::vector<std::pair<std::string, std::string>> places_of(
    const TournamentState& state) {
    std::vector<std::pair<std::string, std::string>> places;
    for (DivisionIndex d = 0; d < state.division_count(); ++d) {
        const Division& division = state.divisions[d];
        for (const PoolState& pool : division.pools)
            for (std::size_t i = 0; i < pool.order.size(); ++i)
                if (pool.order[i] != no_team)
                    places.emplace_back(fmt::format("place {} of pool {} in {}", i + 1, pool.name,
                                                    division.rules.division),
                                        state.teams[pool.order[i]].name);
        for (const Ended& ended : final_places(state, d))
            places.emplace_back(fmt::format("place {} in {}", ended.first, division.rules.division),
                                state.teams[ended.team].name);
    }
    return places;
}

[[nodiscard]] std::vector<std::string> changed_places(const TournamentState& before,
                                                      const TournamentState& after) {
    const auto now = places_of(after);
    std::vector<std::string> changed;
    for (const auto& place : places_of(before))
        if (std::find(now.begin(), now.end(), place) == now.end() &&
            (changed.empty() || changed.back() != place.first))
            changed.push_back(place.first);
    return changed;
}

}  // namespace

Effects difference(const TournamentState& before, const TournamentState& after) {
    Effects effects;
    const std::set<FactNumber> failed = without_effect(before);
    for (const FactNumber fact : without_effect(after))
        if (!failed.contains(fact) && fact <= before.last()) effects.facts.push_back(fact);
    effects.matches = changed_matches(before, after);
    effects.places = changed_places(before, after);
    return effects;
}

Effects effects_of_taking_back(const TournamentState& state, FactNumber fact) {
    if (fact == 0 || fact > state.last() || !state.counts[fact - 1]) return {};
    TournamentState after = state;
    fold_in(after, TakenBack{fact});
    return difference(state, after);
}

Effects effects_of_reopening(const TournamentState& state, MatchRef match) {
    if (!state.match(match).result) return {};
    TournamentState after = state;
    fold_in(after, ResultReopened{state.node(match).name});
    return difference(state, after);
}

}  // namespace courthand::event
