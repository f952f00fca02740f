// A real server with a database of its own, tables that push, each on a court of its own, and one
// head seat that watches.
#pragma once

#include <grpcpp/grpcpp.h>

#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "courthand/v1/sync.grpc.pb.h"
#include "courthand/v1/venue.grpc.pb.h"
#include "server/testing/enrolled_device.h"
#include "server/testing/server_process.h"
#include "server/testing/test_database.h"
#include "server/testing/test_record.h"
#include "tests/bench/played_match.h"
#include "tests/bench/secure_channel.h"

namespace courthand::bench {

/// What one measurement sends at most: less than an ordinary match has, which is about 530.
inline constexpr std::size_t least_match_entries = 420;

struct MeasuredTable {
    server::testing::EnrolledDevice device;
    std::uint32_t court = 0;
};

/// A match that the server knows and the device that may write it.
struct MeasuredMatch {
    server::testing::TestRecord record;  ///< ready to be sent
    server::testing::EnrolledDevice table;
};

/// Needs COURTHAND_TEST_DSN. Must be made before gRPC is used in this process: it forks.
class MeasuredVenue {
  public:
    MeasuredVenue();

    /// A table on a court of its own.
    [[nodiscard]] MeasuredTable new_table();
    /// A simulated match of at least so many entries, opened at the server by the table.
    [[nodiscard]] server::testing::TestRecord open_match(const MeasuredTable& table,
                                                         std::size_t least_entries);
    /// The same by a new table, with at least `least_match_entries` entries.
    [[nodiscard]] MeasuredMatch new_match();
    [[nodiscard]] const server::testing::EnrolledDevice& head() const noexcept { return head_; }
    [[nodiscard]] std::string address() const { return process_.address(); }
    [[nodiscard]] const std::string& dsn() const noexcept { return database_.dsn(); }

  private:
    [[nodiscard]] PlayedMatch next_played(std::size_t least_entries);

    server::testing::TestDatabase database_;
    server::testing::ServerProcess process_;
    server::testing::EnrolledDevice head_;
    std::uint32_t courts_ = 0;
    std::uint64_t seed_ = 0;
};

/// Entries sent one by one, each acknowledged before the next, on one connection, as a table does.
class EntrySender {
  public:
    EntrySender(const std::string& address, const server::testing::EnrolledDevice& device);

    /// False when the server did not answer that all was appended.
    [[nodiscard]] bool send(const std::string& match_id, const std::string& entry);
    [[nodiscard]] bool send(const v1::PushRequest& request);

  private:
    std::unique_ptr<v1::Sync::Stub> stub_;
};

/// True when the server answered of all entries of the push that they are appended.
[[nodiscard]] bool all_appended(const v1::PushRequest& request, const v1::PushResponse& response);

/// The board as the head seat receives it, on a thread of its own.
class BoardWatch {
  public:
    using Clock = std::chrono::steady_clock;

    explicit BoardWatch(const MeasuredVenue& venue);
    ~BoardWatch();
    BoardWatch(const BoardWatch&) = delete;
    BoardWatch& operator=(const BoardWatch&) = delete;

    /// Looks out for entry `seq` of the match; call before it is sent.
    void expect(const std::string& match_id, std::uint32_t seq);
    /// When the card of the match showed that entry; nothing after ten seconds.
    [[nodiscard]] std::optional<Clock::time_point> shown();

  private:
    void run();

    grpc::ClientContext context_;
    std::unique_ptr<v1::Venue::Stub> stub_;
    std::unique_ptr<grpc::ClientReader<v1::WatchBoardResponse>> reader_;
    std::mutex mutex_;
    std::condition_variable wake_;
    std::string match_id_;
    std::uint32_t seq_ = 0;  ///< 0: nothing is looked out for
    Clock::time_point at_;
    std::thread thread_;
};

}  // namespace courthand::bench
