// A call on the work queue, over a connection inside this process.
#include <grpcpp/grpcpp.h>
#include <gtest/gtest.h>

#include <atomic>
#include <functional>
#include <future>
#include <stdexcept>
#include <thread>

#include "courthand/v1/enrolment.grpc.pb.h"
#include "server/domain/fault_log.h"
#include "server/service/work_call.h"

namespace courthand::server::service {
namespace {

using Answer = Result<v1::EnrolResponse>;

/// A service whose one call runs what the test says.
class OneCall final : public v1::Enrolment::CallbackService {
  public:
    OneCall(WorkQueue& work, std::function<Answer()> body) : work_{work}, body_{std::move(body)} {}
    grpc::ServerUnaryReactor* Enrol(grpc::CallbackServerContext* context, const v1::EnrolRequest*,
                                    v1::EnrolResponse* response) override {
        return work_call(work_, context, response, body_, Lane::enrolment);
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
