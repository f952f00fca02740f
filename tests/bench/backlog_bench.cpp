// Entries that wait on tables until the server can be reached again, drained: by one table, and by
// many that come back at the same moment. Beside each a bare multi-row insert of the same bytes.
// Needs COURTHAND_TEST_DSN. Ends by itself.
#include <CLI/CLI.hpp>

#include <cstdint>
#include <cstdio>
#include <deque>
#include <filesystem>
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

#include "server/testing/server_process.h"
#include "server/testing/test_database.h"
#include "tests/bench/backlog.h"
#include "tests/bench/bare_insert.h"
#include "tests/bench/bench_desk.h"
#include "tests/bench/match_pool.h"
#include "tests/bench/measurement_main.h"
#include "tests/bench/result_file.h"
#include "tests/bench/stop_asked.h"
#include "tests/bench/waiting_match.h"
#include "wire/message_limits.h"

#include <fmt/format.h>

namespace courthand::bench {
namespace {

using server::auth::Seat;
using server::testing::EnrolledDevice;

struct Settings {
    std::uint64_t entries = 100'000;
    std::uint32_t tables = 64;  ///< of the measurement with many
    std::filesystem::path out;
};

/// Pushes of one table, in order, in whole matches.
using Waiting = std::deque<v1::PushRequest>;

/// A server of its own and tables whose matches the desk has planned and which wait to be sent.
class WaitingVenue {
  public:
    WaitingVenue(std::uint32_t tables, std::uint64_t entries) {
        for (std::uint32_t court = 1; court <= tables; ++court)
            devices_.push_back(enrol(Seat::table, court));
        waiting_.resize(tables);
        const MatchPool pool;
        BenchDesk desk{process_.address(), enrol(Seat::desk)};
        for (std::size_t match = 0; entries_ < entries; ++match) {
            if (stop_asked) throw std::runtime_error{"stopped before the end"};
            const std::size_t table = match % tables;
            const auto id = desk.plan(static_cast<std::uint32_t>(table + 1));
            for (v1::PushRequest& push :
                 waiting_pushes(id, devices_[table].id, pool.match(match))) {
                entries_ += static_cast<std::uint64_t>(push.entries_size());
                waiting_[table].push_back(std::move(push));
            }
        }
    }

    [[nodiscard]] std::uint64_t entries() const noexcept { return entries_; }

    /// The same rows for the bare limit; they point into what waits.
    [[nodiscard]] std::vector<BareRows> bare_rows() const {
        std::vector<BareRows> matches;
        for (const Waiting& table : waiting_)
            for (const v1::PushRequest& push : table) {
                const std::string id = wire::Uuid::from_bytes(push.match_id())->to_text();
                if (matches.empty() || matches.back().match_text != id) matches.push_back({id, {}});
                for (const v1::EntryBytes& entry : push.entries())
                    matches.back().entries.push_back(&entry.data());
            }
        return matches;
    }
    [[nodiscard]] Drained drain_all() {
        std::vector<BacklogTable> tables;
        for (std::size_t i = 0; i < devices_.size(); ++i)
            tables.push_back({devices_[i], [&waiting = waiting_[i]] { return next_of(waiting); }});
        return drain(process_.address(), tables);
    }

  private:
    [[nodiscard]] EnrolledDevice enrol(Seat seat, std::uint32_t court = 0) const {
        return server::testing::enrol_device(database_.dsn(), process_.data(), seat,
                                             static_cast<server::auth::CourtNumber>(court));
    }
    static std::optional<v1::PushRequest> next_of(Waiting& waiting) {
        if (waiting.empty()) return std::nullopt;
        v1::PushRequest next = std::move(waiting.front());
        waiting.pop_front();
        return next;
    }

    server::testing::TestDatabase database_;
    server::testing::ServerProcess process_{{database_.dsn(), {}, 0, {}}};
    std::vector<EnrolledDevice> devices_;
    std::vector<Waiting> waiting_;
    std::uint64_t entries_ = 0;
};

void measure_with(std::uint32_t tables, const Settings& settings, const std::string& name,
                  ResultFile& file) {
    WaitingVenue venue{tables, settings.entries};
    const double bare = BareInsert{}.seconds(venue.bare_rows(), wire::most_batch_entries);
    const Drained ours = venue.drain_all();
    if (ours.entries != venue.entries()) throw std::runtime_error{"not every entry was appended"};
    const auto count = static_cast<double>(ours.entries);
    fmt::print(
        "{} table(s), {} entries: {:.2f} s, {:.0f} entries/s, {} pushes turned away; bare insert "
        "{:.2f} s, {:.0f} rows/s; ratio {:.2f}\n",
        tables, ours.entries, ours.seconds, count / ours.seconds, ours.turned_away, bare,
        count / bare, ours.seconds / bare);
    std::fflush(stdout);
    file.add("backlog/bare_" + name, {{"seconds", bare}, {"per_second", count / bare}});
    file.add("backlog/" + name, {{"seconds", ours.seconds},
                                 {"per_second", count / ours.seconds},
                                 {"entries", count},
                                 {"tables", tables},
                                 {"turned_away", static_cast<double>(ours.turned_away)}});
}

int measure(int argc, char** argv) {
    Settings settings;
    bool brief = false;
    CLI::App app{"Entries that wait on tables, handed over as fast as the server takes them."};
    app.add_option("--entries", settings.entries, "at least so many, in whole matches")
        ->check(CLI::Range(1, 2'000'000))
        ->capture_default_str();
    app.add_option("--tables", settings.tables, "of the second measurement")
        ->check(CLI::Range(2, 1000))
        ->capture_default_str();
    app.add_flag("--short", brief, "10,000 entries, 16 tables");
    app.add_option("--out", settings.out, "writes the results to this file too");
    CLI11_PARSE(app, argc, argv);
    if (brief) settings = {10'000, 16, settings.out};
    stop_on_signals();
    ResultFile file;
    measure_with(1, settings, "one_table", file);
    measure_with(settings.tables, settings, "many_tables", file);
    file.write(settings.out);
    return 0;
}

}  // namespace
}  // namespace courthand::bench

int main(int argc, char** argv) {
    return courthand::bench::measurement_main("bench_backlog", courthand::bench::measure, argc,
                                              argv);
}
