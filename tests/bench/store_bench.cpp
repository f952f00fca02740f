// PostgreSQL alone beside the server's ingest: one entry for each commit, 100 in one commit, many
// tables at once, a backlog of many matches, and a push beside few and beside many stored entries.
// Needs COURTHAND_TEST_DSN; each run makes a database of its own and drops it.
// COURTHAND_BENCH_STORED: the largest number of stored entries to measure with; 10000000 needs 5
// GB.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <condition_variable>
#include <cstdlib>
#include <memory>
#include <mutex>
#include <pqxx/pqxx>
#include <stdexcept>
#include <string>
#include <vector>

#include "server/domain/ingest.h"
#include "server/domain/record_start.h"
#include "server/store/postgres/migrations.h"
#include "server/store/postgres/pg_match_store.h"
#include "server/store/postgres/text_form.h"
#include "server/testing/or_throw.h"
#include "server/testing/test_database.h"
#include "tests/bench/bare_entries.h"
#include "tests/bench/latency.h"

#include <fmt/format.h>

namespace courthand::bench {
namespace {

using namespace server;

constexpr std::size_t entry_bytes = 180;
constexpr std::size_t multi_row = 100;
constexpr std::size_t tables = 64;
/// A backlog: pushes of a record's end, several at once.
constexpr std::size_t backlog_push = 500;
constexpr std::size_t backlog_pushes = 8;
constexpr std::size_t backlog_matches = 200;
/// Entries of each match that was played before.
constexpr std::size_t played_entries = 5000;
// Iterations of ingest stay below 6,000 entries for each match: the store takes no more.

std::string some_bytes(std::int64_t number) {
    std::string bytes = fmt::format("{:020}", number);
    bytes.resize(entry_bytes, 'x');
    return bytes;
}

/// The table a server would need at the least, and one connection.
class BareTable {
  public:
    BareTable() : connection_{database_.dsn()} {
        pqxx::nontransaction work{connection_};
        work.exec(
            "create table bare (match_id uuid, number bigint, bytes bytea not null, "
            "primary key (match_id, number))");
        connection_.prepare("one", "insert into bare values ($1, $2, $3)");
    }
    void insert_one() {
        pqxx::nontransaction work{connection_};
        const std::string bytes = some_bytes(++number_);
        work.exec_prepared("one", match_, number_, pqxx::binarystring{bytes});
    }

  private:
    server::testing::TestDatabase database_;
    pqxx::connection connection_;
    std::string match_ = to_text(new_uuid());
    std::int64_t number_ = 0;
};

/// The record of one match as a table sends it.
class TableRecord {
  public:
    TableRecord(MatchId match, DeviceId device)
        : match_{match}, device_{device}, hash_{start_hash(match)} {}

    AppendItem next() {
        AppendItem item;
        item.match = match_;
        item.id = EntryId{new_uuid()};
        item.device = device_;
        item.epoch = 1;
        item.number = ++number_;
        item.previous = hash_;
        item.bytes = std::make_shared<const std::string>(some_bytes(number_));
        // In a record the bytes hold the hash of the entry before; the store reads it from here.
        std::string chained = *item.bytes;
        chained.append(reinterpret_cast<const char*>(hash_.data()), hash_.size());
        item.hash = hash_of(chained);
        hash_ = item.hash;
        return item;
    }
    std::vector<AppendItem> next(std::size_t count) {
        std::vector<AppendItem> items;
        while (items.size() < count) items.push_back(next());
        return items;
    }

  private:
    MatchId match_;
    DeviceId device_;
    EntryNumber number_ = 0;
    Hash hash_;
};

/// The server's store and ingest over a database of their own, with a match for each table.
class Venue {
  public:
    explicit Venue(std::size_t count) {
        (void)value_or_throw(postgres::migrate(pool_));
        (void)value_or_throw(store_.create_tournament(tournament_, "Harbour Cup"));
        for (std::size_t i = 0; i < count; ++i) {
            MatchPlan plan;
            plan.key = {tournament_, MatchId{new_uuid()}};
            plan.court = static_cast<std::uint32_t>(1 + i % 99);
            plan.first.name = "Harbour Lights";
            plan.second.name = "Mill Lane";
            plan.profile = "international-2025";
            (void)value_or_throw(store_.create_match(plan));
            records.emplace_back(plan.key.match, DeviceId{new_uuid()});
        }
        ingest_ = std::make_unique<Ingest>(store_);
    }

    /// Hands over and calls `done` once the entries are durable.
    void submit(std::vector<AppendItem> items, std::function<void()> done) {
        Submission submission;
        submission.tournament = tournament_;
        submission.items = std::move(items);
        submission.answer = [done = std::move(done)](Result<std::vector<AppendResult>> results) {
            if (!results.ok()) std::abort();
            for (const AppendResult& result : *results)
                if (result.fate != Fate::appended) std::abort();
            done();
        };
        if (!ingest_->submit(std::move(submission))) throw std::runtime_error{"ingest is full"};
    }
    void submit_and_wait(std::vector<AppendItem> items) {
        std::mutex mutex;
        std::condition_variable wake;
        bool answered = false;
        submit(std::move(items), [&] {
            const std::scoped_lock lock{mutex};
            answered = true;
            wake.notify_one();
        });
        std::unique_lock lock{mutex};
        wake.wait(lock, [&] { return answered; });
    }

    /// Matches that were played before, as many as hold this many entries.
    void fill(std::size_t entries);
    [[nodiscard]] const server::testing::TestDatabase& database() const { return database_; }

    std::vector<TableRecord> records;

  private:
    server::testing::TestDatabase database_;
    postgres::Database pool_{database_.dsn()};
    postgres::PgMatchStore store_{pool_};
    TournamentId tournament_{new_uuid()};
    std::unique_ptr<Ingest> ingest_;
};

void Venue::fill(std::size_t entries) {
    const std::size_t matches = std::max<std::size_t>(1, entries / played_entries);
    // Ids begin with a time, as those of tables do.
    const std::string id = "(lpad(to_hex(n), 12, '0') || '7' || substr(md5(n::text), 1, 19))::uuid";
    database_.run(fmt::format(
        "insert into match (tournament_id, match_id, number, first_name, second_name, format, "
        "profile, profile_hash, status, head_hash, moved_in, last_number, epoch) "
        "select tournament_id, {0}, 1000 + n, 'A', 'B', '{{5}}', 'p', '\\x0000000000000000', 1, "
        "sha256('x'), generation, {2}, 1 from tournament, generate_series(1, {1}) n",
        id, matches, played_entries));
    database_.run(fmt::format(
        "insert into entry (tournament_id, match_id, number, epoch, entry_id, device_id, hash, "
        "bytes, position) select m.tournament_id, m.match_id, 1 + (n - 1) % {2}, 1, {0}, "
        "m.match_id, sha256(n::text::bytea), convert_to(rpad(n::text, {3}, 'x'), 'UTF8'), "
        "feed_head + n from tournament t, generate_series(1, {1}) n join match m "
        "on m.number = 1000 + 1 + (n - 1) / {2}",
        id, entries, played_entries, entry_bytes));
    database_.run(fmt::format("update tournament set feed_head = feed_head + {}", entries));
    database_.run("vacuum analyze");
}

void rate(benchmark::State& state, std::size_t rows) {
    state.counters["per_second"] =
        benchmark::Counter(static_cast<double>(state.iterations()) * static_cast<double>(rows),
                           benchmark::Counter::kIsRate);
}

void bare_single(benchmark::State& state) {
    BareTable table;
    Latency latency;
    for (auto _ : state) latency.time(state, [&] { table.insert_one(); });
    latency.report(state);
    rate(state, 1);
}

void bare_hundred(benchmark::State& state) {
    Venue venue{1};
    BareEntries table{venue.database().dsn(), "bare_entry"};
    Latency latency;
    for (auto _ : state) {
        const auto items = venue.records.front().next(multi_row);
        latency.time(state, [&] { table.insert(items); });
    }
    latency.report(state);
    rate(state, multi_row);
}

void ingest(benchmark::State& state, std::size_t rows) {
    Venue venue{1};
    Latency latency;
    for (auto _ : state) {
        auto items = venue.records.front().next(rows);
        latency.time(state, [&] { venue.submit_and_wait(std::move(items)); });
    }
    latency.report(state);
    rate(state, rows);
}

void ingest_single(benchmark::State& state) {
    ingest(state, 1);
}
void ingest_hundred(benchmark::State& state) {
    ingest(state, multi_row);
}

/// Every table sends one entry at the same moment; the round ends when the last is durable.
void ingest_tables(benchmark::State& state) {
    Venue venue{tables};
    Latency latency;
    for (auto _ : state) {
        std::mutex mutex;
        std::condition_variable wake;
        std::size_t left = tables;
        latency.time(state, [&] {
            for (TableRecord& record : venue.records)
                venue.submit({record.next()}, [&] {
                    const std::scoped_lock lock{mutex};
                    if (--left == 0) wake.notify_one();
                });
            std::unique_lock lock{mutex};
            wake.wait(lock, [&] { return left == 0; });
        });
    }
    latency.report(state);
    rate(state, tables);
}

void bare_tables(benchmark::State& state) {
    Venue venue{tables};
    BareEntries table{venue.database().dsn(), "bare_entry"};
    Latency latency;
    for (auto _ : state) {
        std::vector<AppendItem> items;
        for (TableRecord& record : venue.records) items.push_back(record.next());
        latency.time(state, [&] { table.insert(items); });
    }
    latency.report(state);
    rate(state, tables);
}

/// The next pushes of a backlog, each of another match.
std::vector<std::vector<AppendItem>> next_backlog(Venue& venue, std::size_t& match) {
    std::vector<std::vector<AppendItem>> pushes;
    while (pushes.size() < backlog_pushes)
        pushes.push_back(venue.records[match++ % backlog_matches].next(backlog_push));
    return pushes;
}

void bare_backlog(benchmark::State& state) {
    Venue venue{backlog_matches};
    BareEntries table{venue.database().dsn(), "bare_entry"};
    Latency latency;
    std::size_t match = 0;
    for (auto _ : state) {
        const auto pushes = next_backlog(venue, match);
        latency.time(state, [&] {
            for (const auto& items : pushes) table.insert(items);
        });
    }
    latency.report(state);
    rate(state, backlog_push * backlog_pushes);
}

void ingest_backlog(benchmark::State& state) {
    Venue venue{backlog_matches};
    Latency latency;
    std::size_t match = 0;
    for (auto _ : state) {
        auto pushes = next_backlog(venue, match);
        std::mutex mutex;
        std::condition_variable wake;
        std::size_t left = pushes.size();
        latency.time(state, [&] {
            for (auto& items : pushes)
                venue.submit(std::move(items), [&] {
                    const std::scoped_lock lock{mutex};
                    if (--left == 0) wake.notify_one();
                });
            std::unique_lock lock{mutex};
            wake.wait(lock, [&] { return left == 0; });
        });
    }
    latency.report(state);
    rate(state, backlog_push * backlog_pushes);
}

std::int64_t most_stored() {
    const char* const most = std::getenv("COURTHAND_BENCH_STORED");
    return most == nullptr ? 1'000'000 : std::atoll(most);
}

/// Pushes of 100 entries beside the stored entries of other matches.
void ingest_beside(benchmark::State& state) {
    if (state.range(0) > most_stored()) {
        state.SkipWithError("COURTHAND_BENCH_STORED is smaller");
        return;
    }
    Venue venue{1};
    venue.fill(static_cast<std::size_t>(state.range(0)));
    Latency latency;
    for (auto _ : state) {
        auto items = venue.records.front().next(multi_row);
        latency.time(state, [&] { venue.submit_and_wait(std::move(items)); });
    }
    latency.report(state);
    rate(state, multi_row);
}

BENCHMARK(bare_single)->Name("store/bare_single")->UseManualTime()->Iterations(1000);
BENCHMARK(ingest_single)->Name("store/ingest_single")->UseManualTime()->Iterations(500);
BENCHMARK(bare_hundred)->Name("store/bare_hundred")->UseManualTime()->Iterations(200);
BENCHMARK(ingest_hundred)->Name("store/ingest_hundred")->UseManualTime()->Iterations(50);
BENCHMARK(bare_tables)->Name("store/bare_tables")->UseManualTime()->Iterations(200);
BENCHMARK(ingest_tables)->Name("store/ingest_tables")->UseManualTime()->Iterations(100);
BENCHMARK(bare_backlog)->Name("store/bare_backlog")->UseManualTime()->Iterations(25);
BENCHMARK(ingest_backlog)->Name("store/ingest_backlog")->UseManualTime()->Iterations(25);
BENCHMARK(ingest_beside)
    ->Name("store/ingest_beside")
    ->Arg(10'000)
    ->Arg(1'000'000)
    ->Arg(10'000'000)
    ->UseManualTime()
    ->Iterations(50);

}  // namespace
}  // namespace courthand::bench

BENCHMARK_MAIN();
