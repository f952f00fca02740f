// From one device to another: a message and its answer over TLS, an entry acknowledged by the
// server, an entry shown on the board of the head seat; each beside its bare limit.
#include <benchmark/benchmark.h>

#include <atomic>
#include <condition_variable>
#include <cstdio>
#include <exception>
#include <memory>
#include <mutex>
#include <pqxx/pqxx>
#include <thread>

#include "tests/bench/echo_server.h"
#include "tests/bench/latency.h"
#include "tests/bench/measured_venue.h"

namespace courthand::bench {
namespace {

/// Let go by first: connections, prepared statements, caches.
constexpr std::uint32_t warm_up = 20;
constexpr int entries_sent = static_cast<int>(least_match_entries) - static_cast<int>(warm_up);

/// What all measurements share. Made in main, before gRPC starts threads.
struct Shared {
    EchoServer echo;
    MeasuredVenue venue;
};
std::unique_ptr<Shared> shared;

void bare_ping_pong(benchmark::State& state) {
    server::testing::EnrolledDevice nobody;
    nobody.authority_pem = shared->echo.authority_pem();
    EntryStream stream{shared->echo.address(), nobody};
    const std::string match_id(16, 'm');
    const std::string entry(180, 'x');
    for (std::uint32_t i = 0; i < warm_up; ++i) (void)stream.send(match_id, entry);
    Latency latency;
    for (auto _ : state) {
        bool answered = false;
        latency.time(state, [&] { answered = stream.send(match_id, entry); });
        if (!answered) return state.SkipWithError("the bare server did not answer");
    }
    latency.report(state);
}

void acknowledged_push(benchmark::State& state) {
    const auto record = shared->venue.new_match();
    const std::string match_id = record.match().to_bytes();
    EntryStream stream{shared->venue.address(), shared->venue.table()};
    std::uint32_t seq = 0;
    const auto send = [&] { return stream.send(match_id, record.bytes()[seq++]); };
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
            const std::lock_guard lock{owner_.mutex_};
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

void bare_commit_and_notify(benchmark::State& state) {
    server::testing::TestDatabase database;
    pqxx::connection writer{database.dsn()};
    {
        pqxx::work work{writer};
        work.exec("create table bare (number bigint primary key, bytes bytea not null)");
        work.commit();
    }
    writer.prepare("add", "insert into bare values ($1, $2)");
    Listener listener{database.dsn()};
    const std::string bytes(180, 'x');
    std::size_t number = 0;
    Latency latency;
    for (auto _ : state) {
        const auto before = Latency::Clock::now();
        pqxx::work work{writer};
        work.exec_prepared("add", ++number, pqxx::binarystring{bytes});
        work.exec("notify bare");
        work.commit();
        latency.add(state, listener.wait_for(number) - before);
    }
    latency.report(state);
}

void commit_to_board(benchmark::State& state) {
    const auto record = shared->venue.new_match();
    const std::string match_id = record.match().to_bytes();
    EntryStream stream{shared->venue.address(), shared->venue.table()};
    BoardWatch board{shared->venue};
    std::uint32_t seq = 0;
    const auto send_and_see = [&]() -> std::optional<Latency::Clock::time_point> {
        board.expect(match_id, ++seq);
        if (!stream.send(match_id, record.bytes()[seq - 1])) return std::nullopt;
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
BENCHMARK(acknowledged_push)
    ->Name("network/acknowledged_push")
    ->UseManualTime()
    ->Iterations(entries_sent);
BENCHMARK(bare_commit_and_notify)
    ->Name("network/bare_commit_notify")
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
        shared = std::make_unique<Shared>();
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
