// The record of a tournament: folding an event of 128 teams and 600 matches, one fact more, what a
// taking back would bring, standings of 32 pools, a draw and a bracket of 64 teams. The bare limit
// of what makes a state is a copy of that state: the same memory filled, nothing decided.
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <string>
#include <vector>

#include "courthand/event/effects.h"
#include "courthand/event/fold.h"
#include "courthand/event/pool_table.h"

namespace courthand::event {
namespace {

constexpr int divisions = 4;
constexpr int teams_each = 32;
constexpr std::uint16_t courts = 16;

DivisionOpened division_of(const std::string& code) {
    DivisionOpened division;
    division.division = code;
    division.profile = "international-2021";
    division.chain = "international-2017";
    division.format.own = true;
    division.format.format.sets = 3;
    return division;
}

/// Places, duties and results of every match that has both its sides, until none is left.
void play(TournamentState& state, std::vector<Fact>& facts) {
    const auto say = [&](Fact fact) {
        fold_in(state, fact);
        facts.push_back(std::move(fact));
    };
    for (bool more = true; more;) {
        more = false;
        for (const auto& [name, ref] : std::map{state.match_names}) {
            if (state.match(ref).result || !state.side(ref, 0).is_team() ||
                !state.side(ref, 1).is_team())
                continue;
            const auto low = static_cast<std::uint16_t>(facts.size() % 23);
            const auto court = static_cast<std::uint16_t>(1 + facts.size() % courts);
            const LocalTime at{29'930'400 + static_cast<std::int32_t>(facts.size())};
            say(MatchPlaced{name, court, at, Timing::follows, true});
            say(ResultConfirmed{name, ResultFrom::paper, {{25, low}, {low, 25}, {15, 9}}, {}, {}});
            more = true;
        }
    }
}

/// Four divisions of 32 teams in eight pools of four; everybody plays on for every place in two
/// brackets of 16: 4 * (48 + 2 * 32) = 448 matches, and pools of a second day up to 600.
std::vector<Fact> large_event() {
    TournamentState state;
    std::vector<Fact> facts;
    const auto say = [&](Fact fact) {
        fold_in(state, fact);
        facts.push_back(std::move(fact));
    };
    say(TournamentOpened{"Harbour Cup", {20'785}, {20'786}, "Europe/London"});
    for (std::uint16_t court = 1; court <= courts; ++court)
        say(CourtOpened{court, "", {29'930'400}, {29'931'000}, {}});
    for (int d = 0; d < divisions; ++d) {
        const std::string code = fmt::format("D{}", d + 1);
        say(division_of(code));
        for (int t = 1; t <= teams_each; ++t) {
            const std::string name = fmt::format("Harbour team {} {}", code, t);
            say(TeamEntered{name, code, "Harbour"});
            say(RosterFrozen{name, {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12}});
        }
        say(DrawMade{code, DrawMethod::serpentine, 8, 0, code + "-", {2}, {}});
        for (const std::uint8_t from : {std::uint8_t{1}, std::uint8_t{3}}) {
            BracketMade bracket;
            bracket.division = code;
            bracket.kind = BracketKind::placement;
            bracket.prefix = fmt::format("{}-{}", code, from == 1 ? "M" : "S");
            bracket.from_place = from;
            bracket.to_place = static_cast<std::uint8_t>(from + 1);
            bracket.best_place = from == 1 ? 1 : 17;
            say(bracket);
        }
        const std::size_t wanted = 600 / divisions;
        for (std::size_t n = 1; state.divisions.back().graph.matches.size() < wanted; ++n)
            say(MatchAdded{fmt::format("{}-X{}", code, n),
                           code,
                           {Source::Kind::winner, fmt::format("{}-A{}", code, 1 + n % 6), 0, {}},
                           {Source::Kind::loser, fmt::format("{}-B{}", code, 1 + n % 6), 0, {}},
                           {}});
    }
    play(state, facts);
    return facts;
}

const std::vector<Fact>& event_facts() {
    static const std::vector<Fact> facts = large_event();
    return facts;
}

const TournamentState& event_state() {
    static const TournamentState state = fold(event_facts());
    return state;
}

/// An event that is not what it was meant to be would be measured for nothing.
void counters(benchmark::State& state) {
    if (!event_state().findings.empty())
        state.SkipWithError(event_state().findings.front().fault.message.c_str());
    state.counters["facts"] = static_cast<double>(event_facts().size());
    state.counters["matches"] = static_cast<double>(event_state().match_names.size());
}

void fold_event(benchmark::State& state) {
    for (auto _ : state) benchmark::DoNotOptimize(fold(event_facts()));
    counters(state);
}

void bare_fold(benchmark::State& state) {
    for (auto _ : state) {
        TournamentState copy = event_state();
        benchmark::DoNotOptimize(copy);
    }
}

/// The state is copied outside of the clock.
void one_more_result(benchmark::State& state) {
    std::vector<Fact> facts = event_facts();
    const Fact last = facts.back();
    facts.pop_back();
    const TournamentState before = fold(facts);
    for (auto _ : state) {
        state.PauseTiming();
        TournamentState after = before;
        state.ResumeTiming();
        fold_in(after, last);
        benchmark::DoNotOptimize(after);
    }
}

void effects(benchmark::State& state) {
    const auto fact = static_cast<FactNumber>(event_facts().size() / 2);
    for (auto _ : state) benchmark::DoNotOptimize(effects_of_taking_back(event_state(), fact));
    counters(state);
}

/// A rally ends on each of 32 courts: the order of every pool anew.
void standings_of_pools(benchmark::State& state) {
    const TournamentState& event = event_state();
    std::size_t pools = 0;
    for (auto _ : state) {
        pools = 0;
        for (DivisionIndex d = 0; d < event.divisions.size(); ++d)
            for (PoolIndex p = 0; p < event.divisions[d].pools.size(); ++p, ++pools)
                benchmark::DoNotOptimize(pool_table(event, d, p));
    }
    state.counters["pools"] = static_cast<double>(pools);
}

/// The sets and points of the same results added up for each team, in no order.
void bare_standings(benchmark::State& state) {
    const TournamentState& event = event_state();
    struct Sums {
        int won = 0;
        int points = 0;
        int against = 0;
    };
    std::vector<Sums> sums;
    for (auto _ : state) {
        sums.assign(event.teams.size(), {});
        for (const Division& division : event.divisions)
            for (const tournament::PoolNode& pool : division.graph.pools)
                for (const MatchIndex m : pool.matches) {
                    const Result& result = *division.matches[m].result;
                    for (const SetScore set : result.sets) {
                        Sums& first = sums[result.teams[0]];
                        Sums& second = sums[result.teams[1]];
                        first.won += set.first > set.second ? 1 : 0;
                        second.won += set.second > set.first ? 1 : 0;
                        first.points += set.first;
                        first.against += set.second;
                        second.points += set.second;
                        second.against += set.first;
                    }
                }
        benchmark::DoNotOptimize(sums);
    }
}

std::vector<Fact> sixty_four() {
    std::vector<Fact> facts{division_of("U16")};
    for (int t = 1; t <= 64; ++t)
        facts.emplace_back(TeamEntered{fmt::format("Team {}", t), "U16", ""});
    return facts;
}

struct DrawAndBracket {
    std::uint8_t through;  ///< of each pool
    BracketKind kind;
};
constexpr DrawAndBracket two_of_each_pool{2, BracketKind::single};
constexpr DrawAndBracket all_of_each_pool{4, BracketKind::double_};

/// 16 pools of four, and those who go on in a bracket.
void draw_and_graph(TournamentState& state, DrawAndBracket what) {
    DrawMade draw;
    draw.division = "U16";
    draw.pools = 16;
    fold_in(state, draw);
    BracketMade bracket;
    bracket.division = "U16";
    bracket.kind = what.kind;
    bracket.prefix = "X";  // pools are called A to P
    bracket.to_place = what.through;
    fold_in(state, bracket);
}

void drawing(benchmark::State& state, DrawAndBracket what) {
    const TournamentState before = fold(sixty_four());
    std::size_t matches = 0;
    for (auto _ : state) {
        TournamentState after = before;
        draw_and_graph(after, what);
        matches = after.match_names.size();
        if (!after.findings.empty())
            state.SkipWithError(after.findings.front().fault.message.c_str());
        benchmark::DoNotOptimize(after);
    }
    state.counters["matches"] = static_cast<double>(matches);
}

void bare_drawing(benchmark::State& state, DrawAndBracket what) {
    TournamentState drawn = fold(sixty_four());
    draw_and_graph(drawn, what);
    for (auto _ : state) {
        TournamentState after = drawn;
        benchmark::DoNotOptimize(after);
    }
}

BENCHMARK(bare_fold)->Name("event/bare_fold")->MinTime(0.3)->Unit(benchmark::kMillisecond);
BENCHMARK(fold_event)->Name("event/fold")->MinTime(0.3)->Unit(benchmark::kMillisecond);
BENCHMARK(one_more_result)->Name("event/one_more_result")->Unit(benchmark::kMicrosecond);
BENCHMARK(effects)->Name("event/effects")->Unit(benchmark::kMillisecond);
BENCHMARK(bare_standings)->Name("event/bare_standings")->Unit(benchmark::kMicrosecond);
BENCHMARK(standings_of_pools)->Name("event/standings")->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(bare_drawing, two_of_each_pool, two_of_each_pool)
    ->Name("event/bare_draw/32_of_64")
    ->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(drawing, two_of_each_pool, two_of_each_pool)
    ->Name("event/draw/32_of_64")
    ->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(bare_drawing, all_of_each_pool, all_of_each_pool)
    ->Name("event/bare_draw/64_of_64")
    ->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(drawing, all_of_each_pool, all_of_each_pool)
    ->Name("event/draw/64_of_64")
    ->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace courthand::event

BENCHMARK_MAIN();
