// A server with many finished matches dies (kill -9) and is started again at once: how long until
// it says that it is ready, until a table has an entry acknowledged again, and until a board is
// whole again. Needs COURTHAND_TEST_DSN. Ends by itself.
#include <CLI/CLI.hpp>

#include <algorithm>
#include <chrono>
#include <cstdint>
#include <cstdio>
#include <deque>
#include <filesystem>
#include <future>
#include <memory>
#include <optional>
#include <set>
#include <stdexcept>
#include <string>
#include <vector>

#include "courthand/v1/sync.grpc.pb.h"
#include "courthand/v1/venue.grpc.pb.h"
#include "server/testing/server_process.h"
#include "server/testing/test_database.h"
#include "server/testing/test_record.h"
#include "tests/bench/backlog.h"
#include "tests/bench/bench_desk.h"
#include "tests/bench/match_pool.h"
#include "tests/bench/measurement_main.h"
#include "tests/bench/process_course.h"
#include "tests/bench/result_file.h"
#include "tests/bench/secure_channel.h"
#include "tests/bench/stop_asked.h"
#include "tests/bench/waiting_match.h"

#include <fmt/format.h>

namespace courthand::bench {
namespace {

using server::auth::Seat;
using server::testing::EnrolledDevice;
using server::testing::TestRecord;
using Clock = std::chrono::steady_clock;

struct Settings {
    std::uint64_t entries = 1'000'000;
    std::uint32_t courts = 32;
    double settle = 180;  ///< seconds at most that the server is left alone before it is killed
    int deaths = 3;
    std::filesystem::path out;
};

/// A call that waits longer than this says that the server does not come back.
constexpr std::chrono::seconds back_within{120};
/// The server is at rest when it uses less than this share of a core for so long.
constexpr double cores_at_rest = 0.05;
constexpr std::chrono::seconds rest_lasts{5};

double seconds_since(Clock::time_point began) {
    return std::chrono::duration<double>(Clock::now() - began).count();
}

void patient(grpc::ClientContext& context) {
    prepare(context);
    context.set_deadline(std::chrono::system_clock::now() + back_within);
}

/// A match in play when the server dies: its table sends one entry after the other.
class RunningMatch {
  public:
    RunningMatch(const std::string& address, const EnrolledDevice& device, const wire::Uuid& match,
                 const PlayedMatch& play)
        : stub_{v1::Sync::NewStub(secure_channel(address, device))}, record_{match, device.id} {
        for (const Entry& entry : play) record_.add(entry.fact);
    }
    /// Sends the next entry until the server has it, as a table does after a cut.
    void send_next() {
        v1::PushRequest request;
        request.set_match_id(record_.match().to_bytes());
        request.mutable_writer()->set_number(record_.epoch());
        request.add_entries()->set_data(record_.bytes().at(sent_));
        const auto end = Clock::now() + back_within;
        while (Clock::now() < end) {
            grpc::ClientContext context;
            patient(context);
            v1::PushResponse response;
            const grpc::Status status = stub_->Push(&context, request, &response);
            if (status.ok() && taken(response)) {
                ++sent_;
                return;
            }
            last_error_ = status.error_message();
        }
        throw std::runtime_error{"no entry was acknowledged after a restart: " + last_error_};
    }

  private:
    static bool taken(const v1::PushResponse& response) {
        return response.results_size() == 1 &&
               (response.results(0).outcome() == v1::PushResult::OUTCOME_APPENDED ||
                response.results(0).outcome() == v1::PushResult::OUTCOME_ALREADY_HAD);
    }

    std::unique_ptr<v1::Sync::Stub> stub_;
    TestRecord record_;
    std::size_t sent_ = 0;
    std::string last_error_;
};

/// A head seat that asks for the board until it has a card of every court.
class WaitingBoard {
  public:
    WaitingBoard(const std::string& address, const EnrolledDevice& device)
        : stub_{v1::Venue::NewStub(secure_channel(address, device))} {}

    void wait_for(std::size_t courts) {
        const auto end = Clock::now() + back_within;
        while (Clock::now() < end)
            if (read(courts)) return;
        throw std::runtime_error{"no board was whole after a restart"};
    }

  private:
    bool read(std::size_t courts) {
        grpc::ClientContext context;
        patient(context);
        const auto reader = stub_->WatchBoard(&context, v1::WatchBoardRequest{});
        std::set<std::uint32_t> shown;
        v1::WatchBoardResponse response;
        while (shown.size() < courts && reader->Read(&response))
            for (const v1::CourtCard& card : response.cards()) shown.insert(card.court());
        context.TryCancel();
        (void)reader->Finish();
        return shown.size() >= courts;
    }

    std::unique_ptr<v1::Venue::Stub> stub_;
};

/// What one table of the filled venue still has to send, sealed match by match.
struct Filling {
    struct Planned {
        wire::Uuid id;
        std::size_t play = 0;  ///< number in the pool
    };
    EnrolledDevice device;
    std::deque<Planned> matches;
    std::deque<v1::PushRequest> pushes;
};

struct Death {
    double ready_s = 0;
    double acknowledged_s = 0;
    double board_s = 0;
};

class RestartedVenue {
  public:
    explicit RestartedVenue(const Settings& settings) : settings_{settings} {
        fill();
        settle();
        const wire::Uuid match = desk().plan(running_court());
        const EnrolledDevice table = enrol(Seat::table, running_court());
        running_ = std::make_unique<RunningMatch>(process_.address(), table, match, pool_.match(0));
        board_ = std::make_unique<WaitingBoard>(process_.address(), enrol(Seat::head));
        for (int i = 0; i < begun_entries; ++i) running_->send_next();
    }

    /// Kills the server and starts it again.
    Death die() {
        const auto began = Clock::now();
        process_.kill9();
        const auto after = [began](auto act) {
            return std::async(std::launch::async, [began, act] {
                act();
                return seconds_since(began);
            });
        };
        auto acknowledged = after([this] { running_->send_next(); });
        auto board = after([this] { board_->wait_for(running_court()); });
        Death death;
        process_.start_again();
        death.ready_s = seconds_since(began);
        death.acknowledged_s = acknowledged.get();
        death.board_s = board.get();
        return death;
    }
    void report(const std::vector<Death>& deaths) const;

  private:
    static constexpr int begun_entries = 40;

    [[nodiscard]] std::uint32_t running_court() const { return settings_.courts + 1; }
    [[nodiscard]] EnrolledDevice enrol(Seat seat, std::uint32_t court = 0) const {
        return server::testing::enrol_device(database_.dsn(), process_.data(), seat,
                                             static_cast<server::auth::CourtNumber>(court));
    }
    [[nodiscard]] BenchDesk& desk() {
        if (!desk_) desk_ = std::make_unique<BenchDesk>(process_.address(), enrol(Seat::desk));
        return *desk_;
    }
    void fill();
    [[nodiscard]] std::optional<v1::PushRequest> next_of(Filling& filling) const;
    void settle();
    [[nodiscard]] std::uint64_t snapshots() const {
        return std::stoull(database_.run("select count(*) from match_snapshot"));
    }

    Settings settings_;
    MatchPool pool_;
    server::testing::TestDatabase database_;
    server::testing::ServerProcess process_{{database_.dsn(), {}, 0, {}}};
    std::unique_ptr<BenchDesk> desk_;
    std::vector<Filling> fillings_;
    std::uint64_t matches_ = 0;
    Drained filled_;
    std::uint64_t snapshots_ = 0;
    double rss_filled_mb_ = 0;
    std::unique_ptr<RunningMatch> running_;
    std::unique_ptr<WaitingBoard> board_;
};

void RestartedVenue::fill() {
    for (std::uint32_t court = 1; court <= settings_.courts; ++court)
        fillings_.push_back({enrol(Seat::table, court), {}, {}});
    std::uint64_t planned = 0;
    for (; planned < settings_.entries; ++matches_) {
        if (stop_asked) throw std::runtime_error{"stopped before the end"};
        const auto court = static_cast<std::uint32_t>(matches_ % settings_.courts);
        fillings_[court].matches.push_back({desk().plan(court + 1), matches_});
        planned += pool_.match(matches_).size();
    }
    fmt::print("{} matches planned; {} tables hand over {} entries\n", matches_, settings_.courts,
               planned);
    std::fflush(stdout);
    std::vector<BacklogTable> tables;
    for (Filling& filling : fillings_)
        tables.push_back({filling.device, [this, &filling] { return next_of(filling); }});
    filled_ = drain(process_.address(), tables);
    fmt::print("filled in {:.1f} s, {:.0f} entries/s\n", filled_.seconds,
               static_cast<double>(filled_.entries) / filled_.seconds);
    std::fflush(stdout);
}

std::optional<v1::PushRequest> RestartedVenue::next_of(Filling& filling) const {
    if (filling.pushes.empty()) {
        if (filling.matches.empty()) return std::nullopt;
        const auto [id, play] = filling.matches.front();
        filling.matches.pop_front();
        for (v1::PushRequest& push : waiting_pushes(id, filling.device.id, pool_.match(play)))
            filling.pushes.push_back(std::move(push));
    }
    v1::PushRequest next = std::move(filling.pushes.front());
    filling.pushes.pop_front();
    return next;
}

/// Until the server has written what it keeps of finished matches and is at rest, or the time for
/// it is over.
void RestartedVenue::settle() {
    const auto end = Clock::now() + std::chrono::duration_cast<Clock::duration>(
                                        std::chrono::duration<double>{settings_.settle});
    while (Clock::now() < end) {
        const double before = look_at_process(process_.pid()).cpu_s;
        const auto step = std::min<Clock::time_point>(end, Clock::now() + rest_lasts);
        const auto began = Clock::now();
        (void)wait_until(step, [] { return false; });
        const double used = look_at_process(process_.pid()).cpu_s - before;
        const bool rests = used < cores_at_rest * seconds_since(began);
        if (rests && snapshots() >= matches_) break;
    }
    snapshots_ = snapshots();
    rss_filled_mb_ = look_at_process(process_.pid()).rss_mb;
}

double median_of(const std::vector<Death>& deaths, double Death::*time) {
    std::vector<double> all;
    for (const Death& death : deaths) all.push_back(death.*time);
    std::sort(all.begin(), all.end());
    return all[all.size() / 2];
}

void RestartedVenue::report(const std::vector<Death>& deaths) const {
    const double rss_after = look_at_process(process_.pid()).rss_mb;
    fmt::print("{} entries of {} matches stored, {} with a snapshot\n", filled_.entries, matches_,
               snapshots_);
    for (const Death& death : deaths)
        fmt::print(
            "killed: ready after {:.3f} s, an entry acknowledged after {:.3f} s, a board whole "
            "after {:.3f} s\n",
            death.ready_s, death.acknowledged_s, death.board_s);
    fmt::print("server's memory: {:.1f} MB before, {:.1f} MB after the restart\n", rss_filled_mb_,
               rss_after);
    ResultFile file;
    const auto entries = static_cast<double>(filled_.entries);
    file.add("restart/fill", {{"entries", entries},
                              {"seconds", filled_.seconds},
                              {"per_second", entries / filled_.seconds},
                              {"matches", static_cast<double>(matches_)},
                              {"snapshots", static_cast<double>(snapshots_)}});
    file.add("restart/back", {{"ready_s", median_of(deaths, &Death::ready_s)},
                              {"acknowledged_s", median_of(deaths, &Death::acknowledged_s)},
                              {"board_s", median_of(deaths, &Death::board_s)},
                              {"rss_before_mb", rss_filled_mb_},
                              {"rss_after_mb", rss_after}});
    file.write(settings_.out);
}

int measure(int argc, char** argv) {
    Settings settings;
    bool brief = false;
    CLI::App app{"A server with many stored entries dies and comes back."};
    app.add_option("--entries", settings.entries, "at least so many, in whole matches")
        ->check(CLI::Range(1, 10'000'000))
        ->capture_default_str();
    app.add_option("--courts", settings.courts)->check(CLI::Range(1, 900))->capture_default_str();
    app.add_option("--settle", settings.settle, "seconds at most for snapshots to be written")
        ->check(CLI::Range(1.0, 3600.0))
        ->capture_default_str();
    app.add_option("--deaths", settings.deaths)->check(CLI::Range(1, 20))->capture_default_str();
    app.add_flag("--short", brief, "20,000 entries, 8 courts, 10 seconds to settle, 2 deaths");
    app.add_option("--out", settings.out, "writes the results to this file too");
    CLI11_PARSE(app, argc, argv);
    if (brief) settings = {20'000, 8, 10, 2, settings.out};
    stop_on_signals();
    RestartedVenue venue{settings};
    std::vector<Death> deaths;
    while (deaths.size() < static_cast<std::size_t>(settings.deaths)) deaths.push_back(venue.die());
    venue.report(deaths);
    return 0;
}

}  // namespace
}  // namespace courthand::bench

int main(int argc, char** argv) {
    return courthand::bench::measurement_main("bench_restart", courthand::bench::measure, argc,
                                              argv);
}
