// A whole venue on one server process over TLS: tables that play, head boards that watch, a desk
// that plans. Measures the server's memory and processor time, how long an entry takes until it is
// acknowledged, and until a board shows it. Needs COURTHAND_TEST_DSN. Ends by itself.
#include <CLI/CLI.hpp>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "server/testing/server_process.h"
#include "server/testing/test_database.h"
#include "tests/bench/load_board.h"
#include "tests/bench/load_desk.h"
#include "tests/bench/load_table.h"
#include "tests/bench/load_venue.h"
#include "tests/bench/measurement_main.h"
#include "tests/bench/process_course.h"
#include "tests/bench/result_file.h"
#include "tests/bench/stop_asked.h"

#include <fmt/format.h>
#include <unistd.h>

namespace courthand::bench {
namespace {

using server::auth::Seat;
using server::testing::EnrolledDevice;
using Clock = std::chrono::steady_clock;

struct Settings {
    std::uint32_t tables = 200;
    std::uint32_t boards = 20;
    double minutes = 30;
    double pace = 4;  ///< seconds
    std::filesystem::path out;
};

constexpr std::chrono::seconds sample_every{10};
/// A short measurement takes so many samples all the same.
constexpr int fewest_samples = 12;
/// For everything to be connected and the records begun before to be sent.
constexpr std::chrono::minutes begin_within{5};
/// For the last entries to be acknowledged.
constexpr std::chrono::seconds end_within{30};
/// Matches that the desk has planned on each court beside the one that is played.
constexpr int planned_ahead = 1;

class VenueLoad {
  public:
    explicit VenueLoad(const Settings& settings) : settings_{settings} {
        venue_.address = process_.address();
        venue_.pace = std::chrono::duration<double>{settings.pace};
        venue_.plan_next = [this](std::uint32_t court) { desk_.plan_later(court); };
        enrol_seats();
    }
    ~VenueLoad() { stop(); }
    VenueLoad(const VenueLoad&) = delete;
    VenueLoad& operator=(const VenueLoad&) = delete;

    void run() {
        begin();
        faults_at_begin_ = venue_.faults.counts();
        venue_.measuring = true;
        own_.look();
        watch_server();
        for (const auto& table : tables_) table->end_play();
        drained_ = wait_until(Clock::now() + end_within, [this] { return waiting() == 0; });
        own_.look();
        // Boards may still show what was just acknowledged.
        (void)wait_until(Clock::now() + std::chrono::seconds{1}, [] { return false; });
        stop();
    }
    void report() const;

  private:
    [[nodiscard]] EnrolledDevice enrol(Seat seat, std::uint32_t court = 0) const {
        return server::testing::enrol_device(database_.dsn(), process_.data(), seat,
                                             static_cast<server::auth::CourtNumber>(court));
    }
    void enrol_seats();
    void begin();
    void watch_server();
    void stop();
    [[nodiscard]] std::size_t waiting() const;
    /// While it was measured; prints each kind.
    [[nodiscard]] std::uint64_t print_faults() const;

    Settings settings_;
    server::testing::TestDatabase database_;
    server::testing::ServerProcess process_{{database_.dsn(), {}, 0, {}}};
    double rss_alone_mb_ = look_at_process(process_.pid()).rss_mb;
    ProcessCourse course_{process_.pid()};
    ProcessCourse own_{getpid()};
    LoadVenue venue_;
    LoadDesk desk_{process_.address(), enrol(Seat::desk), venue_.faults};
    std::vector<std::unique_ptr<LoadTable>> tables_;
    std::vector<std::unique_ptr<LoadBoard>> boards_;
    std::map<std::string, std::uint64_t> faults_at_begin_;
    bool drained_ = false;
};

void VenueLoad::enrol_seats() {
    fmt::print("enrolling {} tables and {} head seats\n", settings_.tables, settings_.boards);
    std::fflush(stdout);
    for (std::uint32_t court = 1; court <= settings_.tables; ++court) {
        if (stop_asked) throw std::runtime_error{"stopped before the end"};
        tables_.push_back(std::make_unique<LoadTable>(venue_, enrol(Seat::table, court), court));
        for (int i = 0; i <= planned_ahead; ++i) (void)desk_.calls().plan(court);
    }
    for (std::uint32_t i = 0; i < settings_.boards; ++i)
        boards_.push_back(std::make_unique<LoadBoard>(venue_, enrol(Seat::head)));
}

void VenueLoad::begin() {
    desk_.start();
    for (const auto& board : boards_) board->start();
    for (const auto& table : tables_) table->start();
    const auto all_there = [this] {
        return std::all_of(tables_.begin(), tables_.end(),
                           [](const auto& table) { return table->playing(); }) &&
               std::all_of(boards_.begin(), boards_.end(),
                           [this](const auto& board) { return board->courts() >= tables_.size(); });
    };
    if (!wait_until(Clock::now() + begin_within, all_there))
        throw std::runtime_error{"not every table played and not every board was whole in time"};
}

void VenueLoad::watch_server() {
    const auto whole = std::chrono::duration_cast<Clock::duration>(
        std::chrono::duration<double, std::ratio<60>>{settings_.minutes});
    const Clock::duration step = std::min<Clock::duration>(sample_every, whole / fewest_samples);
    const auto end = Clock::now() + whole;
    fmt::print("minute  RSS MB  threads  entries waiting  faults\n");
    for (auto next = Clock::now(); next <= end; next += step) {
        (void)wait_until(next, [] { return false; });
        const ProcessSample& sample = course_.look();
        fmt::print("{:6.2f}  {:6.1f}  {:7}  {:15}  {:6}\n", sample.minutes, sample.rss_mb,
                   sample.threads, waiting(), venue_.faults.total());
        std::fflush(stdout);
    }
}

void VenueLoad::stop() {
    venue_.timetable.stop();
    for (const auto& table : tables_) table->stop();
    for (const auto& board : boards_) board->stop();
    desk_.stop();
}

std::size_t VenueLoad::waiting() const {
    std::size_t sum = 0;
    for (const auto& table : tables_) sum += table->waiting();
    return sum;
}

std::uint64_t VenueLoad::print_faults() const {
    std::uint64_t measured = 0;
    for (const auto& [kind, count] : venue_.faults.counts()) {
        const auto found = faults_at_begin_.find(kind);
        const std::uint64_t before = found == faults_at_begin_.end() ? 0 : found->second;
        fmt::print("fault, {} times and {} times while all came at once: {}\n", count - before,
                   before, kind);
        measured += count - before;
    }
    return measured;
}

ResultFile::Values times_of(const Distribution& times) {
    return {{"p50_us", times.quantile_us(0.5)},
            {"p99_us", times.quantile_us(0.99)},
            {"longest_us", times.longest_us()},
            {"count", static_cast<double>(times.count())}};
}

void print_times(const char* what, const Distribution& times) {
    fmt::print("{}: p50 {:.1f} ms, p99 {:.1f} ms, longest {:.1f} ms, of {}\n", what,
               times.quantile_us(0.5) / 1e3, times.quantile_us(0.99) / 1e3,
               times.longest_us() / 1e3, times.count());
}

void VenueLoad::report() const {
    TableTally all;
    for (const auto& table : tables_) {
        const TableTally one = table->tally();
        all.entries += one.entries;
        all.finished += one.finished;
        all.acknowledged.add(one.acknowledged);
    }
    Distribution shown;
    for (const auto& board : boards_) shown.add(board->shown());
    const auto& samples = course_.samples();

    fmt::print(
        "{} tables, {} boards, {} minutes, an entry every {} s at each table: {} entries, "
        "{} matches finished{}\n",
        settings_.tables, settings_.boards, settings_.minutes, settings_.pace, all.entries,
        all.finished, drained_ ? "" : "; NOT ALL ACKNOWLEDGED at the end");
    fmt::print(
        "server's memory: {:.1f} MB alone, {:.1f} at the start, {:.1f} median, {:.1f} most, "
        "{:.1f} at the end, {:+.2f} a minute\n",
        rss_alone_mb_, samples.front().rss_mb, course_.median_rss_mb(), course_.most_rss_mb(),
        samples.back().rss_mb, course_.rss_mb_per_minute());
    fmt::print("processor: server {:.2f} cores with {} threads, all clients {:.2f} cores\n",
               course_.cores(), samples.back().threads, own_.cores());
    print_times("entry made -> acknowledged", all.acknowledged);
    print_times("entry made -> shown on a board", shown);
    const std::uint64_t faults = print_faults();

    ResultFile file;
    file.add("venue/memory", {{"rss_alone_mb", rss_alone_mb_},
                              {"rss_start_mb", samples.front().rss_mb},
                              {"rss_median_mb", course_.median_rss_mb()},
                              {"rss_most_mb", course_.most_rss_mb()},
                              {"rss_end_mb", samples.back().rss_mb},
                              {"rss_mb_per_minute", course_.rss_mb_per_minute()}});
    file.add("venue/processor", {{"server_cores", course_.cores()},
                                 {"clients_cores", own_.cores()},
                                 {"server_threads", samples.back().threads}});
    file.add("venue/acknowledged", times_of(all.acknowledged));
    file.add("venue/shown", times_of(shown));
    file.add("venue/load",
             {{"tables", settings_.tables},
              {"boards", settings_.boards},
              {"minutes", settings_.minutes},
              {"pace_s", settings_.pace},
              {"entries", static_cast<double>(all.entries)},
              {"matches_finished", static_cast<double>(all.finished)},
              {"waiting_at_end", static_cast<double>(waiting())},
              {"faults", static_cast<double>(faults)},
              {"faults_at_begin", static_cast<double>(venue_.faults.total() - faults)}});
    for (const ProcessSample& sample : samples)
        file.add("venue/sample", {{"minute", sample.minutes}, {"rss_mb", sample.rss_mb}});
    file.write(settings_.out);
}

int measure(int argc, char** argv) {
    Settings settings;
    bool brief = false;
    CLI::App app{"A venue under load: memory, processor time and delays of one server process."};
    app.add_option("--tables", settings.tables)->check(CLI::Range(1, 1000))->capture_default_str();
    app.add_option("--boards", settings.boards)->check(CLI::Range(1, 200))->capture_default_str();
    app.add_option("--minutes", settings.minutes)
        ->check(CLI::Range(0.05, 240.0))
        ->capture_default_str();
    app.add_option("--pace", settings.pace, "time between two entries of a table, as in 4s")
        ->transform(CLI::AsNumberWithUnit(std::map<std::string, double>{{"s", 1.0}, {"ms", 1e-3}},
                                          CLI::AsNumberWithUnit::DEFAULT, "TIME"))
        ->capture_default_str();
    app.add_flag("--short", brief, "20 tables, 2 boards, 1 minute, an entry a second");
    app.add_option("--out", settings.out, "writes the results to this file too");
    CLI11_PARSE(app, argc, argv);
    if (brief) settings = {20, 2, 1, 1, settings.out};
    if (settings.pace < 0.01) throw std::runtime_error{"--pace: at least 10ms"};
    stop_on_signals();
    VenueLoad load{settings};
    load.run();
    load.report();
    return 0;
}

}  // namespace
}  // namespace courthand::bench

int main(int argc, char** argv) {
    return courthand::bench::measurement_main("bench_venue", courthand::bench::measure, argc, argv);
}
