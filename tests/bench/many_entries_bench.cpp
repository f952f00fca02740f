// Many entries through a real server over TLS: a hundred in one push, many tables at the same
// moment, streams of full pushes; each beside its bare limit. Everything that is sent was made and
// sealed before.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <functional>
#include <future>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "tests/bench/backlog.h"
#include "tests/bench/bare_entries.h"
#include "tests/bench/latency.h"
#include "tests/bench/network_shared.h"
#include "wire/message_limits.h"
#include "wire/read_entry.h"

namespace courthand::bench {
namespace {

using server::AppendItem;
using server::testing::EnrolledDevice;
using server::testing::TestRecord;

constexpr std::size_t hundred = 100;
constexpr std::size_t pushes_of_a_match = 5;
constexpr std::size_t tables = 64;
constexpr std::size_t streams = 8;
constexpr std::size_t pushes_of_a_stream = 8;

using Pushes = std::vector<v1::PushRequest>;

/// Before the next one comes: with 20 ms what the last brought about, boards and alerts, is over;
/// without any it is still under way and wants the same cores and the same database.
void rest(const benchmark::State& state) {
    std::this_thread::sleep_for(std::chrono::milliseconds{state.range(0)});
}

/// The first entries of a record, so many in each push.
Pushes pushes_of(const TestRecord& record, std::size_t entries, std::size_t pushes) {
    Pushes made;
    std::size_t next = 0;
    while (made.size() < pushes) {
        v1::PushRequest& push = made.emplace_back();
        push.set_match_id(record.match().to_bytes());
        push.mutable_writer()->set_number(record.epoch());
        for (std::size_t i = 0; i < entries; ++i)
            push.add_entries()->set_data(record.bytes()[next++]);
    }
    return made;
}

/// What the store would be given.
std::vector<AppendItem> items_of(const v1::PushRequest& push) {
    std::vector<AppendItem> items;
    for (const v1::EntryBytes& entry : push.entries()) {
        const auto read = std::get<wire::ReadEntry>(wire::read_entry(entry.data()));
        AppendItem& item = items.emplace_back();
        item.match.value.bytes = read.header().match_id.bytes();
        item.id.value.bytes = read.header().entry_id.bytes();
        item.device.value.bytes = read.header().device_id.bytes();
        item.epoch = read.header().epoch;
        item.number = read.header().seq;
        item.hash = read.hash();
        item.bytes = read.shared_bytes();
    }
    return items;
}

/// One push after the other on one connection, matches played one behind the other by one table.
/// `also`: what the bare limit does besides.
void send_hundreds(benchmark::State& state, const std::string& address,
                   const EnrolledDevice& sender_device, const Pushes& pushes,
                   const std::function<void()>& also) {
    EntrySender sender{address, sender_device};
    auto next = pushes.begin();
    for (std::size_t i = 0; i < pushes_of_a_match; ++i)
        if (!sender.send(*next++)) return state.SkipWithError("a push was not appended");
    Latency latency;
    for (auto _ : state) {
        bool appended = false;
        latency.time(state, [&] {
            appended = sender.send(*next);
            if (also) also();
        });
        ++next;
        if (!appended) return state.SkipWithError("a push was not appended");
        rest(state);
    }
    latency.report(state);
}

/// Of matches that the table has opened: enough for the benchmark and one to begin with.
Pushes hundreds(const benchmark::State& state, const MeasuredTable& table) {
    Pushes all;
    while (all.size() < static_cast<std::size_t>(state.max_iterations) + pushes_of_a_match)
        for (v1::PushRequest& push :
             pushes_of(shared->venue.open_match(table, hundred * pushes_of_a_match), hundred,
                       pushes_of_a_match))
            all.push_back(std::move(push));
    return all;
}

void hundred_pushed(benchmark::State& state) {
    const MeasuredTable table = shared->venue.new_table();
    send_hundreds(state, shared->venue.address(), table.device, hundreds(state, table), {});
}

void bare_hundred(benchmark::State& state) {
    const Pushes pushes = hundreds(state, shared->venue.new_table());
    BareEntries database{shared->venue.dsn(), "bare_hundred_" + std::to_string(state.range(0))};
    std::vector<std::vector<AppendItem>> items;
    for (const v1::PushRequest& push : pushes) items.push_back(items_of(push));
    auto next = items.begin() + pushes_of_a_match;
    send_hundreds(state, shared->echo.address(), shared->echo.caller(), pushes,
                  [&] { database.insert(*next++); });
}

/// Calls that begin at one moment, until the last is answered.
class Round {
  public:
    void begin(std::size_t calls) {
        const std::scoped_lock lock{mutex_};
        left_ = calls;
    }
    void answered(bool appended) {
        const std::scoped_lock lock{mutex_};
        all_appended_ = all_appended_ && appended;
        if (--left_ == 0) last_.notify_one();
    }
    /// False when a push of this or of an earlier round was not appended.
    [[nodiscard]] bool wait() {
        std::unique_lock lock{mutex_};
        last_.wait(lock, [this] { return left_ == 0; });
        return all_appended_;
    }

  private:
    std::mutex mutex_;
    std::condition_variable last_;
    std::size_t left_ = 0;
    bool all_appended_ = true;
};

/// One table with its connection; its pushes follow each other, one in each round.
class RoundTable {
  public:
    RoundTable(const std::string& address, const EnrolledDevice& device, Pushes pushes)
        : stub_{v1::Sync::NewStub(secure_channel(address, device))}, pushes_{std::move(pushes)} {}

    [[nodiscard]] const Pushes& pushes() const noexcept { return pushes_; }
    void send(Round& round) {
        struct Call {
            grpc::ClientContext context;
            v1::PushResponse response;
        };
        const auto call = std::make_shared<Call>();
        prepare(call->context);
        const v1::PushRequest& push = pushes_[sent_++];
        stub_->async()->Push(&call->context, &push, &call->response,
                             [call, &push, &round](const grpc::Status& status) {
                                 round.answered(status.ok() && all_appended(push, call->response));
                             });
    }

  private:
    std::unique_ptr<v1::Sync::Stub> stub_;
    Pushes pushes_;
    std::size_t sent_ = 0;
};

/// Every table sends one entry at the same moment; a round ends when the last has its answer.
/// `also`: what the bare limit does then.
void send_rounds(benchmark::State& state, std::vector<RoundTable>& all,
                 const std::function<void()>& also) {
    Round round;
    const auto go_round = [&] {
        round.begin(all.size());
        for (RoundTable& table : all) table.send(round);
        const bool appended = round.wait();
        if (also) also();
        return appended;
    };
    for (std::uint32_t i = 0; i < warm_up; ++i)
        if (!go_round()) return state.SkipWithError("an entry was not appended");
    Latency latency;
    for (auto _ : state) {
        bool appended = false;
        latency.time(state, [&] { appended = go_round(); });
        if (!appended) return state.SkipWithError("an entry was not appended");
        rest(state);
    }
    latency.report(state);
}

std::vector<MeasuredMatch> round_matches() {
    std::vector<MeasuredMatch> matches;
    while (matches.size() < tables) matches.push_back(shared->venue.new_match());
    return matches;
}

std::size_t rounds(const benchmark::State& state) {
    return static_cast<std::size_t>(state.max_iterations) + warm_up;
}

void tables_at_once(benchmark::State& state) {
    std::vector<RoundTable> all;
    for (const MeasuredMatch& match : round_matches())
        all.emplace_back(shared->venue.address(), match.table,
                         pushes_of(match.record, 1, rounds(state)));
    send_rounds(state, all, {});
}

void bare_tables(benchmark::State& state) {
    std::vector<RoundTable> all;
    for (const MeasuredMatch& match : round_matches())
        all.emplace_back(shared->echo.address(), shared->echo.caller(),
                         pushes_of(match.record, 1, rounds(state)));
    BareEntries database{shared->venue.dsn(), "bare_tables_" + std::to_string(state.range(0))};
    std::vector<std::vector<AppendItem>> items{rounds(state)};
    for (const RoundTable& table : all)
        for (std::size_t i = 0; i < items.size(); ++i)
            items[i].push_back(items_of(table.pushes()[i]).front());
    auto next = items.begin();
    send_rounds(state, all, [&] { database.insert(*next++); });
}

/// Full pushes of streams, each push the beginning of a match that the stream's table has opened.
class Streams {
  public:
    Streams() {
        for (std::size_t stream = 0; stream < streams; ++stream) {
            tables_.push_back(shared->venue.new_table());
            for (std::size_t i = 0; i < pushes_of_a_stream; ++i)
                waiting_[stream].push_back(
                    pushes_of(shared->venue.open_match(tables_.back(), wire::most_batch_entries),
                              wire::most_batch_entries, 1)
                        .front());
        }
    }
    [[nodiscard]] static constexpr std::size_t entries() {
        return streams * pushes_of_a_stream * wire::most_batch_entries;
    }
    [[nodiscard]] double drain_to_server() { return drain_to(shared->venue.address(), nullptr); }
    [[nodiscard]] double drain_to_echo() {
        const EnrolledDevice caller = shared->echo.caller();
        return drain_to(shared->echo.address(), &caller);
    }
    /// What the store would be given, a list for each push.
    [[nodiscard]] std::vector<std::vector<AppendItem>> items() const {
        std::vector<std::vector<AppendItem>> all;
        for (const Pushes& pushes : waiting_)
            for (const v1::PushRequest& push : pushes) all.push_back(items_of(push));
        return all;
    }

  private:
    [[nodiscard]] double drain_to(const std::string& address, const EnrolledDevice* caller) {
        std::vector<BacklogTable> lines;
        std::vector<std::size_t> next(streams);
        for (std::size_t stream = 0; stream < streams; ++stream)
            lines.push_back({caller == nullptr ? tables_[stream].device : *caller,
                             [this, stream, &next]() -> std::optional<v1::PushRequest> {
                                 Pushes& pushes = waiting_[stream];
                                 if (next[stream] == pushes.size()) return std::nullopt;
                                 return std::move(pushes[next[stream]++]);
                             }});
        return drain(address, lines).seconds;
    }

    std::vector<MeasuredTable> tables_;
    std::vector<Pushes> waiting_{streams};
};

void report_rate(benchmark::State& state) {
    state.counters["per_second"] = benchmark::Counter(
        static_cast<double>(state.iterations()) * static_cast<double>(Streams::entries()),
        benchmark::Counter::kIsRate);
}

void full_streams(benchmark::State& state) {
    for (auto _ : state) {
        Streams waiting;
        state.SetIterationTime(waiting.drain_to_server());
    }
    report_rate(state);
}

/// A process inserts the rows while as many bytes go over TLS to a server that keeps nothing.
void bare_streams(benchmark::State& state) {
    BareEntries database{shared->venue.dsn(), "bare_streams"};
    for (auto _ : state) {
        Streams waiting;
        const auto items = waiting.items();
        auto inserted = std::async(std::launch::async, [&] {
            const auto began = Latency::Clock::now();
            for (const auto& push : items) database.insert(push);
            return std::chrono::duration<double>(Latency::Clock::now() - began).count();
        });
        const double sent = waiting.drain_to_echo();
        state.SetIterationTime(std::max(sent, inserted.get()));
    }
    report_rate(state);
}

BENCHMARK(bare_hundred)
    ->Name("network/bare_hundred")
    ->Arg(20)
    ->Arg(0)
    ->UseManualTime()
    ->Iterations(100);
BENCHMARK(hundred_pushed)
    ->Name("network/hundred")
    ->Arg(20)
    ->Arg(0)
    ->UseManualTime()
    ->Iterations(100);
BENCHMARK(bare_tables)
    ->Name("network/bare_tables")
    ->Arg(20)
    ->Arg(0)
    ->UseManualTime()
    ->Iterations(100);
BENCHMARK(tables_at_once)
    ->Name("network/tables")
    ->Arg(20)
    ->Arg(0)
    ->UseManualTime()
    ->Iterations(100);
BENCHMARK(bare_streams)->Name("network/bare_streams")->UseManualTime()->Iterations(2);
BENCHMARK(full_streams)->Name("network/streams")->UseManualTime()->Iterations(2);

}  // namespace
}  // namespace courthand::bench
