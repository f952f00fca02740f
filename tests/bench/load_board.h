// A head seat of a venue under load: it holds the board and notes how old each entry is when its
// card shows it.
#pragma once

#include <condition_variable>
#include <cstdint>
#include <map>
#include <memory>
#include <mutex>
#include <string>

#include "courthand/v1/venue.grpc.pb.h"
#include "server/testing/enrolled_device.h"
#include "tests/bench/distribution.h"
#include "tests/bench/load_venue.h"
#include "tests/bench/stream_reader.h"

namespace courthand::bench {

/// Thread-safe. `venue` must outlive it; its timetable is stopped before `stop`.
class LoadBoard {
  public:
    LoadBoard(LoadVenue& venue, const server::testing::EnrolledDevice& device);
    ~LoadBoard() { stop(); }
    LoadBoard(const LoadBoard&) = delete;
    LoadBoard& operator=(const LoadBoard&) = delete;

    void start();
    /// Ends the stream; returns when nothing is under way.
    void stop();

    /// Courts that it has a card of.
    [[nodiscard]] std::size_t courts() const;
    /// Age of each measured entry when its card first showed it or a later one.
    [[nodiscard]] Distribution shown() const;

  private:
    using Watch = StreamReader<v1::WatchBoardRequest, v1::WatchBoardResponse>;
    struct Seen {
        std::string match_id;
        std::uint32_t seq = 0;
    };
    // These need the lock.
    void open();
    void see(const v1::CourtCard& card, Sightings::Clock::time_point now);

    LoadVenue& venue_;
    const std::unique_ptr<v1::Venue::Stub> stub_;
    mutable std::mutex mutex_;
    std::condition_variable ended_;
    Watch* watch_ = nullptr;
    std::map<std::uint32_t, Seen> seen_;
    Distribution shown_;
    bool stopping_ = false;
};

}  // namespace courthand::bench
