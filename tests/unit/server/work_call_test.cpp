// A call on the work queue, over a connection inside this process.
#include <grpcpp/grpcpp.h>
#include <gtest/gtest.h>

#include <atomic>
#include <functional>
#include <future>
#include <stdexcept>
#include <thread>

#include "courthand/v1/enrolment.grpc.pb.h"
#include "courthand/v1/sync.grpc.pb.h"
#include "server/domain/fault_log.h"
#include "server/service/server_stream.h"
#include "server/service/work_call.h"
#include "wire/answer_limit.h"
#include "wire/message_limits.h"

namespace courthand::server::service {
namespace {

using Answer = Result<v1::EnrolResponse>;

/// A service whose one call runs what the test says.
class OneCall final : public v1::Enrolment::CallbackService {
  public:
    OneCall(WorkQueue& work, std::function<Answer()> body) : work_{work}, body_{std::move(body)} {}
    grpc::ServerUnaryReactor* Enrol(grpc::CallbackServerContext* context,
                                    const v1::EnrolRequest* request,
                                    v1::EnrolResponse* response) override {
        return work_call(work_, context, request, response, body_, Lane::enrolment);
    }

  private:
    WorkQueue& work_;
    std::function<Answer()> body_;
};

class WorkCall : public ::testing::Test {
  protected:
    void TearDown() override {
        server_->Shutdown();
        set_fault_log({});
    }
    void serve(std::function<Answer()> body, WorkQueue::LaneLimits limits = WorkQueue::usual) {
        work_ = std::make_unique<WorkQueue>(limits);
        service_ = std::make_unique<OneCall>(*work_, std::move(body));
        grpc::ServerBuilder builder;
        builder.SetMaxReceiveMessageSize(wire::most_read_bytes);
        builder.RegisterService(service_.get());
        server_ = builder.BuildAndStart();
        stub_ = v1::Enrolment::NewStub(server_->InProcessChannel({}));
    }
    grpc::Status call(std::chrono::milliseconds patience = std::chrono::seconds{60}) {
        grpc::ClientContext context;
        context.set_deadline(std::chrono::system_clock::now() + patience);
        v1::EnrolResponse response;
        return stub_->Enrol(&context, {}, &response);
    }

    std::unique_ptr<WorkQueue> work_;
    std::unique_ptr<OneCall> service_;
    std::unique_ptr<grpc::Server> server_;
    std::unique_ptr<v1::Enrolment::Stub> stub_;
};

// Fault 14: an exception ended the server.
TEST_F(WorkCall, ABodyThatThrowsCostsItsCallAndOneLineOfTheLog) {
    std::atomic<int> lines = 0;
    set_fault_log([&](std::string_view, std::string_view) { ++lines; });
    std::atomic<int> turn = 0;
    serve([&]() -> Answer {
        switch (turn++) {
            case 0:
                throw std::runtime_error{"no luck; host=10.0.0.1 user=courthand"};
            case 1:
                throw 7;
            case 2:
                return Status::failed(StatusCode::unavailable, "away", "try again");
            default:
                return v1::EnrolResponse{};
        }
    });
    for (int i = 0; i < 2; ++i) {
        const grpc::Status status = call();
        EXPECT_EQ(status.error_code(), grpc::StatusCode::INTERNAL);
        EXPECT_EQ(status.error_message().find("host"), std::string::npos)
            << "what went wrong inside is for the log";
    }
    EXPECT_EQ(call().error_code(), grpc::StatusCode::UNAVAILABLE);
    EXPECT_TRUE(call().ok());
    EXPECT_EQ(lines, 2);
}

TEST_F(WorkCall, BeyondTheLimitOfItsLaneItSaysWhenToComeBack) {
    std::promise<void> go;
    const std::shared_future<void> gone = go.get_future().share();
    std::atomic<int> begun = 0;
    serve(
        [&]() -> Answer {
            ++begun;
            gone.wait();
            return v1::EnrolResponse{};
        },
        {{{1, 1}, {1, 1}, {1, 1}, {1, 1}}});
    std::vector<std::future<grpc::Status>> held;
    held.push_back(std::async(std::launch::async, [this] { return call(); }));
    while (begun == 0) std::this_thread::yield();
    // One works, one waits; of two more at least one finds the lane full.
    for (int i = 0; i < 2; ++i)
        held.push_back(std::async(std::launch::async, [this] { return call(); }));
    grpc::ClientContext context;
    v1::EnrolResponse response;
    std::size_t ready = 0;
    while (ready == 0)
        for (std::size_t i = 1; i < held.size(); ++i)
            if (held[i].wait_for(std::chrono::milliseconds{5}) == std::future_status::ready)
                ready = i;
    const grpc::Status refused = held[ready].get();
    EXPECT_EQ(refused.error_code(), grpc::StatusCode::RESOURCE_EXHAUSTED);
    EXPECT_NE(refused.error_message().find("again"), std::string::npos) << "the cure";
    const grpc::Status status = stub_->Enrol(&context, {}, &response);
    EXPECT_EQ(status.error_code(), grpc::StatusCode::RESOURCE_EXHAUSTED);
    EXPECT_EQ(context.GetServerTrailingMetadata().count(retry_metadata_key), 1U);
    go.set_value();
    held.erase(held.begin() + static_cast<std::ptrdiff_t>(ready));
    for (auto& one : held) EXPECT_TRUE(one.get().ok());
}

// Every call of the server is asked in access_matrix_test.cpp.
TEST_F(WorkCall, AMessageAboveTheLimitIsRefusedWithTheCureBeforeAnythingRuns) {
    std::atomic<int> begun = 0;
    serve([&]() -> Answer {
        ++begun;
        return v1::EnrolResponse{};
    });
    const auto say = [this](std::size_t bytes) {
        v1::EnrolRequest request;
        request.set_device_name(std::string(bytes, 'x'));
        request.set_device_name(
            std::string(2 * bytes - request.ByteSizeLong(), 'x'));  // with its tag and its length
        EXPECT_EQ(request.ByteSizeLong(), bytes);
        grpc::ClientContext context;
        v1::EnrolResponse response;
        return stub_->Enrol(&context, request, &response);
    };
    const grpc::Status above = say(wire::most_message_bytes + 1);
    EXPECT_EQ(above.error_code(), grpc::StatusCode::INVALID_ARGUMENT);
    EXPECT_EQ(above.error_message(),
              "a message of 4194305 bytes is too large, at most 4194304 are read; send fewer "
              "entries, facts or lines at once");
    EXPECT_EQ(begun, 0);
    EXPECT_TRUE(say(wire::most_message_bytes).ok());
    EXPECT_EQ(begun, 1);
}

TEST_F(WorkCall, AnAnswerThatNoDeviceCouldTakeSaysThatItMayHaveBeenDone) {
    std::size_t bytes = wire::most_answer_bytes + 1;
    serve([&]() -> Answer {
        v1::EnrolResponse response;
        response.set_tournament_name(std::string(bytes, 'x'));
        response.set_tournament_name(std::string(2 * bytes - response.ByteSizeLong(), 'x'));
        return response;
    });
    const grpc::Status above = call();
    EXPECT_EQ(above.error_code(), grpc::StatusCode::INTERNAL);
    EXPECT_EQ(
        above.error_message(),
        "the answer has 4194305 bytes, a device takes at most 4194304; what was asked may have "
        "been done: look before you do it again, and tell whoever runs the server");
    bytes = wire::most_answer_bytes;
    EXPECT_TRUE(call().ok()) << "as much as gRPC takes by default";
}

/// A stream of two messages, the second of so many bytes.
class TwoMessages final : public ServerStream<v1::WatchResponse> {
  public:
    TwoMessages(StreamRegistry& streams, std::size_t bytes) : ServerStream{streams} {
        second_.set_cursor(std::string(bytes, 'x'));
        second_.set_cursor(std::string(2 * bytes - second_.ByteSizeLong(), 'x'));
    }
    void begin(std::shared_ptr<ServerStream> self, grpc::CallbackServerContext& context) {
        if (!enter(std::move(self), DeviceId{new_uuid()}, context)) return;
        const std::scoped_lock lock{mutex()};
        write(first_);
    }

  private:
    void go_on() override {
        if (std::exchange(second_written_, true)) return finish(grpc::Status::OK);
        write(second_);
    }
    void stop_listening() override {}

    v1::WatchResponse first_;
    v1::WatchResponse second_;
    bool second_written_ = false;
};

class OneStream final : public v1::Sync::CallbackService {
  public:
    explicit OneStream(std::size_t bytes) : bytes_{bytes} {}
    grpc::ServerWriteReactor<v1::WatchResponse>* Watch(grpc::CallbackServerContext* context,
                                                       const v1::WatchRequest*) override {
        const auto stream = std::make_shared<TwoMessages>(streams_, bytes_);
        stream->begin(stream, *context);
        return stream.get();
    }

  private:
    StreamRegistry streams_;
    std::size_t bytes_;
};

/// How such a stream ends, and how many of its messages came.
std::pair<grpc::Status, int> read_stream_of(std::size_t bytes) {
    OneStream service{bytes};
    grpc::ServerBuilder builder;
    builder.RegisterService(&service);
    const auto server = builder.BuildAndStart();
    const auto stub = v1::Sync::NewStub(server->InProcessChannel({}));
    grpc::ClientContext context;
    const auto reader = stub->Watch(&context, {});
    v1::WatchResponse response;
    int came = 0;
    while (reader->Read(&response)) ++came;
    const grpc::Status ended = reader->Finish();
    server->Shutdown();
    return {ended, came};
}

TEST(ServerStreams, EndWithAFaultWhereAMessageIsLargerThanADeviceTakes) {
    const auto [ended, came] = read_stream_of(wire::most_answer_bytes + 1);
    EXPECT_EQ(ended.error_code(), grpc::StatusCode::INTERNAL);
    EXPECT_NE(ended.error_message().find("a device takes at most 4194304; what was asked"),
              std::string::npos)
        << ended.error_message();
    EXPECT_EQ(came, 1);
    EXPECT_EQ(read_stream_of(wire::most_answer_bytes).second, 2);
}

// Fault 20: cancelled calls still ran.
TEST_F(WorkCall, ACallWhoseCallerHasGoneDoesNotRun) {
    std::promise<void> go;
    const std::shared_future<void> gone = go.get_future().share();
    std::atomic<int> begun = 0;
    serve([&]() -> Answer {
        ++begun;
        gone.wait();
        return v1::EnrolResponse{};
    });
    auto first = std::async(std::launch::async, [this] { return call(); });
    while (begun == 0) std::this_thread::yield();
    for (int i = 0; i < 5; ++i)
        EXPECT_EQ(call(std::chrono::milliseconds{20}).error_code(),
                  grpc::StatusCode::DEADLINE_EXCEEDED);
    // The server hears of it a moment later.
    std::this_thread::sleep_for(std::chrono::milliseconds{300});
    go.set_value();
    EXPECT_TRUE(first.get().ok());
    EXPECT_TRUE(call().ok());
    EXPECT_EQ(begun, 2);
}

}  // namespace
}  // namespace courthand::server::service
