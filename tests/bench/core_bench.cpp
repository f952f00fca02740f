// The rules core: judging beside a bare fold of the same entries, and replay of one long match.
#include <benchmark/benchmark.h>

#include <stdexcept>
#include <string>
#include <vector>

#include "courthand/history/explanation.h"
#include "courthand/history/late_fault.h"
#include "courthand/rules/judge.h"
#include "courthand/v1/entry.pb.h"
#include "tests/bench/allocations.h"
#include "tests/bench/bare_fold.h"
#include "tests/bench/played_match.h"
#include "tests/bench/random_matches.h"
#include "wire/fact_convert.h"
#include "wire/fold_record.h"

namespace courthand::bench {
namespace {

constexpr std::size_t least_entries = 100'000;
constexpr std::size_t long_match_entries = 1500;

const Rules& rules() {
    static const Rules& found = find_profile("international-2025")->rules;
    return found;
}

const std::vector<PlayedMatch>& realistic() {
    static const auto matches = played_matches(rules(), least_entries);
    return matches;
}

const std::vector<PlayedMatch>& absurd() {
    static const auto matches = random_matches(rules(), least_entries);
    return matches;
}

const PlayedMatch& one_long_match() {
    static const PlayedMatch match = long_match(rules(), long_match_entries);
    return match;
}

std::size_t entries_of(const std::vector<PlayedMatch>& matches) {
    std::size_t count = 0;
    for (const PlayedMatch& match : matches) count += match.size();
    return count;
}

/// Figures of one pass over `entries` entries for each iteration.
void report(benchmark::State& state, std::size_t entries, std::size_t allocated) {
    const auto all = static_cast<double>(state.iterations()) * static_cast<double>(entries);
    state.counters["per_second"] = benchmark::Counter(all, benchmark::Counter::kIsRate);
    state.counters["allocations"] = static_cast<double>(allocated) / all;
    state.counters["entries"] = static_cast<double>(entries);
}

using Matches = const std::vector<PlayedMatch>& (*)();

void bare(benchmark::State& state, Matches of) {
    const auto& matches = of();
    const std::size_t before = allocations();
    for (auto _ : state)
        for (const PlayedMatch& match : matches) {
            MatchState folded{};
            for (const Entry& entry : match) {
                bare_apply(folded, entry);
                benchmark::ClobberMemory();
            }
            benchmark::DoNotOptimize(folded);
        }
    report(state, entries_of(matches), allocations() - before);
}

/// Allocating even once is a failure: the promise is none.
void judging(benchmark::State& state, Matches of) {
    const auto& matches = of();
    VerdictList raised;
    std::size_t verdicts = 0;
    const std::size_t before = allocations();
    for (auto _ : state)
        for (const PlayedMatch& match : matches) {
            MatchState folded{};
            for (const Entry& entry : match) {
                apply(rules(), folded, entry, raised);
                verdicts += raised.size();
                benchmark::ClobberMemory();
            }
            benchmark::DoNotOptimize(folded);
        }
    const std::size_t allocated = allocations() - before;
    report(state, entries_of(matches), allocated);
    state.counters["verdicts_per_1000"] =
        1000.0 * static_cast<double>(verdicts) /
        (static_cast<double>(state.iterations()) * static_cast<double>(entries_of(matches)));
    if (allocated != 0) state.SkipWithError("judging allocated memory");
}

void bare_replay(benchmark::State& state) {
    const PlayedMatch& match = one_long_match();
    for (auto _ : state) {
        MatchState folded{};
        for (const Entry& entry : match) {
            bare_apply(folded, entry);
            benchmark::ClobberMemory();
        }
        benchmark::DoNotOptimize(folded);
    }
    report(state, match.size(), 0);
}

void replay_decoded(benchmark::State& state) {
    const PlayedMatch& match = one_long_match();
    for (auto _ : state) benchmark::DoNotOptimize(fold(rules(), match));
    report(state, match.size(), 0);
}

/// What stands at the end of the match, since when, and every explanation of both teams' services.
void late_analysis(benchmark::State& state) {
    const PlayedMatch& match = one_long_match();
    const EntryNumber end = match.back().number;
    for (auto _ : state) {
        benchmark::DoNotOptimize(late_faults(rules(), match, end));
        for (const Team team : {Team::A, Team::B})
            benchmark::DoNotOptimize(explanations_of_wrong_server(rules(), match, team, end));
    }
    report(state, match.size(), 0);
}

/// The same match as a device writes it.
struct WireMatch {
    wire::Uuid id;
    std::vector<std::string> bytes;
};

WireMatch make_wire_match() {
    wire::UuidMaker ids = wire::UuidMaker::of_system();
    wire::Hasher hasher;
    WireMatch made{ids.next(), {}};
    const std::string device = ids.next().to_bytes();
    wire::Head head = wire::genesis(made.id, hasher);
    for (const Entry& entry : one_long_match()) {
        v1::Entry message;
        message.set_match_id(made.id.to_bytes());
        message.set_epoch(1);
        message.set_entry_id(ids.next().to_bytes());
        message.set_device_id(device);
        message.set_device_time_us(1);
        wire::to_proto(Record{entry.fact}, message);
        auto sealed = wire::seal(message, head, hasher);
        if (const auto* why = std::get_if<wire::Unreadable>(&sealed))
            throw std::logic_error{why->text()};
        head = std::get<wire::ReadEntry>(sealed).head();
        made.bytes.push_back(std::get<wire::ReadEntry>(sealed).bytes());
    }
    return made;
}

const WireMatch& wire_match() {
    static const WireMatch made = make_wire_match();
    return made;
}

/// Reading and hashing alone, with what the two libraries offer.
void bare_wire(benchmark::State& state) {
    const WireMatch& match = wire_match();
    wire::Hasher hasher;
    for (auto _ : state)
        for (const std::string& bytes : match.bytes) {
            v1::Entry entry;
            benchmark::DoNotOptimize(entry.ParseFromString(bytes));
            benchmark::DoNotOptimize(hasher.of(bytes));
        }
    report(state, match.bytes.size(), 0);
}

void replay_wire(benchmark::State& state) {
    const WireMatch& match = wire_match();
    for (auto _ : state) {
        const auto folded = wire::fold_record(match.id, rules(), match.bytes);
        if (folded.fault) state.SkipWithError("the record does not fold");
        benchmark::DoNotOptimize(folded.state);
    }
    report(state, match.bytes.size(), 0);
}

/// The facts of that match as messages: what the conversion alone costs.
void write_fact(benchmark::State& state) {
    const PlayedMatch& match = one_long_match();
    v1::Fact message;
    for (auto _ : state)
        for (const Entry& entry : match) {
            wire::to_proto(entry.fact, message);
            benchmark::DoNotOptimize(message);
        }
    report(state, match.size(), 0);
}

void read_fact(benchmark::State& state) {
    const PlayedMatch& match = one_long_match();
    std::vector<v1::Fact> messages(match.size());
    for (std::size_t i = 0; i < match.size(); ++i) wire::to_proto(match[i].fact, messages[i]);
    for (auto _ : state)
        for (const v1::Fact& message : messages)
            benchmark::DoNotOptimize(wire::from_proto(message));
    report(state, match.size(), 0);
}

/// From the value to the bytes of an entry, and back.
void serialize_entry(benchmark::State& state) {
    const PlayedMatch& match = one_long_match();
    v1::Entry message;
    message.ParseFromString(wire_match().bytes.front());
    std::string bytes;
    for (auto _ : state)
        for (const Entry& entry : match) {
            wire::to_proto(Record{entry.fact}, message);
            benchmark::DoNotOptimize(message.SerializeToString(&bytes));
        }
    report(state, match.size(), 0);
}

void parse_entry(benchmark::State& state) {
    const WireMatch& match = wire_match();
    for (auto _ : state)
        for (const std::string& bytes : match.bytes) {
            v1::Entry entry;
            benchmark::DoNotOptimize(entry.ParseFromString(bytes));
            benchmark::DoNotOptimize(wire::from_proto(entry));
        }
    report(state, match.bytes.size(), 0);
}

/// The same without a value: what the protobuf library takes alone.
void bare_serialize(benchmark::State& state) {
    const WireMatch& match = wire_match();
    std::vector<v1::Entry> messages(match.bytes.size());
    for (std::size_t i = 0; i < messages.size(); ++i) messages[i].ParseFromString(match.bytes[i]);
    std::string bytes;
    for (auto _ : state)
        for (const v1::Entry& message : messages)
            benchmark::DoNotOptimize(message.SerializeToString(&bytes));
    report(state, messages.size(), 0);
}

void bare_parse(benchmark::State& state) {
    const WireMatch& match = wire_match();
    for (auto _ : state)
        for (const std::string& bytes : match.bytes) {
            v1::Entry entry;
            benchmark::DoNotOptimize(entry.ParseFromString(bytes));
        }
    report(state, match.bytes.size(), 0);
}

/// No time in it: the sizes of the state, for the table.
void sizes(benchmark::State& state) {
    for (auto _ : state) benchmark::DoNotOptimize(&state);
    state.counters["set_state_bytes"] = sizeof(SetState);
    state.counters["match_state_bytes"] = sizeof(MatchState);
    state.counters["entry_bytes"] = sizeof(Entry);
}

BENCHMARK_CAPTURE(bare, realistic, realistic)->Name("core/bare_fold/realistic")->MinTime(0.4);
BENCHMARK_CAPTURE(judging, realistic, realistic)->Name("core/judge/realistic")->MinTime(0.4);
BENCHMARK_CAPTURE(bare, absurd, absurd)->Name("core/bare_fold/absurd")->MinTime(0.4);
BENCHMARK_CAPTURE(judging, absurd, absurd)->Name("core/judge/absurd")->MinTime(0.4);
BENCHMARK(bare_replay)->Name("core/bare_fold/1500")->MinTime(0.2);
BENCHMARK(replay_decoded)->Name("core/replay_1500/decoded")->MinTime(0.3);
BENCHMARK(late_analysis)->Name("core/late_analysis")->MinTime(0.3);
BENCHMARK(bare_wire)->Name("core/replay_1500/bare_wire")->MinTime(0.3);
BENCHMARK(replay_wire)->Name("core/replay_1500/wire")->MinTime(0.3);
BENCHMARK(bare_serialize)->Name("core/entry/bare_serialize")->MinTime(0.3);
BENCHMARK(serialize_entry)->Name("core/entry/serialize")->MinTime(0.3);
BENCHMARK(bare_parse)->Name("core/entry/bare_parse")->MinTime(0.3);
BENCHMARK(parse_entry)->Name("core/entry/parse")->MinTime(0.3);
BENCHMARK(write_fact)->Name("core/entry/write_fact")->MinTime(0.3);
BENCHMARK(read_fact)->Name("core/entry/read_fact")->MinTime(0.3);
BENCHMARK(sizes)->Name("core/sizes")->Iterations(1);

}  // namespace
}  // namespace courthand::bench

BENCHMARK_MAIN();
