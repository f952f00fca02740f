// A table of a venue under load: it watches its court, takes the match that the desk planned there,
// makes an entry at its pace and hands it over, and goes on with the next match.
//
// Calls as a table's program does: one call at a time, waiting entries together. What is left out
// is the disk of the device.
#pragma once

#include <grpcpp/grpcpp.h>

#include <condition_variable>
#include <cstdint>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "courthand/sim/dice.h"
#include "courthand/v1/sync.grpc.pb.h"
#include "server/testing/enrolled_device.h"
#include "server/testing/test_record.h"
#include "tests/bench/distribution.h"
#include "tests/bench/load_venue.h"
#include "tests/bench/stream_reader.h"

namespace courthand::bench {

/// What a table did so far.
struct TableTally {
    std::uint64_t entries = 0;   ///< acknowledged, and measured
    std::uint64_t finished = 0;  ///< matches
    Distribution acknowledged;   ///< from making an entry until it was acknowledged
};

/// Thread-safe. `venue` must outlive it; its timetable is stopped before `stop`.
class LoadTable {
  public:
    LoadTable(LoadVenue& venue, const server::testing::EnrolledDevice& device, std::uint32_t court);
    ~LoadTable() { stop(); }
    LoadTable(const LoadTable&) = delete;
    LoadTable& operator=(const LoadTable&) = delete;

    /// The first match begins somewhere in its course, so that not all tables end at one moment.
    void start();
    /// Makes no more entries; what waits is still sent.
    void end_play();
    /// Ends calls and streams; returns when nothing is under way.
    void stop();

    /// True once its first match is as far as it begins.
    [[nodiscard]] bool playing() const;
    /// Entries that are not acknowledged.
    [[nodiscard]] std::size_t waiting() const;
    [[nodiscard]] TableTally tally() const;

  private:
    using Clock = Timetable::Clock;
    using Watch = StreamReader<v1::WatchRequest, v1::WatchResponse>;
    template <class Request, class Response>
    struct Call;

    void tick();
    [[nodiscard]] Clock::duration gap();
    // These need the lock.
    void open_watch();
    void make_entry(bool measured);
    void go_on();
    void look_for_match();
    void found(const grpc::Status& status, const v1::FetchMatchResponse& response);
    void begin(const wire::Uuid& match);
    void push();
    void pushed(const grpc::Status& status, const v1::PushResponse& response);
    [[nodiscard]] bool settle(const v1::PushResult& result);
    void finish();
    void try_again();

    LoadVenue& venue_;
    const server::testing::EnrolledDevice device_;
    const std::uint32_t court_;
    const std::unique_ptr<v1::Sync::Stub> stub_;

    mutable std::mutex mutex_;
    std::condition_variable ended_;
    sim::Dice dice_;
    Watch* watch_ = nullptr;
    grpc::ClientContext* under_way_ = nullptr;  ///< of the one call
    const PlayedMatch* play_ = nullptr;
    std::optional<server::testing::TestRecord> record_;
    std::vector<Clock::time_point> made_at_;  ///< of the record's entries; zero: not measured
    std::uint32_t acknowledged_ = 0;          ///< of the record
    std::string finished_match_;
    bool playing_ = false;
    bool play_ended_ = false;
    bool stopping_ = false;
    TableTally tally_;
};

}  // namespace courthand::bench
