#include "courthand/event/advance.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <span>
#include <string_view>

#include "courthand/event/fold.h"
#include "courthand/event/pool_table.h"
#include "event/settlement.h"

namespace courthand::event {

using tournament::Fault;
using GraphSource = tournament::Source;

std::string source_words(const TournamentState& state, DivisionIndex division, SourceIndex source) {
    const tournament::Graph& graph = state.divisions[division].graph;
    const GraphSource& s = graph.sources[source];
    if (s.kind == GraphSource::Kind::team) return state.teams[s.of - 1U].name;
    if (s.kind == GraphSource::Kind::better || s.kind == GraphSource::Kind::worse)
        return fmt::format(
            "{} of {} and {}", s.kind == GraphSource::Kind::better ? "better" : "worse",
            source_words(state, division, s.of), source_words(state, division, s.second));
    return tournament::in_words(graph, source);
}

tournament::Outcomes outcomes(const TournamentState& state, DivisionIndex index) {
    const Division& division = state.divisions[index];
    tournament::Outcomes out;
    for (const MatchState& match : division.matches)
        out.matches.push_back(match.result_counts ? winner_of(*match.result)
                                                  : tournament::Winner::unknown);
    for (const PoolState& pool : division.pools) {
        auto& places = out.pools.emplace_back();
        for (const TeamIndex team : pool.order)
            places.push_back(team == no_team ? tournament::TeamNumber{0}
                                             : static_cast<tournament::TeamNumber>(team + 1));
    }
    out.rating.resize(state.teams.size(), 0);
    for (const TeamIndex team : division.teams)
        out.rating[team] = static_cast<std::uint32_t>(seed_of(division, team) + 1);
    return out;
}

namespace {

/// A match has a result and no winner: nobody goes on from it.
bool unwon(const MatchState& match) {
    return match.result_counts && match.winner == tournament::Winner::unknown;
}

/// Which match without a winner leaves an open source open; empty: there is none before it. What
/// was `seen` has none: the ways back may be very many more than the sources.
std::string why_unwon(const Division& division, SourceIndex source, std::vector<bool>& seen) {
    if (division.settled[source].state != Side::State::open || seen[source]) return {};
    seen[source] = true;
    const GraphSource& s = division.graph.sources[source];
    if (s.kind == GraphSource::Kind::better || s.kind == GraphSource::Kind::worse) {
        std::string why = why_unwon(division, s.of, seen);
        return why.empty() ? why_unwon(division, s.second, seen) : why;
    }
    if (s.kind != GraphSource::Kind::winner && s.kind != GraphSource::Kind::loser) return {};
    const tournament::Match& node = division.graph.matches[s.of];
    if (unwon(division.matches[s.of]))
        return fmt::format(
            "{} {}", node.name,
            lost_by_both(division.matches[s.of]) ? "was lost by both teams" : "ended level");
    for (const SourceIndex side : node.sides)
        if (const std::string why = why_unwon(division, side, seen); !why.empty())
            return fmt::format("{} waits: {}", node.name, why);
    return {};
}

}  // namespace

std::string why_open(const TournamentState& state, DivisionIndex index, SourceIndex source) {
    const Division& division = state.divisions[index];
    if (division.settled[source].state != Side::State::open) return {};
    std::vector<bool> seen(division.graph.sources.size(), false);
    if (std::string why = why_unwon(division, source, seen); !why.empty()) return why;
    return tournament::settle(division.graph, outcomes(state, index))[source].why;
}

std::vector<Ended> final_places(const TournamentState& state, DivisionIndex index) {
    const Division& division = state.divisions[index];
    std::vector<Ended> ended;
    for (const tournament::FinalPlace& place : division.graph.places) {
        const Side side = division.settled[place.source];
        if (side.is_team()) ended.push_back({place.first, place.last, side.team});
    }
    return ended;
}

// --- what waits for a person --------------------------------------------------------------------

namespace {

/// Whether another match waits for the winner or the loser. After a final nobody does.
bool leads_on(const Division& division, std::size_t match) {
    const auto& ends = division.uses.ends[match];
    return std::any_of(ends.begin(), ends.end(), [&](SourceIndex end) {
        return end != Uses::none &&
               (!division.uses.matches[end].empty() || !division.uses.compared[end].empty());
    });
}

/// Whether a final place hangs on who won it.
bool gives_a_place(const Division& division, std::size_t match) {
    const auto& ends = division.uses.ends[match];
    const auto& places = division.graph.places;
    return std::any_of(places.begin(), places.end(), [&](const tournament::FinalPlace& place) {
        return place.source == ends[0] || place.source == ends[1];
    });
}

void results_of_others(const TournamentState& state, const Division& division,
                       std::vector<Fault>& found) {
    for (std::size_t m = 0; m < division.matches.size(); ++m) {
        const MatchState& match = division.matches[m];
        if (!match.result || match.result_counts) continue;
        found.push_back({division.graph.matches[m].name,
                         fmt::format("it has a result of {} - {}, who are not its sides now",
                                     state.teams[match.result->teams[0]].name,
                                     state.teams[match.result->teams[1]].name),
                         "confirm the results before it as they were, or reopen this one"});
    }
}

/// Of a final that both teams lost the places are nobody's, and there is nothing to do.
void unwon_matches(const Division& division, std::vector<Fault>& found) {
    for (std::size_t m = 0; m < division.matches.size(); ++m) {
        if (!unwon(division.matches[m])) continue;
        const std::string& name = division.graph.matches[m].name;
        if (leads_on(division, m))
            found.push_back(
                {name, "nobody goes on from it", "the director gives the later match other sides"});
        else if (!lost_by_both(division.matches[m]) && gives_a_place(division, m))
            found.push_back({name, "it ended level, and a final place hangs on it",
                             "reopen it, and award it as the director decides"});
    }
}

void against_themselves(const TournamentState& state, const Division& division,
                        std::vector<Fault>& found) {
    for (const tournament::Match& match : division.graph.matches) {
        const Side first = division.settled[match.sides[0]];
        if (first.is_team() && first == division.settled[match.sides[1]])
            found.push_back({match.name,
                             fmt::format("{} is on both sides", state.teams[first.team].name),
                             "give it other sides"});
    }
}

void open_pools(const TournamentState& state, DivisionIndex index, std::vector<Fault>& found) {
    const Division& division = state.divisions[index];
    for (std::size_t p = 0; p < division.pools.size(); ++p) {
        const auto pool = static_cast<PoolIndex>(p);
        const std::string place = "pool " + division.pools[p].name;
        const auto ranked = pool_table(state, index, pool);
        if (const auto* faults = std::get_if<standings::Faults>(&ranked)) {
            found.insert(found.end(), faults->begin(), faults->end());
            continue;
        }
        for (const standings::Place& open : undecided(state, index, pool))
            found.push_back({place,
                             fmt::format("places {} to {} are not decided", open.number,
                                         open.number + open.teams.size() - 1),
                             fmt::format("decide {}", standings::in_words(open.decider))});
    }
}

}  // namespace

std::vector<Fault> waiting(const TournamentState& state, DivisionIndex division) {
    std::vector<Fault> found;
    results_of_others(state, state.divisions[division], found);
    // Where nobody plays any more there is nothing to decide.
    if (all_have_left(state, state.divisions[division])) return found;
    unwon_matches(state.divisions[division], found);
    against_themselves(state, state.divisions[division], found);
    open_pools(state, division, found);
    return found;
}

std::vector<Fault> waiting(const TournamentState& state) {
    std::vector<Fault> all;
    for (DivisionIndex d = 0; d < state.division_count(); ++d) {
        std::vector<Fault> found = waiting(state, d);
        std::move(found.begin(), found.end(), std::back_inserter(all));
    }
    return all;
}

namespace {

/// Whoever said it.
[[nodiscard]] bool same_place(const Placement& a, const Placement& b) {
    return a.court == b.court && a.at == b.at && a.timing == b.timing &&
           a.may_start_early == b.may_start_early;
}

/// The match whose court or time a fact is about; nothing of any other fact.
[[nodiscard]] const std::string* placed_by(const Fact& fact) {
    if (const auto* placed = std::get_if<MatchPlaced>(&fact)) return &placed->match;
    if (const auto* moved = std::get_if<MatchMoved>(&fact)) return &moved->match;
    if (const auto* off = std::get_if<MatchUnplaced>(&fact)) return &off->match;
    return nullptr;
}

/// What a taking back is about in the end: the fact itself when it takes nothing back.
[[nodiscard]] const Fact& meant_by(const TournamentState& state, FactNumber number) {
    const Fact* fact = &state.facts[number - 1];
    while (const auto* back = std::get_if<TakenBack>(fact)) {
        // A fact can take back only what was said before it.
        if (back->fact == 0 || back->fact >= number) break;
        number = back->fact;
        fact = &state.facts[number - 1];
    }
    return *fact;
}

/// By match, the last fact since the plan was published that is about its court or time.
[[nodiscard]] std::map<std::string_view, FactNumber> placed_since(const TournamentState& state,
                                                                  FactNumber published) {
    std::set<FactNumber> idle;
    for (const Finding& finding : state.findings) idle.insert(finding.fact);
    std::map<std::string_view, FactNumber> last;
    for (FactNumber number = published + 1; number <= state.last(); ++number)
        if (state.counts[number - 1] && !idle.contains(number))
            if (const auto* match = placed_by(meant_by(state, number))) last[*match] = number;
    return last;
}

/// The plan as people have it in hand. To the fold a place that is taken back was never said, nor
/// published; those who read the plan read it all the same.
[[nodiscard]] Plan as_published(const TournamentState& state) {
    const FactNumber published = state.plan.fact;
    for (FactNumber number = published + 1; number <= state.last(); ++number) {
        const auto* back = std::get_if<TakenBack>(&state.facts[number - 1]);
        if (back != nullptr && state.counts[number - 1] && back->fact < published)
            return fold(std::span{state.facts}.first(published)).plan;
    }
    return state.plan;
}

}  // namespace

std::vector<PlanChange> changes_since_published(const TournamentState& state) {
    std::vector<PlanChange> changes;
    if (state.plan.version == 0) return changes;
    const Plan plan = as_published(state);
    const auto since = placed_since(state, state.plan.fact);
    const auto last = [&](const std::string& match) {
        const auto found = since.find(match);
        return found == since.end() ? FactNumber{0} : found->second;
    };
    for (const auto& [name, was] : plan.published) {
        const auto ref = state.find_match(name);
        const auto is = ref ? state.match(*ref).placement : std::nullopt;
        if (!is || !same_place(*is, was)) changes.push_back({name, was, is, ref ? last(name) : 0});
    }
    for (const auto& [name, ref] : state.match_names) {
        const auto& is = state.match(ref).placement;
        if (is && !plan.published.contains(name)) changes.push_back({name, {}, is, last(name)});
    }
    return changes;
}

}  // namespace courthand::event
