// One durable commit of an entry on the device: SQLite alone beside the journal.
#include <benchmark/benchmark.h>
#include <sqlite3.h>

#include <memory>
#include <stdexcept>
#include <string>

#include "client/journal/chain_hash.h"
#include "client/journal/journal.h"
#include "tests/bench/bench_folder.h"
#include "tests/bench/latency.h"

#include <fmt/format.h>

namespace courthand::bench {
namespace {

/// An entry with a libero replacement has about this size on the wire.
constexpr std::size_t entry_bytes = 180;
constexpr int commits = 2000;

const std::string match_id = "01900000-0000-7000-8000-000000000001";

/// Entries 1, 2, 3 … of one match, each holding the hash of the one before.
class EntryChain {
  public:
    client::JournalEntry next() {
        client::JournalEntry entry;
        entry.match_id = match_id;
        entry.epoch = 1;
        entry.seq = ++seq_;
        entry.entry_id = fmt::format("01900000-0000-7000-9000-{:012}", seq_);
        entry.prev_hash = hash_;
        entry.bytes = fmt::format("{}", seq_) + hash_;
        entry.bytes.resize(entry_bytes, 'x');
        entry.hash = client::chain_hash(entry.bytes);
        hash_ = entry.hash;
        return entry;
    }

  private:
    std::uint32_t seq_ = 0;
    std::string hash_ = client::first_hash(match_id);
};

class BareSqlite {
  public:
    explicit BareSqlite(const std::filesystem::path& file) {
        check(sqlite3_open(file.c_str(), &db_));
        run("PRAGMA page_size=8192");
        run("PRAGMA locking_mode=EXCLUSIVE");
        run("PRAGMA journal_mode=WAL");
        run("PRAGMA synchronous=FULL");
        run("CREATE TABLE entry (id INTEGER PRIMARY KEY, bytes BLOB NOT NULL)");
        check(
            sqlite3_prepare_v2(db_, "INSERT INTO entry (bytes) VALUES (?)", -1, &insert_, nullptr));
    }
    ~BareSqlite() {
        sqlite3_finalize(insert_);
        sqlite3_close(db_);
    }
    BareSqlite(const BareSqlite&) = delete;
    BareSqlite& operator=(const BareSqlite&) = delete;

    /// One row, one commit.
    void insert(const std::string& bytes) {
        check(sqlite3_bind_blob(insert_, 1, bytes.data(), static_cast<int>(bytes.size()),
                                SQLITE_STATIC));
        if (sqlite3_step(insert_) != SQLITE_DONE) throw std::runtime_error{sqlite3_errmsg(db_)};
        sqlite3_reset(insert_);
    }

  private:
    void check(int code) {
        if (code != SQLITE_OK) throw std::runtime_error{sqlite3_errmsg(db_)};
    }
    void run(const char* sql) { check(sqlite3_exec(db_, sql, nullptr, nullptr, nullptr)); }

    sqlite3* db_ = nullptr;
    sqlite3_stmt* insert_ = nullptr;
};

void bare_commit(benchmark::State& state) {
    const BenchFolder folder;
    BareSqlite sqlite{folder.path() / "bare.db"};
    EntryChain chain;
    Latency latency;
    for (auto _ : state) {
        const auto entry = chain.next();
        latency.time(state, [&] { sqlite.insert(entry.bytes); });
    }
    latency.report(state);
}

void journal_commit(benchmark::State& state) {
    const BenchFolder folder;
    auto opened = client::Journal::open(folder.path());
    if (const auto* why = std::get_if<client::JournalError>(&opened))
        return state.SkipWithError(why->message.c_str());
    client::Journal& journal = *std::get<0>(opened);
    EntryChain chain;
    Latency latency;
    for (auto _ : state) {
        const auto entry = chain.next();
        std::optional<client::JournalError> error;
        latency.time(state, [&] { error = journal.append(entry); });
        if (error) return state.SkipWithError(error->message.c_str());
    }
    latency.report(state);
}

BENCHMARK(bare_commit)->Name("journal/bare_commit")->UseManualTime()->Iterations(commits);
BENCHMARK(journal_commit)->Name("journal/append")->UseManualTime()->Iterations(commits);

}  // namespace
}  // namespace courthand::bench

BENCHMARK_MAIN();
