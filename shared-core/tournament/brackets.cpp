#include "courthand/tournament/brackets.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>
#include <utility>

#include "courthand/draw/round_robin.h"
#include "tournament/bracket_builder.h"

namespace courthand::tournament {
namespace {

/// The places of those who lost in a round before the last, best first.
void share_losers(BracketBuilder& builder, const std::vector<Halves>& rounds, std::size_t until,
                  std::uint16_t& next) {
    for (std::size_t r = until; r-- > 0;) builder.share_places(rounds[r].losers, next);
}

void name_final(Graph& graph, const Entrant& winner) {
    const Source& s = graph.sources[*winner];
    if (s.kind == Source::Kind::winner) graph.matches[s.of].stage = Stage::final;
}

/// Everyone plays for every place: a round, then its winners and its losers among themselves.
void play_for_places(BracketBuilder& builder, const std::vector<SourceIndex>& seeded, Stage stage,
                     std::uint16_t round, std::uint16_t& next) {
    if (seeded.size() == 1) return builder.place(seeded[0], next);
    const std::vector<Entrant> slots = slotted(seeded);
    const Halves halves = builder.round(slots, stage, round);
    // Pair i holds seed s of the half bracket: its winner keeps that seed. Losers are seeded by the
    // seed that should have lost, best first, which is the other way round.
    const auto seeds = slots_of(halves.winners.size());
    std::vector<SourceIndex> winners(halves.winners.size());
    std::vector<Entrant> by_seed(halves.losers.size());
    for (std::size_t i = 0; i < seeds.size(); ++i) {
        winners[seeds[i] - 1U] = *halves.winners[i];
        by_seed[seeds.size() - seeds[i]] = halves.losers[i];
    }
    std::vector<SourceIndex> losers;
    for (const Entrant& e : by_seed)
        if (e) losers.push_back(*e);
    const auto later = static_cast<std::uint16_t>(round + 1);
    play_for_places(builder, winners, stage, later, next);
    play_for_places(builder, losers, Stage::placement, later, next);
}

/// The entrants of a consolation: who lost their first match, the final aside.
struct FirstLosses {
    std::vector<SourceIndex> of_second_round;  ///< a side of the match had a bye
    std::vector<SourceIndex> of_first_round;
    std::vector<std::size_t> second_round_pairs;  ///< pair of the second round each comes from
    std::vector<std::size_t> first_round_pairs;   ///< the same, for the first round
};

[[nodiscard]] FirstLosses first_losses(const std::vector<Entrant>& slots,
                                       const std::vector<Halves>& rounds) {
    FirstLosses found;
    const auto seeds = slots_of(slots.size() / 2);
    std::vector<std::size_t> order(seeds.size());
    for (std::size_t i = 0; i < seeds.size(); ++i) order[seeds[i] - 1U] = i;
    // First-round losers, the best that should have lost first.
    for (auto pair = order.rbegin(); rounds.size() > 1 && pair != order.rend(); ++pair) {
        if (!rounds[0].losers[*pair]) continue;
        found.of_first_round.push_back(*rounds[0].losers[*pair]);
        found.first_round_pairs.push_back(*pair / 2);
    }
    if (rounds.size() < 3) return found;
    const auto next_seeds = slots_of(slots.size() / 4);
    const auto last_seed = static_cast<std::uint16_t>(next_seeds.size());
    for (std::uint16_t seed = 1; seed <= last_seed; ++seed) {
        const auto pair = static_cast<std::size_t>(
            std::find(next_seeds.begin(), next_seeds.end(), seed) - next_seeds.begin());
        const bool bye = !rounds[0].losers[2 * pair] || !rounds[0].losers[2 * pair + 1];
        if (!bye) continue;
        found.of_second_round.push_back(*rounds[1].losers[pair]);
        found.second_round_pairs.push_back(pair);
    }
    return found;
}

/// First matches of a bracket of these that would repeat one of the first two rounds.
[[nodiscard]] std::size_t repeats(const FirstLosses& f) {
    std::vector<std::size_t> pairs = f.second_round_pairs;
    pairs.insert(pairs.end(), f.first_round_pairs.begin(), f.first_round_pairs.end());
    std::size_t size = 1;
    while (size < pairs.size()) size *= 2;
    std::size_t found = 0;
    const std::size_t second = f.second_round_pairs.size();
    for (std::size_t seed = 1; seed <= size / 2; ++seed) {
        const std::size_t other = size + 1 - seed;
        if (other > pairs.size()) continue;
        const bool mixed = (seed <= second) != (other <= second);
        if (mixed && pairs[seed - 1] == pairs[other - 1]) ++found;
    }
    return found;
}

/// Turns the first-round losers until nobody meets at once whom he may have met before.
void keep_apart(FirstLosses& f) {
    FirstLosses best = f;
    for (std::size_t i = 0; i < f.of_first_round.size() && repeats(best) > 0; ++i) {
        std::rotate(f.of_first_round.begin(), f.of_first_round.begin() + 1, f.of_first_round.end());
        std::rotate(f.first_round_pairs.begin(), f.first_round_pairs.begin() + 1,
                    f.first_round_pairs.end());
        if (repeats(f) < repeats(best)) best = f;
    }
    f = best;
}

[[nodiscard]] bool contains(const std::vector<SourceIndex>& all, const Entrant& e) {
    return e && std::find(all.begin(), all.end(), *e) != all.end();
}

}  // namespace

Faults add_single_elimination(Graph& graph, const std::vector<SourceIndex>& entrants,
                              const BracketOptions& options) {
    Faults faults = faults_of_entrants(graph, entrants, options.prefix);
    if (!faults.empty()) return faults;
    BracketBuilder builder{graph, options.prefix};
    std::vector<Entrant> slots = slotted(entrants);
    std::vector<Halves> rounds;
    Entrant third;
    Entrant fourth;
    for (std::uint16_t r = 1; slots.size() > 1; ++r) {
        // The match for third place is played before the final.
        if (options.third_place && slots.size() == 2 && !rounds.empty()) {
            const std::vector<Entrant>& beaten = rounds.back().losers;
            std::tie(third, fourth) = builder.meet(beaten[0], beaten[1], Stage::third_place, r);
        }
        rounds.push_back(builder.round(slots, Stage::main, r));
        slots = rounds.back().winners;
    }
    name_final(graph, slots[0]);
    std::uint16_t next = 1;
    builder.place(slots[0], next);
    builder.share_places(rounds.back().losers, next);
    std::size_t until = rounds.size() - 1;
    if (third) {
        builder.place(third, next);
        builder.place(fourth, next);
        --until;
    }
    share_losers(builder, rounds, until, next);
    return {};
}

Faults add_consolation(Graph& graph, const std::vector<SourceIndex>& entrants,
                       const BracketOptions& options) {
    Faults faults = faults_of_entrants(graph, entrants, options.prefix);
    if (!faults.empty()) return faults;
    BracketBuilder builder{graph, options.prefix};
    const std::vector<Entrant> slots = slotted(entrants);
    const std::vector<Halves> rounds = builder.knock_out(slots, Stage::main);
    name_final(graph, rounds.back().winners[0]);
    FirstLosses losses = first_losses(slots, rounds);
    keep_apart(losses);
    std::vector<SourceIndex> beaten = losses.of_second_round;
    beaten.insert(beaten.end(), losses.of_first_round.begin(), losses.of_first_round.end());

    std::uint16_t next = 1;
    builder.place(rounds.back().winners[0], next);
    for (std::size_t r = rounds.size(); r-- > 0;) {
        std::vector<Entrant> out;
        for (const Entrant& e : rounds[r].losers)
            if (!contains(beaten, e)) out.push_back(e);
        builder.share_places(out, next);
    }
    if (beaten.size() == 1) builder.place(beaten[0], next);
    if (beaten.size() < 2) return {};
    const std::vector<Halves> again = builder.knock_out(slotted(beaten), Stage::consolation);
    builder.place(again.back().winners[0], next);
    share_losers(builder, again, again.size(), next);
    return {};
}

Faults add_placement(Graph& graph, const std::vector<SourceIndex>& entrants,
                     const BracketOptions& options) {
    Faults faults = faults_of_entrants(graph, entrants, options.prefix);
    if (!faults.empty()) return faults;
    BracketBuilder builder{graph, options.prefix};
    std::uint16_t next = 1;
    const std::size_t first_place = graph.places.size();
    play_for_places(builder, entrants, Stage::main, 1, next);
    name_final(graph, graph.places[first_place].source);
    return {};
}

Faults add_pool(Graph& graph, const std::string& name, const std::vector<SourceIndex>& teams,
                const std::string& prefix, Legs legs) {
    for (const SourceIndex s : teams)
        if (s >= graph.sources.size())
            return {{"pool " + name, "a team that is not in the graph", "add it first"}};
    Faults faults = faults_of_prefix(graph, prefix);
    if (!faults.empty()) return faults;
    auto order = draw::order_of_play(static_cast<std::uint16_t>(std::min<std::size_t>(
                                         teams.size(), draw::most_in_round_robin + 1U)),
                                     1);
    if (auto* once = std::get_if<draw::OrderOfPlay>(&order); once && legs == Legs::two)
        order = draw::with_second_leg(std::move(*once));
    if (const auto* wrong = std::get_if<Faults>(&order)) {
        faults = *wrong;
        for (Fault& f : faults) f.place = "pool " + name;
        return faults;
    }
    PoolNode pool{name, teams, {}};
    const auto index = static_cast<PoolIndex>(graph.pools.size());
    for (const draw::Fixture& f : std::get<draw::OrderOfPlay>(order).fixtures) {
        Match match;
        pool.matches.push_back(static_cast<MatchIndex>(graph.matches.size()));
        match.name = fmt::format("{}{}", prefix, pool.matches.size());
        match.stage = Stage::pool;
        match.pool = index;
        match.sides = {teams[f.teams.first - 1U], teams[f.teams.second - 1U]};
        if (f.worker) match.workers = teams[*f.worker - 1U];
        graph.matches.push_back(std::move(match));
    }
    graph.pools.push_back(std::move(pool));
    return {};
}

}  // namespace courthand::tournament
