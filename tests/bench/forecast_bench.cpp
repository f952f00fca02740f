// The forecast of a hall of 32 courts in the middle of a day, made anew as at each rally of any of
// them. The bare limit is chance alone: as many numbers drawn and put in order, nothing decided.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <vector>

#include "courthand/draw/random.h"
#include "courthand/forecast/day_forecast.h"

namespace courthand::forecast {
namespace {

constexpr std::uint16_t courts = 32;
constexpr std::uint16_t rounds = 16;  ///< eight a day, over two days
constexpr std::uint16_t teams_each = 4;
constexpr Minute slot = 70;

/// Each court has four teams that meet again and again, worked by one of them; every sixteenth
/// match comes from winners of other courts. Two rounds are over, 32 matches are live.
Day large_hall() {
    Day day;
    day.teams = courts * teams_each;
    day.kinds.resize(2);
    for (Kind& kind : day.kinds) kind.format.sets = 3;
    day.kinds[1].format.sets = 5;
    day.courts.resize(courts);
    for (std::uint16_t round = 0; round < rounds; ++round)
        for (std::uint16_t court = 0; court < courts; ++court) {
            const auto team = [&](int of) {
                return Entrant{Entrant::Kind::team,
                               static_cast<std::uint16_t>(court * teams_each + of % teams_each), 0};
            };
            DayMatch match;
            match.name = "M" + std::to_string(day.matches.size() + 1);
            match.kind = court % 8 == 0 ? 1 : 0;
            match.sides = {team(round), team(round + 1)};
            match.workers = {team(round + 2)};
            if (round > 2 && court % 4 == 0)
                match.sides[1] = {Entrant::Kind::winner,
                                  static_cast<std::uint16_t>(day.matches.size() - courts + 1), 0};
            match.planned = slot * round;
            if (round < 2)
                match.state = Over{slot * round, slot * round + 58, Winner::A, {100, 3200}};
            if (round == 2)
                match.state = Live{slot * round,
                                   {{1, 0}, {court % 20, 12, Team::A}, Team::B},
                                   {25 + court % 20, 31},
                                   {56.0 + court % 20, 1900},
                                   0};
            day.courts[court].push_back(static_cast<MatchIndex>(day.matches.size()));
            day.matches.push_back(std::move(match));
        }
    day.now = 2 * slot + 35;
    return day;
}

void at_a_rally(benchmark::State& state) {
    Day day = large_hall();
    Forecaster forecaster;
    benchmark::DoNotOptimize(forecaster.forecast(day, {}));  // what is kept is there
    int points = 0;
    for (auto _ : state) {
        std::get<Live>(day.matches[2 * courts].state).score.set.b = ++points % 20;
        const auto result = forecaster.forecast(day, {});
        if (std::holds_alternative<Faults>(result)) state.SkipWithError("the day has faults");
        benchmark::DoNotOptimize(result);
    }
    state.counters["matches"] = static_cast<double>(day.matches.size());
}

/// The first forecast of a day: the courses of its formats are reckoned.
void at_first(benchmark::State& state) {
    const Day day = large_hall();
    for (auto _ : state) {
        Forecaster forecaster;
        benchmark::DoNotOptimize(forecaster.forecast(day, {}));
    }
}

void bare_chance(benchmark::State& state) {
    const Sampling sampling;
    const std::size_t matches = (rounds - 2) * courts;
    std::vector<std::uint64_t> drawn(sampling.samples);
    for (auto _ : state) {
        draw::Random random{1};
        for (std::size_t m = 0; m < matches; ++m)
            for (int what = 0; what < 2; ++what) {  // its start and its end
                for (std::uint64_t& each : drawn) each = random.next() ^ random.next();
                for (const int decile : {5, 8})
                    std::nth_element(drawn.begin(), drawn.begin() + sampling.samples * decile / 10,
                                     drawn.end());
                benchmark::DoNotOptimize(drawn.data());
            }
    }
}

BENCHMARK(bare_chance)->Name("forecast/bare_chance")->Unit(benchmark::kMillisecond);
BENCHMARK(at_a_rally)->Name("forecast/at_a_rally")->Unit(benchmark::kMillisecond);
BENCHMARK(at_first)->Name("forecast/at_first")->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace courthand::forecast

BENCHMARK_MAIN();
