// From one device to another: a message and its answer over TLS, an entry acknowledged by the
// server, an entry shown on the board of the head seat; each beside its bare limit. What more than
// one entry or table costs is in many_entries_bench.cpp.
#include <benchmark/benchmark.h>

#include <atomic>
#include <condition_variable>
#include <cstdio>
#include <exception>
#include <memory>
#include <mutex>
#include <pqxx/pqxx>
#include <thread>

#include "tests/bench/latency.h"
#include "tests/bench/network_shared.h"

namespace courthand::bench {

std::unique_ptr<NetworkShared> shared;

namespace {

constexpr int entries_sent = static_cast<int>(least_match_entries) - static_cast<int>(warm_up);

/// One message and its answer over TLS, again and again, as a table pushes.
class Pinger {
  public:
    Pinger() {
        for (std::uint32_t i = 0; i < warm_up; ++i) (void)ping();
    }
    [[nodiscard]] bool ping() { return sender_.send(match_id_, entry_); }

  private:
    EntrySender sender_{shared->echo.address(), shared->echo.caller()};
    const std::string match_id_ = std::string(16, 'm');
    const std::string entry_ = std::string(180, 'x');
};

void bare_ping_pong(benchmark::State& state) {
    Pinger pinger;
    Latency latency;
    for (auto _ : state) {
        bool answered = false;
        latency.time(state, [&] { answered = pinger.ping(); });
        if (!answered) return state.SkipWithError("the bare server did not answer");
    }
    latency.report(state);
}

/// A database with one table of rows, and a connection that writes.
class BareCommits {
  public:
    BareCommits() {
        pqxx::nontransaction work{writer_};
        work.exec("create table bare (number bigint primary key, bytes bytea not null)");
        writer_.prepare("add", "insert into bare values ($1, $2)");
    }
    [[nodiscard]] const std::string& dsn() const noexcept { return database_.dsn(); }

    void add() {
        pqxx::nontransaction work{writer_};
        work.exec_prepared("add", ++number_, pqxx::binarystring{bytes_});
    }
    void add_and_notify() {
        pqxx::work work{writer_};
        work.exec_prepared("add", ++number_, pqxx::binarystring{bytes_});
        work.exec("notify bare");
        work.commit();
    }
    [[nodiscard]] std::size_t added() const noexcept { return number_; }

  private:
    server::testing::TestDatabase database_;
    pqxx::connection writer_{database_.dsn()};
    const std::string bytes_ = std::string(180, 'x');
    std::size_t number_ = 0;
};

/// What an acknowledged push holds at the least: a message and its answer, and one row durable.
void bare_ping_pong_and_commit(benchmark::State& state) {
    Pinger pinger;
    BareCommits rows;
    Latency latency;
    for (auto _ : state) {
        bool answered = false;
        latency.time(state, [&] {
            answered = pinger.ping();
            rows.add();
        });
        if (!answered) return state.SkipWithError("the bare server did not answer");
    }
    latency.report(state);
}

void acknowledged_push(benchmark::State& state) {
    const MeasuredMatch match = shared->venue.new_match();
    const server::testing::TestRecord& record = match.record;
    const std::string match_id = record.match().to_bytes();
    EntrySender sender{shared->venue.address(), match.table};
    std::uint32_t seq = 0;
    const auto send = [&] { return sender.send(match_id, record.bytes()[seq++]); };
    while (seq < warm_up)
        if (!send()) return state.SkipWithError("an entry was not appended");
    Latency latency;
    for (auto _ : state) {
        bool appended = false;
        latency.time(state, [&] { appended = send(); });
        if (!appended) return state.SkipWithError("an entry was not appended");
    }
    latency.report(state);
}

/// Another connection that hears of commits, on a thread of its own.
class Listener {
  public:
    explicit Listener(const std::string& dsn)
        : connection_{dsn}, receiver_{connection_, *this}, thread_{[this] { run(); }} {}
    ~Listener() {
        stop_ = true;
        thread_.join();
    }
    Listener(const Listener&) = delete;
    Listener& operator=(const Listener&) = delete;

    Latency::Clock::time_point wait_for(std::size_t count) {
        std::unique_lock lock{mutex_};
        wake_.wait(lock, [&] { return heard_ >= count; });
        return at_;
    }

  private:
    struct Receiver final : pqxx::notification_receiver {
        Receiver(pqxx::connection_base& connection, Listener& owner)
            : pqxx::notification_receiver{connection, "bare"}, owner_{owner} {}
        void operator()(const std::string&, int) override {
            const auto now = Latency::Clock::now();
            const std::scoped_lock lock{owner_.mutex_};
            owner_.at_ = now;
            ++owner_.heard_;
            owner_.wake_.notify_one();
        }
        Listener& owner_;
    };
    void run() {
        constexpr long wait_us = 100'000;
        while (!stop_) connection_.await_notification(0, wait_us);
    }

    std::mutex mutex_;
    std::condition_variable wake_;
    std::size_t heard_ = 0;
    Latency::Clock::time_point at_;
    std::atomic<bool> stop_{false};
    pqxx::connection connection_;
    Receiver receiver_;
    std::thread thread_;
};

/// What the way to a board holds at the least: a message and its answer, which is as much network
/// as one message in and one out to another device; and a commit of which another connection hears.
void bare_ping_pong_and_notify(benchmark::State& state) {
    Pinger pinger;
    BareCommits rows;
    Listener listener{rows.dsn()};
    Latency latency;
    for (auto _ : state) {
        const auto before = Latency::Clock::now();
        if (!pinger.ping()) return state.SkipWithError("the bare server did not answer");
        rows.add_and_notify();
        latency.add(state, listener.wait_for(rows.added()) - before);
    }
    latency.report(state);
}

void commit_to_board(benchmark::State& state) {
    const MeasuredMatch match = shared->venue.new_match();
    const server::testing::TestRecord& record = match.record;
    const std::string match_id = record.match().to_bytes();
    EntrySender sender{shared->venue.address(), match.table};
    BoardWatch board{shared->venue};
    std::uint32_t seq = 0;
    const auto send_and_see = [&]() -> std::optional<Latency::Clock::time_point> {
        board.expect(match_id, ++seq);
        if (!sender.send(match_id, record.bytes()[seq - 1])) return std::nullopt;
        return board.shown();
    };
    while (seq < warm_up)
        if (!send_and_see()) return state.SkipWithError("an entry did not reach the board");
    Latency latency;
    for (auto _ : state) {
        const auto before = Latency::Clock::now();
        const auto at = send_and_see();
        if (!at) return state.SkipWithError("an entry did not reach the board");
        latency.add(state, *at - before);
    }
    latency.report(state);
}

BENCHMARK(bare_ping_pong)->Name("network/bare_ping_pong")->UseManualTime()->Iterations(2000);
BENCHMARK(bare_ping_pong_and_commit)
    ->Name("network/bare_ping_pong_and_commit")
    ->UseManualTime()
    ->Iterations(entries_sent);
BENCHMARK(acknowledged_push)
    ->Name("network/acknowledged_push")
    ->UseManualTime()
    ->Iterations(entries_sent);
BENCHMARK(bare_ping_pong_and_notify)
    ->Name("network/bare_ping_pong_and_notify")
    ->UseManualTime()
    ->Iterations(entries_sent);
BENCHMARK(commit_to_board)
    ->Name("network/commit_to_board")
    ->UseManualTime()
    ->Iterations(entries_sent);

}  // namespace
}  // namespace courthand::bench

int main(int argc, char** argv) {
    using namespace courthand::bench;
    benchmark::Initialize(&argc, argv);
    if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 1;
    try {
        shared = std::make_unique<NetworkShared>();
        benchmark::RunSpecifiedBenchmarks();
        shared.reset();
    } catch (const std::exception& error) {
        std::fprintf(stderr, "bench_network: %s\n", error.what());
        shared.reset();
        return 1;
    }
    benchmark::Shutdown();
    return 0;
}
