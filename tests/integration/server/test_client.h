// A device as the tests see it: calls over TLS with its own certificate.
#pragma once

#include <grpcpp/grpcpp.h>

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "courthand/v1/sync.grpc.pb.h"
#include "server/testing/enrolled_device.h"
#include "server/testing/test_record.h"
#include "tests/testkit/eventually.h"

namespace courthand::server::testing {

class TestClient {
  public:
    /// Calls time out after this; a server that is away is waited for, also one that is killed
    /// eight times in a row and takes seconds to start under sanitizers.
    static constexpr std::chrono::seconds patience = testkit::patience_with_programs;

    TestClient(std::string address, EnrolledDevice device, std::string protocol = "1");

    [[nodiscard]] const EnrolledDevice& device() const noexcept { return device_; }
    [[nodiscard]] v1::Sync::Stub& stub() noexcept { return *stub_; }
    [[nodiscard]] const std::shared_ptr<grpc::Channel>& channel() const noexcept {
        return channel_;
    }
    /// Metadata and deadline of a call.
    void prepare(grpc::ClientContext& context) const;

    /// Pushes entries `first` to `last` of the record, counted from 1.
    struct Pushed {
        grpc::Status status;
        v1::PushResponse response;
    };
    Pushed push(const TestRecord& record, std::uint32_t first, std::uint32_t last,
                const v1::Match* opened_here = nullptr);
    Pushed push_bytes(const wire::Uuid& match, const std::vector<std::string>& entries);
    /// Hands entries on that `maker` signs.
    Pushed hand_on(const TestRecord& record, std::uint32_t first, std::uint32_t last,
                   const EnrolledDevice& maker);
    /// Repeats a push until the server answers, as a client does.
    Pushed push_until_answered(const TestRecord& record, std::uint32_t first, std::uint32_t last,
                               const v1::Match* opened_here = nullptr);

    struct Fetched {
        grpc::Status status;
        v1::FetchMatchResponse response;
    };
    Fetched fetch(const wire::Uuid& match);
    /// Entry bytes of the match as the server holds them, all pieces.
    std::vector<std::string> fetch_record(const wire::Uuid& match);

    struct Granted {
        grpc::Status status;
        v1::GrantWriterResponse response;
    };
    Granted grant(const wire::Uuid& match, bool take_over = false);

  private:
    EnrolledDevice device_;
    std::string protocol_;
    std::shared_ptr<grpc::Channel> channel_;
    std::unique_ptr<v1::Sync::Stub> stub_;
};

/// A watch and what it has told so far.
class TestWatch {
  public:
    TestWatch(TestClient& client, const v1::WatchRequest& request);
    ~TestWatch();

    /// Reads until the condition holds; false when the stream ended first.
    template <class Condition>
    bool read_until(Condition condition) {
        while (!condition(*this))
            if (!read()) return false;
        return true;
    }
    bool read();
    grpc::Status finish();

    std::vector<v1::WatchResponse> responses;
    std::vector<std::string> entries;  ///< of the record, in order of arrival
    std::vector<std::string> branch_entries;
    std::string cursor;
    bool snapshot_complete = false;
    bool resync = false;

  private:
    grpc::ClientContext context_;
    std::unique_ptr<grpc::ClientReader<v1::WatchResponse>> reader_;
};

[[nodiscard]] v1::WatchRequest watch_match(const wire::Uuid& match, std::string cursor = {});

}  // namespace courthand::server::testing
